/* SPDX-License-Identifier: MIT */
/* Studies that answer in words: each gives its report for people and, as its result, the JSON of
 * the command; NULL when the watch stopped it. */
#ifndef LIBBRAKE_PYTHON_ANSWERS_H
#define LIBBRAKE_PYTHON_ANSWERS_H

#include "bridge.h"
#include "call.h"

#ifndef SWIG
/* Cleared memory, NULL with a refusal when it is short. */
void *answer_memory(size_t size, struct brake_error *error);

/* Refuses; returns the status. */
enum brake_status answer_refuse(struct brake_error *error, enum brake_status status,
                                const char *text);

/* Refuses a number of samples, naming the argument. */
enum brake_status answer_refuse_samples(struct brake_error *error, long samples);

/* Prints a document, frees it: its text into `report`, its JSON as the result; NULL when memory is
 * short. */
char *answer_give(struct brake_document *document, char **report);

/* The log of a drive, borrowed from Python. */
struct driven {
    const char *bytes; /* NULL: none */
    Py_ssize_t size;
    const char *columns;        /* units that its header does not give; NULL: none */
    int full;                   /* as it was driven; -1: as the vehicle or the log says */
    struct brake_drive_day day; /* NaN: as is usual */
};

/* The same, read and held against the prediction. */
struct held {
    struct brake_sheet driven; /* the vehicle as it was driven */
    struct brake_log log;
    struct brake_drive drive;
    struct brake_drive_report report; /* of both; drive NULL: there is none */
};

/* Reads a log; to be freed whatever the status. */
enum brake_status drive_read(const struct driven *driven, struct brake_log *log,
                             struct brake_error *error);

/* Fills what is cleared; to be freed whatever the status. */
enum brake_status drive_hold(const struct brake_sheet *sheet, const struct driven *driven,
                             const struct brake_nominal *nominal, struct held *held,
                             struct brake_error *error);
void drive_free(struct held *held);

enum { LOGS = 16 /* most of one call */ };

/* Logs of drives, borrowed from Python: bytes of a tuple. */
struct logs {
    int count;
    struct driven log[LOGS];
};

/* Takes them; false with an exception set when they are something else. */
bool logs_take(PyObject *tuple, struct logs *logs);

/* What a report is asked for, borrowed from Python. */
struct wanted {
    const char *file, *before_file, *drive_file, *date; /* NULL: none */
    unsigned rules;
    int full; /* load case of the duties */
};
#endif

/* Word of a shape of uncertainty; empty past the last. */
const char *shape_word(int number);

/* All tolerances drawn at once; `shapes`: of every quantity, by its number; `fade`: hot performance
 * too. */
char *spread_run(const struct brake_sheet *sheet, unsigned rules, long samples,
                 unsigned long long seed, struct numbers shapes, bool fade,
                 const struct brake_watch *watch, char **report, struct brake_error *error);

/* Two vehicles, the one before and the one after. */
char *compare_run(const struct brake_sheet *sheet, const struct brake_sheet *other, unsigned rules,
                  bool fade, const struct brake_watch *watch, char **report,
                  struct brake_error *error);

/* What must be fitted. `targets`: four numbers each, the output (-1: every criterion, -2: torque
 * per need as before), the relation, the value and the rules; `before`: the vehicle before, made to
 * fit. The range of one line; sizes of some lines; tyres, their markings one a line. */
char *size_range(const struct brake_sheet *sheet, int line, double low, double high,
                 struct numbers targets, const struct brake_sheet *before,
                 const struct brake_watch *watch, char **report, struct brake_error *error);
char *size_lists(const struct brake_sheet *sheet, struct numbers lines, const struct columns *sizes,
                 struct numbers targets, const struct brake_sheet *before,
                 const struct brake_watch *watch, char **report, struct brake_error *error);
char *size_tyres(const struct brake_sheet *sheet, const char *markings, struct numbers targets,
                 const struct brake_sheet *before, const struct brake_watch *watch, char **report,
                 struct brake_error *error);

/* What a cool-down tells of the air's factor; `units`: those that the head of the log lacks. */
char *cooldown_run(const struct brake_sheet *sheet, const char *bytes, size_t size,
                   const char *units, char **report, struct brake_error *error);

/* A drive held against the prediction; `nominal`: speeds that its stops are brought to. */
char *drive_run(const struct brake_sheet *sheet, const struct driven *driven,
                struct numbers nominal, char **report, struct brake_error *error);

/* What drives tell of some lines, by their numbers: the vehicle learns them. `units`: those that
 * heads of logs lack. Columns: means before, means after, learnt, shares; covariance before, after,
 * combinations; condition, stops, forces, effective samples, word and likely of knowledge.h. A
 * refusal names the log before its field, "logs[1]: time". */
enum brake_status identify_run(struct brake_sheet *sheet, const struct logs *logs,
                               const char *units, struct numbers lines, const struct columns *out,
                               struct brake_error *error);

/* Forgets what drives told. */
void sheet_forget(struct brake_sheet *sheet);

/* The plan of a shakedown drive; as a page for print too. `despite`: words of obstacles. */
char *shakedown_run(const struct brake_sheet *sheet, bool full, const char *despite, char **report,
                    char **html, struct brake_error *error);

/* The report for inspection; the vehicle before may be NULL. */
enum brake_status report_run(const struct brake_sheet *sheet, const struct brake_sheet *before,
                             const struct wanted *wanted, const struct driven *driven,
                             char **report, char **html, struct brake_error *error);

#endif
