#define _POSIX_C_SOURCE 200809L /* NOLINT: open, fcntl, SIGXFSZ */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "machine.h"
#include "output.h"
#include "vehicle/letters.h"
#include "vehicle/text.h"

enum { TOLD = 6000 /* bytes of a message: the longest path, and words */ };

/* In parts: a compiler need not take a string of more than 4095 bytes. */
static const char *const help[] = {
    "stopmargin " BRAKE_VERSION ": are the brakes of a modified road vehicle still adequate?\n"
    "\n"
    "  stopmargin new              write a vehicle file to start from, explained\n"
    "  stopmargin new FILE         FILE again: its lines as they are, the others\n"
    "                              added as comments that explain them\n"
    "      -o OUT                  into a file, which may be FILE itself\n"
    "  stopmargin check FILE       verdict, limiting item, next measurement, numbers\n"
    "      --set PATH=VALUE        change a line for this run (may be repeated)\n"
    "      --rules us|un|eu|all    requirements to judge by (all)\n"
    "      --json                  one JSON object in SI units\n"
    "  stopmargin compare BEFORE AFTER\n"
    "                              what each change took or gave; is the stopping\n"
    "                              torque per unit of need regained\n"
    "      --fade                  hot performance too; takes a minute or so\n"
    "      --rules us|un|eu|all, --json\n"
    "  stopmargin heat FILE        how hot the brakes get: fade, boiling; one of\n"
    "      --stop 100km/h[,FORCE]              hardest stop, or at a force: 300N\n"
    "      --snubs 15,120km/h,60km/h,45s,3m/s2 or a published sequence: us.135.fade,\n"
    "                                          un.13h.fade, un.13.fade\n"
    "      --descent 8%,6km,50km/h[,ENGINE]    share of the engine: 30%\n"
    "      --cycle DRIVE.csv                   time [s],speed [km/h],grade [%]\n"
    "      --cool TIME[,SPEED]     afterwards (30min standing; nothing after a stop)\n"
    "      --load empty|full       load case (full)\n"
    "      --set PATH=VALUE, --json, --csv (the history)\n"
    "  stopmargin spread FILE      how sure the verdict is: all tolerances drawn;\n"
    "                              how often each requirement is met, what decides it\n"
    "      --samples N             1024 to 262144, a power of two (16384)\n"
    "      --shape normal|uniform|triangular   of every tolerance (normal)\n"
    "      --shape PATH=SHAPE      of one; 95 of 100 lie within the tolerance in each\n"
    "      --fade                  hot performance too; takes minutes\n"
    "      --set PATH=VALUE, --rules us|un|eu|all, --json\n"
    "  stopmargin sweep FILE       results over ranges of lines, as CSV with units\n"
    "      --axis PATH=LOW:HIGH:STEP           2.2m:2.9m:0.01m (may be repeated; the\n"
    "                                          last axis runs fastest)\n"
    "      --axis PATH=V,V,V                   1800kg,4200lb\n"
    "      --axis PATH=LOW:HIGH:N@log          N values in equal ratios\n"
    "      --out NAME,...          results, or criteria: their margin\n"
    "      --into FILE [--resume]  a new file; go on with one that was stopped\n"
    "      --bare                  without the first line, which begins with #\n"
    "      --threads N             (all processors; the rows are the same)\n"
    "      --set PATH=VALUE\n",
    "  stopmargin size FILE        what must be fitted\n"
    "      --by PATH               line to change, or only --within LOW,HIGH\n"
    "      --by PATH=SIZE,SIZE,... sizes to choose from; several --by: combinations\n"
    "      --by tyre=MARKING,...   the largest tyre that the brakes carry\n"
    "      --for CRITERION         met, or 'CRITERION = 10 %'; all: every one\n"
    "      --for 'RESULT = VALUE'  or >= or <=, in any unit of the trade, such as\n"
    "                              'full.deceleration.at_pedal_force = 7 m/s2';\n"
    "                              'decel at 300 N = 7 m/s2' is that result, with\n"
    "                              driver.pedal_force set to 300 N\n"
    "      --set PATH=VALUE, --json; ends with 0 found, 1 none there, 3 cannot say\n",
    "  stopmargin report FILE -o OUT.html      the report for inspection, on paper\n"
    "      --before FILE           the vehicle before it was changed\n"
    "      --drivelog LOG.csv      a measured drive beside the prediction; with\n"
    "                              --driven empty|full (empty), --columns as below\n"
    "      --text                  the same without pictures; -o - is standard output\n"
    "      --load empty|full       load case of stop, fade and descent (full)\n"
    "      --set PATH=VALUE, --rules us|un|eu|all\n"
    "  stopmargin shakedown FILE -o PLAN.html  plan of the first drive, for print\n"
    "      --load empty|full       as it will be driven (empty)\n"
    "      --set PATH=VALUE, --text, --json\n"
    "  stopmargin drivelog FILE LOG.csv        measured stops against the prediction\n"
    "      LOG.csv                 time [s],speed [km/h] and, best, pedal_force [N]\n"
    "      --columns time=s,speed=mph          units that its header does not give\n"
    "      --nominal 80km/h,50km/h speeds that distances are brought to\n"
    "      --load empty|full       as it was driven (empty)\n"
    "      --set PATH=VALUE, --json\n"
    "  stopmargin explain          list all lines of a vehicle file and all results\n"
    "  stopmargin explain PATH     meaning, unit, range, default, how to measure it\n"
    "  stopmargin --help | --version\n"
    "\n"
    "A first hour: `stopmargin new > mine.ini`; fill in what you measured, a line a\n"
    "measurement, with its unit, what it may be off by and where it came from:\n"
    "      mass = 1985 kg +- 15 kg, measured\n"
    "then `stopmargin check mine.ini`. It says which line it lacks and how to get it.\n"
    "What if: stopmargin check mine.ini --set front.tyre.rollout=\"2.70 m\"\n"
    "\n"
    "Exit status: 0 every requirement that applies is met; 1 one falls short; 2 the\n"
    "input was refused, or a file that was named cannot be used; 3 none falls short,\n"
    "but something could not be said; 4 the machine failed: disk, memory, threads. Of\n"
    "spread: a requirement falls short when fewer than 95 of 100 samples meet it. Of\n"
    "compare: 0 the torque per need is regained by both axles together, and nothing\n"
    "that was met before falls short; 1 not so; 3 it could not be said.\n"
    "\n"
    "CAUTION: A calculation is not an approval. Local codes rule, and road brakes\n"
    "must be checked by a qualified inspector before the vehicle is driven on the\n"
    "road.\n"};

