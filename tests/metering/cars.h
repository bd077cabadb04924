/* The shipped cars as C, written from their documents at build time: test data that cannot drift from what is shipped. */
#ifndef TESTS_CARS_H
#define TESTS_CARS_H

#include "car.h"
#include "reading.h"

extern const struct car hollin_six, tarn_four, garth_eight;
extern const struct band hollin_six_bands[READINGS], tarn_four_bands[READINGS], garth_eight_bands[READINGS];

static const struct demo_car {
  const char *name;
  const struct car *car;
  const struct band *bands;
} demo_cars[] = {
  { "hollin-six", &hollin_six, hollin_six_bands },
  { "tarn-four", &tarn_four, tarn_four_bands },
  { "garth-eight", &garth_eight, garth_eight_bands },
};

#define DEMO_CARS 3

#endif
