/* SPDX-License-Identifier: MIT */
/* Words of the command line: an axis of `sweep` on each line but the last, the outputs on that.
 * What is taken is swept, its first case and its last. */
#include "fuzz.h"

#include "../../libbrake/command/sweep.c"

static void sweep(struct job *job)
{
    struct brake_error error;
    struct brake_sweeper *sweeper = brake_sweeper_new(&job->sweep, &error);
    if (sweeper == NULL) {
        MUST(error.text[0] != '\0');
        return;
    }
    const long long cases = brake_sweep_count(&job->sweep);
    MUST(cases >= 1);
    const long long asked[] = {0, cases / 2, cases - 1};
    for (int i = 0; i < 3; i++) {
        char *row = brake_report_sweep_row(sweeper, asked[i]);
        MUST(row != NULL && row[strlen(row) - 1] == '\n');
        free(row);
    }
    brake_sweeper_free(sweeper);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct job job;
    static struct options o;
    char *words = text_of(data, size);
    int status = 0;
    memset(&o, 0, sizeof o);
    memset(&job, 0, sizeof job);
    job.sheet = *heron();
    char *word = words;
    for (char *next = cut_line(word); *next != '\0'; next = cut_line(word)) {
        if (status == 0 && job.sweep.axes < AXES)
            status = take_axis(word, &job);
        word = next;
    }
    if (status == 0)
        status = take_outputs(&o, options, word);
    job.sweep = (struct brake_sweep){.sheet = &job.sheet,
                                     .axis = job.axis,
                                     .output = o.output,
                                     .axes = job.sweep.axes,
                                     .outputs = o.outputs};
    if (status == 0 && job.sweep.axes > 0 && o.outputs > 0)
        sweep(&job);
    for (int i = 0; i < AXES; i++)
        free(job.list[i]);
    free(words);
    return 0;
}
