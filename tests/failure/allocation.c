/* SPDX-License-Identifier: MIT */
/* Preloaded, it lets allocations fail: ALLOCATION_FAILS=N, the N-th of the process after main has
 * begun, or ALLOCATION_FAILS=N+, that one and all after it. ALLOCATION_COUNT=FILE: how many there
 * were. Those of the runtime of the threads count too, but not what it and the C library ask for
 * before main, nor what the C library asks for past these three functions. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static atomic_long asked;
static atomic_bool counting;

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *block, size_t size);

static bool fails(void)
{
    if (!atomic_load(&counting))
        return false;
    char *end;
    const char *text = getenv("ALLOCATION_FAILS");
    const long chosen = text != NULL ? strtol(text, &end, 10) : 0;
    const long now = atomic_fetch_add(&asked, 1) + 1;
    if (chosen == 0 || (now != chosen && !(*end == '+' && now > chosen)))
        return false;
    errno = ENOMEM;
    return true;
}

void *malloc(size_t size)
{
    return fails() ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return fails() ? NULL : __libc_calloc(count, size);
}

void *realloc(void *block, size_t size)
{
    return fails() ? NULL : __libc_realloc(block, size);
}

__attribute__((destructor)) static void tell(void)
{
    const char *name = getenv("ALLOCATION_COUNT");
    atomic_store(&counting, false);
    const int file = name != NULL ? open(name, O_WRONLY | O_CREAT | O_TRUNC, 0600) : -1;
    if (file < 0)
        return;
    dprintf(file, "%ld", atomic_load(&asked));
    close(file);
}

typedef int main_function(int count, char **words, char **variables);
typedef int start_function(main_function *begin, int count, char **words, void (*before)(void),
                           void (*after)(void), void (*loader)(void), void *stack);

static main_function *program;

static int begin(int count, char **words, char **variables)
{
    atomic_store(&counting, true);
    return program(count, words, variables);
}

/* Where every program for this C library begins. */
int __libc_start_main(main_function *main, int count, char **words, void (*before)(void),
                      void (*after)(void), void (*loader)(void), void *stack)
{
    start_function *start;
    *(void **)&start = dlsym(RTLD_NEXT, "__libc_start_main");
    program = main;
    return start(begin, count, words, before, after, loader, stack);
}
