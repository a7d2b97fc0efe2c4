/* SPDX-License-Identifier: MIT */
/* A sweep as CSV. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "brake/report.h"
#include "brake/version.h"
#include "brake/warnings.h"
#include "csv.h"
#include "file/digest.h"
#include "vehicle/text.h"
#include "study/cases.h"
#include "file/number.h"

/* ---- text that grows ------------------------------------------------------------------------ */

struct text {
    char *at; /* NULL: nothing yet, or memory was short */
    size_t used;
    size_t size;
    bool failed;
};

/* Room for some bytes more and an end; NULL when memory is short. */
static char *room(struct text *text, size_t more)
{
    if (text->failed)
        return NULL;
    if (text->used + more + 1 > text->size) {
        text->size = 2 * (text->used + more) + 64;
        char *larger = realloc(text->at, text->size);
        if (larger == NULL)
            free(text->at);
        text->failed = larger == NULL;
        text->at = larger;
    }
    return text->failed ? NULL : text->at + text->used;
}

static void put(struct text *text, const char *words, size_t length)
{
    char *to = room(text, length);
    if (to == NULL)
        return;
    memcpy(to, words, length);
    to[length] = '\0';
    text->used += length;
}

static void put_number(struct text *text, double number)
{
    char *to = isnan(number) ? NULL : room(text, BRAKE_NUMBER_SIZE);
    if (to != NULL)
        text->used += (size_t)brake_number_write(number, to);
}

static void put_words(struct text *text, const char *words)
{
    char cell[BRAKE_CELL_SIZE];
    brake_csv_cell(words, cell, sizeof cell);
    put(text, cell, strlen(cell));
}

/* ---- header and row ------------------------------------------------------------------------- */

static void put_title(struct text *text, const char *name, const char *unit)
{
    char title[256];
    brake_text_format(title, sizeof title, unit[0] != '\0' ? "%s [%s]" : "%s", name, unit);
    put_words(text, title);
    put(text, ",", 1);
}

char *brake_report_sweep_head(const struct brake_sweep *sweep)
{
    struct text text = {0};
    char name[160];
    for (int i = 0; i < sweep->axes; i++) {
        brake_catalogue_path(&sweep->sheet->vehicle, sweep->axis[i].index, name, sizeof name);
        put_title(&text, name, sweep->axis[i].unit->name);
    }
    for (int i = 0; i < sweep->outputs; i++) {
        brake_output_name(sweep->output[i], name, sizeof name);
        put_title(&text, name, brake_unit_si(brake_output_dimension(sweep->output[i]))->name);
    }
    put(&text, "note\n", 5);
    return text.at;
}

static void add_number(struct brake_digest *digest, double number)
{
    char text[BRAKE_NUMBER_SIZE];
    brake_number_write(number, text);
    brake_digest_add_text(digest, text);
}

/* Its first, second and last values tell a spaced axis; of a listed one all count. */
static void add_axis(struct brake_digest *digest, const struct brake_sweep *sweep,
                     const struct brake_axis *axis)
{
    const long long step = axis->spacing == BRAKE_LISTED || axis->count < 3 ? 1 : axis->count - 2;
    char path[160];
    brake_catalogue_path(&sweep->sheet->vehicle, axis->index, path, sizeof path);
    brake_digest_add_text(digest, path);
    brake_digest_add_text(digest, axis->unit->name);
    add_number(digest, (double)axis->spacing);
    add_number(digest, (double)axis->count);
    add_number(digest, brake_axis_number(axis, 0));
    for (long long i = 1; i < axis->count; i += step)
        add_number(digest, brake_axis_number(axis, i));
}

char *brake_report_sweep_mark(const struct brake_sweep *sweep)
{
    struct brake_digest digest;
    struct text text = {0};
    char words[BRAKE_DIGEST_TEXT];
    brake_digest_begin(&digest);
    brake_digest_add_text(&digest, BRAKE_VERSION);
    brake_digest_add_vehicle(&digest, sweep->sheet);
    for (int i = 0; i < sweep->axes; i++)
        add_axis(&digest, sweep, &sweep->axis[i]);
    for (int i = 0; i < sweep->outputs; i++) {
        char name[160];
        brake_output_name(sweep->output[i], name, sizeof name);
        brake_digest_add_text(&digest, name);
    }
    brake_digest_end(&digest, words);
    put(&text, "# libbrake " BRAKE_VERSION ", sweep ",
        sizeof "# libbrake " BRAKE_VERSION ", sweep " - 1);
    put(&text, words, strlen(words));
    put(&text, ". CAUTION: " BRAKE_CAUTION "\n", sizeof ". CAUTION: " BRAKE_CAUTION "\n" - 1);
    return text.at;
}

