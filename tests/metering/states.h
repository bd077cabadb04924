/* Steady states that several tests solve. */
#ifndef TESTS_STATES_H
#define TESTS_STATES_H

#include "solve.h"

#include <glib.h>

#define KG_PER_H (1 / 3600.0)

/* Usual conditions at an air flow. */
static inline struct conditions
usual (double kg_per_h)
{
  struct conditions c;

  conditions_usual (&c);
  c.air_flow = kg_per_h * KG_PER_H;
  return c;
}

static inline struct state
solved (const struct car *car, const struct conditions *conditions)
{
  struct state state;

  g_assert_cmpint (metering_solve (car, conditions, &state), ==, OUTCOME_SOLVED);
  g_assert_cmpint (state.outcome, ==, OUTCOME_SOLVED);
  return state;
}

#endif
