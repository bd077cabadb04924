/* The chain of effects: which values moved between two states of one car, in the model's own order of cause and effect.
 * The edges are the dependencies of the equations; nothing here knows a story. */
#ifndef METERING_CHAIN_H
#define METERING_CHAIN_H

#include "car.h"
#include "conditions.h"
#include "state.h"

#include <stdbool.h>

#define CHAIN_LINKS_MAX 40

enum chain_kind { CHAIN_CONDITION, CHAIN_STATE, CHAIN_CYLINDER };

struct chain_link {
  enum chain_kind kind;
  const struct condition *condition; /* of a changed input */
  const struct state_value *value;   /* of a state or cylinder value */
  double before, after;              /* SI */
  int cause;                         /* index of the link that moved it, -1 for an input */
};

/* Fills links in order of cause and effect with what moved by more than the smallest change worth telling (a fraction
 * of each value's own scale); returns their number. A value whose causes did not move is never told. main_line keeps
 * only the line that teaches: bimetal, pressure, plate, plunger, slot, fuel, lambda. */
int chain_between (const struct conditions *conditions_before, const struct state *before,
                   const struct conditions *conditions_after, const struct state *after, bool main_line,
                   struct chain_link links[CHAIN_LINKS_MAX]);

#endif