static void put_row(struct text *text, const struct brake_sweep *sweep, long long number,
                    const double *value, const struct brake_error *error)
{
    long long at[BRAKE_AXES_OF_SWEEP];
    brake_sweep_position(sweep, number, at);
    for (int i = 0; i < sweep->axes; i++) {
        put_number(text, brake_axis_number(&sweep->axis[i], at[i]));
        put(text, ",", 1);
    }
    for (int i = 0; i < sweep->outputs; i++) {
        put_number(text, value[i]);
        put(text, ",", 1);
    }
    if (error->status != BRAKE_OK) {
        char note[sizeof error->field + sizeof error->text + 2];
        brake_text_format(note, sizeof note, "%s: %s", error->field, error->text);
        put_words(text, note);
    }
    put(text, "\n", 1);
}

char *brake_report_sweep_row(struct brake_sweeper *sweeper, long long number)
{
    struct text text = {0};
    struct brake_error error = {0};
    double value[BRAKE_OUTPUTS];
    (void)brake_sweep_case(sweeper, number, value, &error);
    put_row(&text, sweeper->sweep, number, value, &error);
    return text.at;
}

/* ---- all rows ------------------------------------------------------------------------------- */

struct rows {
    FILE *stream;
    struct brake_sweep_tally tally;
    struct text text[BRAKE_SWEEP_SLOTS];
    long long count[BRAKE_SWEEP_SLOTS];
    long long refused[BRAKE_SWEEP_SLOTS];
};

enum { VALUES = 8 * BRAKE_OUTPUTS /* that are worked out at once */ };

/* Some cases, as many as there are values for; returns how many the vehicle refused. */
static int put_rows(struct text *text, struct brake_sweeper *sweeper, long long first, int count)
{
    const int outputs = sweeper->sweep->outputs;
    enum brake_status status[VALUES];
    double value[VALUES];
    int refused = 0;
    brake_sweep_cases(sweeper, first, count, value, status);
    for (int i = 0; i < count; i++) {
        double *of_case = value + (size_t)i * (size_t)outputs;
        struct brake_error error = {0};
        if (status[i] != BRAKE_OK && brake_sweep_case(sweeper, first + i, of_case, &error) < 0)
            refused++;
        put_row(text, sweeper->sweep, first + i, of_case, &error);
    }
    return refused;
}

static void work(void *context, int slot, struct brake_sweeper *sweeper, long long first, int count)
{
    struct rows *rows = context;
    const int most = VALUES / sweeper->sweep->outputs;
    int taken;
    rows->text[slot].used = 0;
    rows->count[slot] = count;
    rows->refused[slot] = 0;
    for (int done = 0; done < count; done += taken) {
        taken = count - done < most ? count - done : most;
        rows->refused[slot] += put_rows(&rows->text[slot], sweeper, first + done, taken);
    }
}

static bool take(void *context, int slot)
{
    struct rows *rows = context;
    const struct text *text = &rows->text[slot];
    rows->tally.short_of_memory = text->failed;
    if (text->failed || fwrite(text->at, 1, text->used, rows->stream) != text->used)
        return false;
    rows->tally.rows += rows->count[slot];
    rows->tally.refused += rows->refused[slot];
    return true;
}

/* Rows of a block: long ones in smaller blocks, so that memory has a bound. */
static int block_of(const struct brake_sweeper *sweeper)
{
    const struct brake_sweep *sweep = sweeper->sweep;
    const int bytes = (sweep->axes + sweep->outputs) * BRAKE_NUMBER_SIZE;
    const int rows = 1 + 65536 / bytes;
    const int usual = brake_sweep_block(sweeper);
    return rows < usual ? rows : usual;
}

struct brake_sweep_tally brake_report_sweep_rows(const struct brake_sweeper *sweeper,
                                                 long long first, int threads,
                                                 const struct brake_watch *watch, FILE *stream)
{
    struct rows rows = {.stream = stream};
    const struct brake_sweep_run run = {.first = first,
                                        .block = block_of(sweeper),
                                        .threads = threads,
                                        .context = &rows,
                                        .work = work,
                                        .take = take,
                                        .watch = *watch};
    (void)brake_sweep_blocks(sweeper, &run);
    for (int slot = 0; slot < BRAKE_SWEEP_SLOTS; slot++)
        free(rows.text[slot].at);
    return rows.tally;
}
