/* SPDX-License-Identifier: MIT */
/* Runs a command once, its output thrown away, and prints: seconds, peak resident memory [KiB],
 * exit status. It is small itself because a child inherits the peak of the process that starts it:
 * started from an interpreter, every program would seem to need the interpreter's memory. */
#define _GNU_SOURCE
#include <fcntl.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

int main(int argc, char **argv)
{
    if (argc < 2)
        return 2;
    const int sink = open("/dev/null", O_WRONLY);
    const double start = now();
    const pid_t child = vfork();
    if (child == 0) {
        dup2(sink, STDOUT_FILENO);
        dup2(sink, STDERR_FILENO);
        execv(argv[1], argv + 1);
        _exit(127);
    }
    int status;
    struct rusage usage;
    if (child < 0 || wait4(child, &status, 0, &usage) != child)
        return 1;
    const double seconds = now() - start;
    printf("%.6f %ld %d\n", seconds, usage.ru_maxrss,
           WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status));
    return 0;
}
