/* One state of one car, as text or as JSON. */
#ifndef APP_MIXTURE_REPORT_H
#define APP_MIXTURE_REPORT_H

#include "conditions.h"
#include "state.h"
#include "vehicle-document.h"

/* faults: of struct fault_dose, what the vehicle's car has been given; told at the head.
 * A table with units, and in words what is special about the state; all adds every value of the model. Translated,
 * numbers in the locale's way. Caller frees. */
char *mixture_report_text (const struct vehicle *vehicle, const struct conditions *conditions,
                           const struct state *state, const GArray *faults, gboolean all);

/* One object. The unit stands in each key: first what a workshop reads, in workshop units; with all every value in the
 * SI unit that ends its key (quantity_key_suffix). A value that is not defined is null. Caller frees. */
char *mixture_report_json (const struct vehicle *vehicle, const struct conditions *conditions,
                           const struct state *state, const GArray *faults, gboolean all);

#endif
