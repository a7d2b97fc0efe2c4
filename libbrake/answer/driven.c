/* SPDX-License-Identifier: MIT */
/* What a drive and a tester told of the vehicle, wherever samples of it are spoken of. */
#include "parts.h"

static const char *const keys[] = {[BRAKE_DRIVE_NONE] = "none",
                                   [BRAKE_DRIVE_AGREES] = "agrees",
                                   [BRAKE_DRIVE_LESS] = "less",
                                   [BRAKE_DRIVE_MORE] = "more"};

static const char *plural(int count)
{
    return count == 1 ? "" : "s";
}

/* Stops that count, and those that do not. */
static const char *stops_of(struct brake_document *d, const struct brake_knowledge *known)
{
    const char *bounds = known->bounds > 0
                             ? brake_document_words(d, ", %d as bound%s, the tyres giving way",
                                                    known->bounds, plural(known->bounds))
                             : "";
    const char *left =
        known->left_out > 0
            ? brake_document_words(d, ", %d left out (drivelog says why)", known->left_out)
            : "";
    const char *forces = known->forces > 0
                             ? brake_document_words(d, "%s of a tester",
                                                    known->forces == 1 ? "an axle" : "both axles")
                             : "";
    if (known->stops == 0 && known->forces > 0)
        return brake_document_words(d, "%s%s%s", forces, known->another ? " before the change" : "",
                                    left);
    return brake_document_words(d, "%s%s%d stop%s%s%s%s", forces, known->forces > 0 ? " and " : "",
                                known->stops, plural(known->stops),
                                known->another ? " before the change" : "", bounds, left);
}

static const char *lines_of(struct brake_document *d, const struct brake_sheet *sheet)
{
    const char *list = NULL;
    for (int i = 0; i < BRAKE_DRIVE_LINES && sheet->known.line[i] >= 0; i++) {
        char path[160];
        brake_catalogue_path(&sheet->vehicle, sheet->known.line[i], path, sizeof path);
        list = brake_document_join(d, list, ", ", brake_document_words(d, "%s", path));
    }
    return list != NULL ? list : "no line by itself";
}

static const char *against_lines(struct brake_document *d, const struct brake_sheet *sheet)
{
    const struct brake_knowledge *known = &sheet->known;
    switch ((enum brake_drive_word)known->word) {
    case BRAKE_DRIVE_LESS:
        return brake_document_words(d,
                                    "falls short. It brakes worse than its parts should, %.2f of "
                                    "what its lines say: find out why, do not drive. Drawn by",
                                    known->ratio);
    case BRAKE_DRIVE_MORE:
        return brake_document_words(d,
                                    "cannot say. It brakes better than its lines allow, %.2f of "
                                    "what they say: look again at %s. Not drawn by",
                                    known->ratio, lines_of(d, sheet));
    case BRAKE_DRIVE_AGREES:
        return brake_document_words(d, "%.2f of what its lines say (%.2f to %.2f likely); drawn by",
                                    known->ratio, known->low, known->high);
    case BRAKE_DRIVE_NONE:
        break;
    }
    return "no more than bounds; drawn by";
}

const char *brake_part_driven(struct brake_document *d, const struct brake_sheet *sheet)
{
    const struct brake_knowledge *known = &sheet->known;
    const int readings = known->stops + known->forces;
    if (readings == 0 && known->left_out > 0)
        return "no stop tells anything: all is drawn by the lines alone.";
    if (readings == 0)
        return sheet->vehicle.drive.log[0] != '\0'
                   ? "the log that drive.log names was not read: all is drawn by the lines alone."
                   : NULL;
    const char *thin = known->effective < BRAKE_KNOWN_EFFECTIVE
                           ? " Too few samples fit it: nothing is said to be met."
                           : "";
    return brake_document_words(d, "%s %s.%s", against_lines(d, sheet), stops_of(d, known), thin);
}

void brake_part_told(struct brake_document *d, const struct brake_sheet *sheet)
{
    const struct brake_knowledge *known = &sheet->known;
    const char *words = brake_part_driven(d, sheet);
    if (words == NULL)
        return;
    brake_document_section(d, "drive", NULL);
    brake_document_say(d, NULL, "Drive", words);
    brake_document_fact(d, "agreement", NULL, brake_cell_text(keys[known->word]));
    brake_document_fact(d, "forces", NULL, brake_cell_count(known->forces));
    brake_document_fact(d, "stops", NULL, brake_cell_count(known->stops));
    brake_document_fact(d, "bounds", NULL, brake_cell_count(known->bounds));
    brake_document_fact(d, "left_out", NULL, brake_cell_count(known->left_out));
    brake_document_fact(d, "ratio", NULL, brake_cell_number(known->ratio, NULL));
    brake_document_fact(d, "likely", NULL, brake_cell_number(known->likely, NULL));
    brake_document_fact(d, "effective_samples", NULL, brake_cell_number(known->effective, NULL));
    brake_document_end(d);
}
