#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "command.h"

struct options {
    const char *file;
    const char *output;
    char *setting[COMMAND_SETTINGS];
    int settings;
    enum brake_load load;
    bool text;
};

static int take_plain(struct options *o, const char *word)
{
    if (strcmp(word, "--text") == 0)
        o->text = true;
    else if (word[0] == '-' && word[1] != '\0')
        return command_misused("unknown option '%s'; accepts -o, --load, --set, --text", word);
    else if (o->file != NULL)
        return command_misused("one file at a time; got '%s' and '%s'", o->file, word);
    else
        o->file = word;
    return 0;
}

static int take_word(char **words, int *at, struct options *o)
{
    char *word = words[*at];
    char *next = words[*at + 1];
    char *value = command_value_of("--set", word, next, at);
    if (value != NULL) {
        if (o->settings == COMMAND_SETTINGS)
            return command_misused("accepts up to %d times --set", COMMAND_SETTINGS);
        o->setting[o->settings++] = value;
        return 0;
    }
    value = command_value_of("--load", word, next, at);
    if (value != NULL)
        return command_take_load(value, &o->load);
    value = command_value_of("-o", word, next, at);
    if (value == NULL)
        return take_plain(o, word);
    if (value[0] == '\0')
        return command_misused("-o wants a file to write");
    o->output = value;
    return 0;
}

static int take_words(char **words, struct options *o)
{
    for (int i = 1; words[i] != NULL; i++) {
        const int status = take_word(words, &i, o);
        if (status != 0)
            return status;
    }
    return o->file != NULL ? 0 : command_misused("shakedown wants a vehicle file");
}

static int refuse_output(const char *path)
{
    fprintf(stderr, "%s: cannot be written: %s\n", path, strerror(errno));
    return EXIT_REFUSED;
}

static int write_plan(const struct options *o, const struct brake_sheet *sheet,
                      const struct brake_shakedown *plan)
{
    FILE *stream = o->output != NULL ? fopen(o->output, "wb") : stdout;
    if (stream == NULL)
        return refuse_output(o->output);
    if (o->text)
        brake_report_shakedown_text(sheet, plan, stream);
    else
        brake_report_shakedown_html(sheet, plan, stream);
    if (o->output == NULL)
        return 0;
    const bool failed = ferror(stream) != 0;
    return fclose(stream) != 0 || failed ? refuse_output(o->output) : 0;
}

int command_shakedown(int count, char **words)
{
    (void)count;
    struct options o = {.load = BRAKE_EMPTY};
    struct brake_sheet sheet;
    struct brake_shakedown plan;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, o.setting, o.settings, &sheet);
    if (status != 0)
        return status;
    brake_shakedown_plan(&sheet, o.load, &plan);
    status = write_plan(&o, &sheet, &plan);
    if (status == 0 && plan.stages == 0) {
        fprintf(stderr, "%s: the brakes of this file give no deceleration\n", o.file);
        status = 3;
    }
    return status;
}
