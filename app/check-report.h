/* What the check of a job's readings says, as text or as JSON. */
#ifndef APP_CHECK_REPORT_H
#define APP_CHECK_REPORT_H

#include "check.h"

/* A table of the readings with expected value, band, source of the band and verdict; then what each reading that is out
 * points to. Translated, in the units typed. Caller frees. */
char *check_report_text (const struct job *job, const GArray *checked);

/* One object; the unit stands in each key (bar and the other units shown by default; deviations of cylinders from their
 * mean in per cent). Caller frees. */
char *check_report_json (const struct job *job, const GArray *checked);

/* Whether any reading is out. */
gboolean check_any_out (const GArray *checked);

#endif
