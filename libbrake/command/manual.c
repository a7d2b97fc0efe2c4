/* SPDX-License-Identifier: MIT */
#include "manual.h"

#include <stdio.h>
#include <string.h>

#include "help.h"
#include "verbs.h"
#include "vehicle/text.h"

/* ---- the page ------------------------------------------------------------------------------- */

/* A text as troff reads it: a hyphen that can be copied, no letter that is a command. */
static void put(const char *text)
{
    if (*text == '.' || *text == '\'')
        fputs("\\&", stdout);
    for (; *text != '\0'; text++) {
        if (*text == '\\')
            fputs("\\e", stdout);
        else if (*text == '-')
            fputs("\\-", stdout);
        else if (*text == '`' || *text == '\'')
            fputs(*text == '`' ? "\\(ga" : "\\(aq", stdout);
        else
            putchar(*text);
    }
}

static void put_line(const char *text)
{
    put(text);
    putchar('\n');
}

/* Bold what is typed, slanted what stands for something. */
static void put_option(const struct words_option *option)
{
    if (option->name != NULL) {
        fputs("\\fB", stdout);
        put(option->name);
        fputs("\\fR", stdout);
    }
    if (option->name != NULL && option->value[0] != '\0')
        putchar(' ');
    if (option->value[0] != '\0') {
        fputs("\\fI", stdout);
        put(option->value);
        fputs("\\fR", stdout);
    }
}

static void put_tagged(const struct words_option *option)
{
    puts(".TP");
    put_option(option);
    putchar('\n');
    put_line(option->help);
}

static void put_synopsis(const struct words_verb *verb)
{
    fputs(".TP\n\\fBstopmargin ", stdout);
    put(verb->name);
    fputs("\\fR ", stdout);
    put_option(words_operand(verb->options));
    if (verb->needed[0] != '\0') {
        putchar(' ');
        put(verb->needed);
    }
    puts(" [\\fIoptions\\fR]");
    put_line(verb->brief);
}

static void put_verb(const struct words_verb *verb)
{
    fputs(".SS ", stdout);
    put_line(verb->name);
    put_line(verb->about);
    put_tagged(words_operand(verb->options));
    for (const struct words_option *option = verb->options; option->name != NULL; option++)
        put_tagged(option);
    puts(".PP");
    fputs("Exit status: ", stdout);
    put_line(verb->status);
}

int manual_print(void)
{
    brake_text_print(stdout, ".TH STOPMARGIN 1 \"\" \"libbrake %s\" \"User commands\"\n",
                     BRAKE_VERSION);
    fputs(".SH NAME\nstopmargin \\- ", stdout);
    put_line(help_title);
    puts(".SH SYNOPSIS");
    for (int i = 0; verbs[i] != NULL; i++)
        put_synopsis(verbs[i]);
    puts(".SH CAUTION");
    put_line(BRAKE_CAUTION);
    puts(".SH A FIRST HOUR");
    put_line(help_first_hour);
    puts(".SH VERBS\nEach takes \\fB\\-h\\fR and \\fB\\-\\-help\\fR; \\fB\\-\\-\\fR ends its "
         "options. "
         "\\fBstopmargin \\-V\\fR or\n\\fB\\-\\-version\\fR tells the version. A file named "
         "\\fB\\-\\fR is "
         "standard input.");
    for (int i = 0; verbs[i] != NULL; i++)
        put_verb(verbs[i]);
    puts(".SH EXIT STATUS");
    put_line(help_status);
    return 0;
}

/* ---- completion ----------------------------------------------------------------------------- */

/* A value that is one of several words, not something that stands for them. */
static bool is_choice(const char *value)
{
    return strchr(value, '|') != NULL &&
           strspn(value, "abcdefghijklmnopqrstuvwxyz|") == strlen(value);
}

static void put_choices(const struct words_verb *verb)
{
    for (const struct words_option *option = verb->options; option->name != NULL; option++) {
        if (!is_choice(option->value))
            continue;
        brake_text_print(stdout, "    '%s %s') words='", verb->name, option->name);
        for (const char *at = option->value; *at != '\0'; at++)
            putchar(*at == '|' ? ' ' : *at);
        puts("' ;;");
    }
}

int completion_print(void)
{
    puts("# Completion of stopmargin for bash.\n"
         "_stopmargin()\n"
         "{\n"
         "    local words='' word=${COMP_WORDS[COMP_CWORD]}\n"
         "    case \"${COMP_WORDS[1]} ${COMP_WORDS[COMP_CWORD-1]}\" in");
    for (int i = 0; verbs[i] != NULL; i++)
        put_choices(verbs[i]);
    puts("    esac\n"
         "    if [[ $word == -* ]]; then\n"
         "        case ${COMP_WORDS[1]} in");
    for (int i = 0; verbs[i] != NULL; i++) {
        brake_text_print(stdout, "        %s) words='", verbs[i]->name);
        for (const struct words_option *option = verbs[i]->options; option->name != NULL; option++)
            brake_text_print(stdout, "%s ", option->name);
        puts("--help' ;;");
    }
    fputs("        esac\n"
          "    elif ((COMP_CWORD == 1)) || [[ ${COMP_WORDS[1]} == help ]]; then\n"
          "        words='",
          stdout);
    for (int i = 0; verbs[i] != NULL; i++)
        brake_text_print(stdout, "%s%s", i > 0 ? " " : "", verbs[i]->name);
    puts("'\n"
         "    fi\n"
         "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
         "}\n"
         "complete -o default -F _stopmargin stopmargin");
    return 0;
}
