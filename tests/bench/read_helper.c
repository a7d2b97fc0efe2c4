/* SPDX-License-Identifier: MIT */
/* The least that a program can do with a file: start, read it and end. */
#include <stdio.h>

int main(int argc, char **argv)
{
    char block[4096];
    FILE *file = argc == 2 ? fopen(argv[1], "rb") : NULL;
    if (!file)
        return 1;
    while (fread(block, 1, sizeof block, file) > 0)
        ;
    return fclose(file) == 0 ? 0 : 1;
}
