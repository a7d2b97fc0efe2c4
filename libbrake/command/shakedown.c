#include "output.h"
#include "words.h"
#include "vehicle/text.h"

struct options {
    char *file;
    char *output;
    struct command_list set;
    enum brake_load load;
    bool text;
    bool json;
};

static int take_words(char **words, struct options *o)
{
    const struct words_option options[] = {
        {"-o", words_take_text, &o->output}, {"--load", words_take_load, &o->load},
        {"--set", words_keep, &o->set},      {"--text", NULL, &o->text},
        {"--json", NULL, &o->json},          {NULL, words_take_file, &o->file}};
    const int status = words_take(words, options);
    if (status != 0)
        return status;
    if (o->output != NULL && o->output[0] == '\0')
        return command_misused("-o wants a file; - is standard output");
    if (o->json && (o->text || o->output != NULL))
        return command_misused("--json goes to standard output, without -o and --text");
    return o->file != NULL ? 0 : command_misused("shakedown wants a vehicle file");
}

static int write_plan(const struct options *o, const struct brake_sheet *sheet,
                      const struct brake_shakedown *plan)
{
    const enum brake_format format = o->json   ? BRAKE_AS_JSON
                                     : o->text ? BRAKE_AS_TEXT
                                               : BRAKE_AS_HTML;
    char *const inputs[] = {o->file, NULL};
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_shakedown(d, sheet, plan);
    return command_write(d, format, o->output, inputs);
}

int command_shakedown(int count, char **words)
{
    (void)count;
    struct options o = {.load = BRAKE_EMPTY, .set = {.option = "--set", .most = COMMAND_SETTINGS}};
    struct brake_sheet sheet;
    struct brake_shakedown plan;
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &sheet);
    if (status != 0)
        return status;
    brake_shakedown_plan(&sheet, o.load, &plan);
    status = write_plan(&o, &sheet, &plan);
    if (status == 0 && plan.stages == 0) {
        command_tell("%s: the brakes of this file give no deceleration\n", o.file);
        status = 3;
    }
    return status;
}
