/** @file report.h
 * An assessment in words for people, and as JSON.
 */
#ifndef BRAKE_REPORT_H
#define BRAKE_REPORT_H

#include <stdio.h>

#include "brake/assessment.h"

/** Write an assessment as plain text of 80 columns: verdict, limiting item and next measurement
 * first, caution always.
 * @param sheet       complete
 * @param assessment  of that sheet
 * @param stream      open for writing
 */
void brake_report_text(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                       FILE *stream);

/** An assessment as one JSON object: libbrake (version), vehicle, results, criteria, warnings,
 * inspector, summary, caution. Numbers are SI; what is not known is null.
 * @param sheet       complete
 * @param assessment  of that sheet
 * @param compact     true: on one line
 * @return            text to be freed by the caller; NULL when memory is short
 */
char *brake_report_json(const struct brake_sheet *sheet,
                        const struct brake_assessment *assessment, bool compact);

#endif
