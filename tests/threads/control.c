/* SPDX-License-Identifier: MIT */
/* Holds the watcher to account: with RACE every thread adds to one number without asking the
 * others, which it must see; without, each writes its own, which it must pass. */
#include <stdio.h>

enum { TURNS = 1000 };

int main(void)
{
    static long each[TURNS];
    long sum = 0;
#pragma omp parallel for schedule(static)
    for (long i = 0; i < TURNS; i++) {
        each[i] = i;
#ifdef RACE
        sum += i;
#endif
    }
    for (int i = 0; i < TURNS; i++)
        sum += each[i];
    printf("%ld\n", sum);
    return 0;
}
