/* Hidden cases for the calibration study, made by other rules than the inference assumes: car types of their own, units
 * that differ by build, severities off the grid, effects that the model gets wrong, pairs that work on each other, typed
 * conditions that were not those, gauges with a bias, noise with heavy tails, gross errors, faults that no list has. */
#ifndef TESTS_GENERATOR_H
#define TESTS_GENERATOR_H

#include "fault.h"
#include "observation.h"
#include "tolerance.h"

#include <stdint.h>

enum case_kind { CASE_HEALTHY, CASE_ONE, CASE_TWO, CASE_UNLISTED, CASE_KINDS };

struct hidden_case {
  enum case_kind kind;
  struct fault_dose dose[2]; /* one or two; unlisted: one, of unlisted_faults */
  struct observation reading[READINGS];
};

/* One type of car with the conditions of its visits: a shipped car with other settings. */
struct car_type {
  struct car car;
  struct conditions conditions[READINGS]; /* as typed, by reading */
};

bool generator_type (uint64_t seed, struct car_type *type);

/* The blank readings of that type: kind, conditions, usual uncertainties. */
void generator_blank (const struct car_type *type, struct observation reading[READINGS]);

/* faults: those that may be hidden in it, odds their weight. The unit is another healthy one by these tolerances. False
 * where the model has no state for what was drawn (drawn again by the next seed). */
bool generator_case (const struct car_type *type, const struct tolerances *tolerances, const struct fault *const *faults,
                     int count, uint64_t seed, struct hidden_case *hidden);

#endif
