/* Laws with an infinite slope at zero, made passable for an integrator. */
#ifndef METERING_SMOOTH_H
#define METERING_SMOOTH_H

#include <math.h>

/* sqrt(z) with the sign of z, exactly so outside the band; inside it the odd cubic that joins in value and slope. */
static inline double
smooth_root (double z, double band)
{
  double share = z / band;

  if (z >= band)
    return sqrt (z);
  if (z <= -band)
    return -sqrt (-z);
  return sqrt (band) * share * (1.25 - 0.25 * share * share);
}

static inline double
clamp_share (double share)
{
  return fmin (fmax (share, 0), 1);
}

#endif