int command_misused(const char *format, ...)
{
    char text[TOLD];
    va_list list;
    va_start(list, format);
    brake_text_format_list(text, sizeof text, format, list);
    va_end(list);
    command_tell("stopmargin: %s\n", text);
    fputs("stopmargin: try `stopmargin --help`\n", stderr);
    return EXIT_REFUSED;
}

void command_tell(const char *format, ...)
{
    char text[TOLD];
    va_list list;
    va_start(list, format);
    brake_text_format_list(text, sizeof text, format, list);
    va_end(list);
    char *end = text + strlen(text);
    const bool line = end > text && end[-1] == '\n';
    if (line)
        end[-1] = '\0';
    brake_text_make_plain(text);
    fputs(text, stderr);
    if (line)
        fputc('\n', stderr);
}

static int refuse(const char *before, const char *where, const struct brake_error *error)
{
    char line[16] = "";
    if (error->line > 0)
        brake_text_format(line, sizeof line, ":%d", error->line);
    command_tell("%s%s%s%s%s: %s\n", before, where, line, error->field[0] != '\0' ? ": " : "",
                 error->field, error->text);
    return EXIT_REFUSED;
}

int command_refuse(const char *file, const struct brake_error *error)
{
    const int status = error->status == BRAKE_E_READ     ? command_failure(errno)
                       : error->status == BRAKE_E_MEMORY ? EXIT_FAILED
                                                         : EXIT_REFUSED;
    refuse("", file, error);
    return status;
}

