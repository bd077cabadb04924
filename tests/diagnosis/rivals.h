/* What the diagnosis must be better than: the nearest signature, and a table of rules. Each names one single fault or
 * health. */
#ifndef TESTS_RIVALS_H
#define TESTS_RIVALS_H

#include "generator.h"
#include "posterior.h"

#define RIVAL_HEALTHY (-1)

/* The cause whose readings lie nearest, each difference in standard uncertainties of the reading. */
int nearest_signature (const struct posterior *posterior);

/* Each value low, right or high against the band of healthy units; the cause that would move most of them the same way
 * at a middle severity, the likelier by its odds where two match alike. */
int rule_table (const struct posterior *posterior);

bool rival_is_right (const struct posterior *posterior, int cause, const struct hidden_case *hidden);

#endif
