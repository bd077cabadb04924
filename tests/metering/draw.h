/* Cars and conditions drawn at random, the same for the same number: for properties and benchmarks. */
#ifndef TESTS_DRAW_H
#define TESTS_DRAW_H

#include "car.h"
#include "conditions.h"

#include <stdbool.h>
#include <stdint.h>

struct draw {
  uint64_t state;
};

/* Draws number index of a series; neighbouring numbers have nothing in common. */
struct draw draw_start (uint64_t series, uint64_t index);
double draw_between (struct draw *draw, double least, double most);
bool draw_chance (struct draw *draw, double probability);

/* A sound car about one of the three shipped ones with unequal cylinders. wild: one to eight of them, every parameter up
 * to a factor of two away, gummed slots, odd springs, weak pumps, restricted returns, friction, counter springs, no load
 * stage, profiles of its own. Else: build tolerances of some per cent, everything working. */
void draw_car (struct draw *draw, bool wild, struct car *car);

/* Valid conditions for it. wild: over the whole limits, with things held, shut and unplugged. Else a running engine. */
void draw_conditions (struct draw *draw, bool wild, const struct car *car, struct conditions *conditions);

#endif
