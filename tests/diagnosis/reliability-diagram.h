#ifndef TESTS_RELIABILITY_DIAGRAM_H
#define TESTS_RELIABILITY_DIAGRAM_H

#include "score.h"

/* Claimed against right, in bins, with the bins' 95 % range (normal approximation), as PNG. False where it cannot be
 * written. */
bool reliability_diagram (const char *path, const struct score *score);

#endif
