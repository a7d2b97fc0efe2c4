/* SPDX-License-Identifier: MIT */
#include "help.h"

#include <string.h>

#include "manual.h"
#include "verbs.h"
#include "answer/paragraph.h"
#include "vehicle/text.h"

const char help_title[] = "are the brakes of a modified road vehicle still adequate?";

const char help_first_hour[] =
    "`stopmargin new --front disc --rear drum --country at -o mine.ini`; write what you measured "
    "in "
    "place of the dots, a line a measurement, with its unit, what it may be off by and where it "
    "came from, such as `wheelbase = 2420 mm +- 4 mm, measured`; then `stopmargin check mine.ini`. "
    "It says which lines it lacks and how to get them. What if: `stopmargin check mine.ini --set "
    "front.tyre.rollout=\"2.70 m\"`.";

const char help_status[] = "0 all hazards and all that binds are met; 1 one falls short; 2 the "
                           "input was refused, or a file "
                           "that was named cannot be used; 3 none falls short, but something could "
                           "not be said; 4 the machine "
                           "failed: disk, memory, threads. 2 and 4 are those of every verb; "
                           "`stopmargin help VERB` says what "
                           "the others mean there.";

static void paragraph(const char *head, const char *text)
{
    char whole[1000];
    brake_text_format(whole, sizeof whole, "%s%s", head, text);
    brake_paragraph(stdout, "", whole);
}

/* ---- how a verb is called ------------------------------------------------------------------- */

/* Whether a verb is shown with an option whenever it is called. */
static bool is_needed(const struct words_verb *verb, const struct words_option *option)
{
    const size_t length = strlen(option->name);
    const char *at = strstr(verb->needed, option->name);
    for (; at != NULL; at = strstr(at + 1, option->name)) {
        if ((at == verb->needed || at[-1] == ' ' || at[-1] == '|') &&
            strchr(" |", at[length]) != NULL)
            return true;
    }
    return false;
}

/* One more word of a line, or of the next one. */
static void add(const char *word, int *column)
{
    const int width = (int)strlen(word);
    if (width == 0)
        return;
    const bool full = *column + 1 + width > BRAKE_TEXT_COLUMNS;
    brake_text_print(stdout, "%s%s", full ? "\n      " : " ", word);
    *column = (full ? 6 : *column + 1) + width;
}

static void print_usage(const struct words_verb *verb, int column)
{
    brake_text_print(stdout, "stopmargin %s", verb->name);
    column += (int)strlen("stopmargin ") + (int)strlen(verb->name);
    add(words_operand(verb->options)->value, &column);
    add(verb->needed, &column);
    for (const struct words_option *option = verb->options; option->name != NULL; option++) {
        char word[80];
        brake_text_format(word, sizeof word, "[%s%s%s]", option->name,
                          option->value[0] != '\0' ? " " : "", option->value);
        if (!is_needed(verb, option))
            add(word, &column);
    }
    putchar('\n');
}

int help_usage(void)
{
    for (int i = 0; verbs[i] != NULL; i++)
        print_usage(verbs[i], 0);
    return 0;
}

/* ---- one verb ------------------------------------------------------------------------------- */

/* A name and what is told of it, beside it or, where it is long, below. */
static void print_row(const char *name, const char *value, const char *text)
{
    enum { WIDTH = 22 };
    char head[100];
    const int length = brake_text_format(head, sizeof head, "  %s%s%s", name,
                                         name[0] != '\0' && value[0] != '\0' ? " " : "", value);
    const bool is_long = length > WIDTH + 2;
    if (is_long)
        brake_text_print(stdout, "%s\n", head);
    brake_text_format(head + strlen(head), sizeof head - strlen(head), "%*s",
                      is_long ? 0 : WIDTH + 4 - length, "");
    if (is_long)
        brake_text_format(head, sizeof head, "%*s", WIDTH + 4, "");
    brake_paragraph(stdout, head, text);
}

int help_of_verb(const struct words_verb *verb)
{
    const struct words_option *operand = words_operand(verb->options);
    brake_text_print(stdout, "Usage: ");
    print_usage(verb, (int)strlen("Usage: "));
    putchar('\n');
    paragraph("", verb->about);
    putchar('\n');
    print_row("", operand->value, operand->help);
    for (const struct words_option *option = verb->options; option->name != NULL; option++)
        print_row(option->name, option->value, option->help);
    print_row("-h, --help", "", "this help");
    print_row("--", "", "ends the options: what follows is a file");
    putchar('\n');
    paragraph("Exit status: ", verb->status);
    puts(BRAKE_CAUTION_LINE);
    return 0;
}

/* ---- all of them ---------------------------------------------------------------------------- */

int help_of_all(void)
{
    brake_text_print(stdout, "stopmargin %s: %s\n\n", BRAKE_VERSION, help_title);
    for (int i = 0; verbs[i] != NULL; i++)
        print_row(verbs[i]->name, words_operand(verbs[i]->options)->value, verbs[i]->brief);
    putchar('\n');
    paragraph(
        "",
        "`stopmargin help VERB`, or `stopmargin VERB --help`, tells its options; -V, --version the "
        "version. A file named - is standard input.");
    putchar('\n');
    paragraph("A first hour: ", help_first_hour);
    putchar('\n');
    paragraph("Exit status: ", help_status);
    putchar('\n');
    paragraph("CAUTION: ", BRAKE_CAUTION);
    return 0;
}

/* ---- the verb ------------------------------------------------------------------------------- */

struct options {
    char *verb;
    bool usage;
    bool man;
    bool bash;
};

static const struct words_option options[] = {
    {"--usage", "", NULL, offsetof(struct options, usage), "how each verb is called"},
    {"--man", "", NULL, offsetof(struct options, man), "the manual page, for man(1)"},
    {"--bash", "", NULL, offsetof(struct options, bash), "completion, for bash to source"},
    {NULL, "[VERB]", words_take_text, offsetof(struct options, verb),
     "one of them; left out: all, in short"}};

static int run_help(char **words)
{
    struct options o = {0};
    const int status = words_take(words, options, &o);
    if (status != 0)
        return status;
    if (o.man)
        return manual_print();
    if (o.bash)
        return completion_print();
    if (o.usage)
        return help_usage();
    if (o.verb == NULL)
        return help_of_all();
    const struct words_verb *verb = verbs_find(o.verb);
    return verb != NULL ? help_of_verb(verb) : EXIT_MISUSED;
}

const struct words_verb verb_help = {"help",
                                     "",
                                     "what a verb does, its options; the verbs",
                                     "Tells what a verb does, its options and its exit status; "
                                     "without one, all verbs in short, how to "
                                     "begin, and the exit statuses.",
                                     "0 it was told.",
                                     options,
                                     run_help};
