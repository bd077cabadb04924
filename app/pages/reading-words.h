/* A judged reading in words. */
#ifndef PAGES_READING_WORDS_H
#define PAGES_READING_WORDS_H

#include "check.h"

#include <glib.h>

/* One reading of a job with all that the model and the data say to it. */
struct judged {
  const struct reading_kind *kind;
  const struct band *band;
  enum outcome outcome;      /* of the model under the conditions */
  gboolean has_expected, has_band;
  double expected, low, high;
  int count;                 /* of values judged; 0 while none is typed */
  double values[CYLINDERS_MAX];
  int cylinders[CYLINDERS_MAX];
  enum agreement agreements[CYLINDERS_MAX];
  double uncertainty;        /* standard */
  const struct unit *unit;   /* in which the values are shown */
};

/* Everything about reading number index; checked is job_check's array over the same job. */
void judge_reading (const struct job *job, int index, const GArray *checked, const struct unit *unit,
                    struct judged *judged);

/* The worst of its values, as a mark and a word: "✓ in", "▼ out, low"; why there is none else. Static, translated. */
const char *verdict_words (const struct judged *judged);
/* "in", "out", "undecided" or "none": for the style sheet. */
const char *verdict_style (const struct judged *judged);
gboolean verdict_out (const struct judged *judged);

/* "Expected 3.74 bar under these conditions. Band 3.40 to 3.80 bar, taken as ...". Caller frees. */
char *expected_words (const struct judged *judged);
char *source_words (const struct judged *judged);
/* How sure the reading is, and what that means for the verdict. Caller frees. */
char *sureness_words (const struct judged *judged);

#endif
