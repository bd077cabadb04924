/* One step of a bracketed Newton search for the root of a rising function. Newton where it stays inside the bracket,
 * the middle otherwise, and the middle also where Newton, having had its chance, no longer halves its step: so the search
 * always ends, and ends as fast as Newton does. */
#ifndef METERING_ROOT_H
#define METERING_ROOT_H

#include <math.h>

#define ROOT_STEPS_MAX 120
#define ROOT_NEWTON_STEPS 12 /* quadratic convergence is over long before */

struct bracket {
  double low, high;
  int steps;
  double last; /* the step before; 0 at the start */
};

/* f and slope at x; returns the next x. */
static inline double
bracket_next (struct bracket *bracket, double x, double f, double slope)
{
  double next = x - f / slope;

  if (f > 0)
    bracket->high = x;
  else
    bracket->low = x;
  bracket->steps++;
  if (!(next >= bracket->low && next <= bracket->high) /* a step of nothing is an end */
      || (bracket->steps > ROOT_NEWTON_STEPS && fabs (next - x) > 0.5 * bracket->last))
    next = 0.5 * (bracket->low + bracket->high);
  bracket->last = fabs (next - x);
  return next;
}

#endif
