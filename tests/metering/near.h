/* Assertions on numbers, with the values in the message. */
#ifndef TESTS_NEAR_H
#define TESTS_NEAR_H

#include <glib.h>

#include <math.h>

/* Within a share of the expected value, which is not 0. */
#define assert_near(value, expected, relative) \
  g_assert_cmpfloat_with_epsilon (value, expected, fabs (1.0 * (expected)) * (relative))

/* Within half a unit of the last digit that a book prints, or any other absolute distance; equal is within 0. */
#define assert_within(value, expected, distance) \
  g_assert_cmpfloat_with_epsilon (value, expected, (distance) + 1e-300)

#endif
