/* What a state of the model is, in words. */
#ifndef PAGES_MIXTURE_WORDS_H
#define PAGES_MIXTURE_WORDS_H

#include "car.h"
#include "conditions.h"
#include "state.h"
#include "units.h"

#include <glib.h>

/* Whether lambda has a value in this state. */
gboolean mixture_defined (const struct state *state);

/* Rich or lean and whether the engine can use it; where lambda has no value, why. Then the regimes worth a word. Caller
 * frees. */
char *mixture_words (const struct car *car, const struct state *state);

/* The whole state in a sentence or two. Caller frees. */
char *state_sentence (const struct car *car, const struct conditions *conditions, const struct state *state,
                      const struct unit_choices *choices);

#endif