int command_refuse_value(const char *option, const struct brake_error *error)
{
    return refuse("stopmargin: ", option, error);
}

int command_read(const char *path, const struct command_list *settings, struct brake_sheet *sheet)
{
    struct brake_error error;
    const int count = settings != NULL ? settings->count : 0;
    FILE *stream = fopen(path, "rb");
    if (stream == NULL)
        return command_cannot(path, "opened");
    enum brake_status status = brake_file_read(stream, sheet, &error);
    fclose(stream);
    for (int i = 0; i < count && status == BRAKE_OK; i++) {
        status = brake_file_set(sheet, settings->word[i], &error);
        path = status == BRAKE_OK ? path : "--set";
    }
    if (status == BRAKE_OK)
        status = brake_sheet_complete(sheet, &error);
    return status == BRAKE_OK ? 0 : command_refuse(path, &error);
}

static const struct {
    const char *verb;
    int (*run)(int count, char **words);
} verbs[] = {
    {"new", command_new},       {"check", command_check},       {"compare", command_compare},
    {"size", command_size},     {"spread", command_spread},     {"sweep", command_sweep},
    {"heat", command_heat},     {"drivelog", command_drivelog}, {"shakedown", command_shakedown},
    {"report", command_report}, {"explain", command_explain},
};

enum { VERBS = sizeof verbs / sizeof verbs[0] };

/* "new, check, heat" */
static const char *list_of_verbs(char *text, size_t size)
{
    size_t used = 0;
    for (int i = 0; i < VERBS && used < size; i++)
        used += (size_t)brake_text_format(text + used, size - used, "%s%s", i > 0 ? ", " : "",
                                          verbs[i].verb);
    return text;
}

static int print_help(void)
{
    for (size_t i = 0; i < sizeof help / sizeof help[0]; i++)
        fputs(help[i], stdout);
    return 0;
}

static int run(int count, char **words)
{
    char list[200];
    if (count < 2)
        return command_misused("a verb is wanted: %s", list_of_verbs(list, sizeof list));
    for (int i = 2; i < count; i++) {
        if (strcmp(words[i], "--help") == 0)
            words[1] = words[i];
    }
    if (strcmp(words[1], "--help") == 0)
        return print_help();
    if (strcmp(words[1], "--version") == 0) {
        brake_text_print(stdout, "stopmargin %s\n", BRAKE_VERSION);
        return 0;
    }
    for (int i = 0; i < VERBS; i++) {
        if (strcmp(words[1], verbs[i].verb) == 0)
            return verbs[i].run(count - 1, words + 1);
    }
    return command_misused("unknown verb '%s'; accepts %s", words[1],
                           list_of_verbs(list, sizeof list));
}

/* A stream that is closed would be taken by the next file that is opened, and words would go into it.
 * Opened the wrong way round it still fails, and is told. */
static void hold_closed_streams(void)
{
    for (int file = 0; file <= 2; file++) {
        if (fcntl(file, F_GETFD) < 0)
            (void)open("/dev/null", file == 0 ? O_WRONLY : O_RDONLY);
    }
}

int main(int count, char **words)
{
    hold_closed_streams();
    signal(SIGXFSZ, SIG_IGN); /* a file past its limit is told, as a full disk is */
    if (machine_begin(words) != 0)
        return EXIT_FAILED;
    const int status = machine_end(run(count, words));
    const bool written = command_written(stdout);
    if (written && fclose(stdout) == 0)
        return status;
    brake_text_print(stderr, "stopmargin: the output could not be written: %s\n", strerror(errno));
    return EXIT_FAILED;
}
