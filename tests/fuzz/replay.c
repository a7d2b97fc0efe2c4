/* SPDX-License-Identifier: MIT */
/* Shows a target each of its seeds, for `make check`: one that breaks it ends the program. */
#include "fuzz.h"

#include <dirent.h>

static void show(const char *path)
{
    FILE *stream = fopen(path, "rb");
    MUST(stream != NULL);
    uint8_t *data = malloc(BRAKE_FILE_BYTES);
    MUST(data != NULL);
    const size_t size = fread(data, 1, BRAKE_FILE_BYTES, stream);
    fclose(stream);
    fprintf(stderr, "%s\n", path);
    LLVMFuzzerTestOneInput(data, size);
    free(data);
}

int main(int count, char **words)
{
    char path[1000];
    int shown = 0;
    (void)count;
    const char *name = strrchr(words[0], '/');
    snprintf(path, sizeof path, "%s/tests/fuzz/seeds%s", SOURCE_ROOT, name);
    DIR *folder = opendir(path);
    MUST(folder != NULL);
    const size_t length = strlen(path);
    for (const struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path + length, sizeof path - length, "/%s", entry->d_name);
        show(path);
        shown++;
    }
    closedir(folder);
    printf("[  PASSED  ] %d test(s).\n", shown);
    return 0;
}
