/* SPDX-License-Identifier: MIT */
/* Words of the command line: the value of `--stop`, `--snubs` or `--descent`, that of `--cool`. */
#include "fuzz.h"

#include "../../libbrake/command/heat.c"

/* What is taken has limits: no duty goes on without end, none asks for what is no number. */
static void look(const struct brake_duty *duty)
{
    MUST(brake_duty_wrong(duty) == NULL);
    MUST(duty->force >= 0.0 && duty->rest >= 0.0 && duty->rest_speed >= 0.0);
    if (duty->kind == BRAKE_DUTY_DESCENT)
        MUST(duty->descent.speed > 0.0 && duty->descent.length > 0.0);
    else
        MUST(duty->stops.count >= 1 && duty->stops.from > duty->stops.to);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char *const kinds[] = {"--stop", "--snubs", "--descent"};
    struct brake_duty duty = {.kind = BRAKE_DUTY_STOPS};
    struct brake_written_drive drive = {.points = 0};
    if (size == 0)
        return 0;
    char *words = text_of(data + 1, size - 1);
    char *cool = cut_line(words);
    const struct options o = {
        .kind = kinds[data[0] % 3], .duty = words, .cool = *cool != '\0' ? cool : NULL};
    if (take_duty(&o, &heron()->vehicle, &duty, &drive) == 0)
        look(&duty);
    free(words);
    return 0;
}
