/* Whether a reading agrees with its band: decision with a guard band, JCGM 106:2012 clause 8.3, w = 1.64 u (95 % one
 * sided). */
#ifndef DIAGNOSIS_AGREEMENT_H
#define DIAGNOSIS_AGREEMENT_H

enum agreement { AGREEMENT_IN, AGREEMENT_OUT_LOW, AGREEMENT_OUT_HIGH, AGREEMENT_UNDECIDED };

#define GUARD_FACTOR 1.64

/* value, low, high and the standard uncertainty u > 0 in one unit; low <= high; an absent limit is -INFINITY or
 * INFINITY. In: further than w inside both limits. Out: further than w outside one. Else undecided. */
enum agreement agreement_judge (double value, double low, double high, double u);

/* One word for the screen, marked for translation: "in", "out, low", "out, high", "undecided". */
const char *agreement_word (enum agreement agreement);

#endif
