/* Expected information of one more value. */
#include "next-reading.h"
#include "information.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GRID_LEAST 41
#define GRID_MOST 401
#define GRID_STEP 0.6      /* of the narrowest density that counts */
#define GRID_REACH 4.0     /* standard deviations past the outermost */
#define COUNTS 1e-4        /* weight from which a hypothesis sets the grid's step */

static double
normal (double residual, double variance)
{
  return exp (-0.5 * residual * residual / variance) / sqrt (6.283185307179586 * variance);
}

double
information_gained (const double *joint, const double *prior, int classes, double *after)
{
  double sum = 0, gained = 0;

  for (int c = 0; c < classes; c++)
    sum += joint[c];
  for (int c = 0; c < classes && sum > 0; c++) {
    after[c] = joint[c] / sum;
    if (after[c] > 0 && prior[c] > 0)
      gained += after[c] * log2 (after[c] / prior[c]);
  }
  return sum > 0 ? gained : 0;
}

static int
grid_of (const struct outlook *outlook, int count, double *low, double *step)
{
  double high = -INFINITY, narrowest = INFINITY;
  int points;

  *low = INFINITY;
  for (int i = 0; i < count; i++) {
    double deviation = sqrt (outlook[i].variance);
    *low = fmin (*low, outlook[i].mean - GRID_REACH * deviation);
    high = fmax (high, outlook[i].mean + GRID_REACH * deviation);
    if (outlook[i].weight > COUNTS)
      narrowest = fmin (narrowest, deviation);
  }
  points = (int) fmin ((high - *low) / (GRID_STEP * narrowest), GRID_MOST);
  points = points < GRID_LEAST ? GRID_LEAST : points;
  *step = (high - *low) / (points - 1);
  return points;
}

double
information_over_grid (const struct outlook *outlook, int count, int classes, const struct wide *wide,
                       information_seen seen, void *data)
{
  double *joint = calloc ((size_t) classes * 3, sizeof *joint), *prior = joint + classes, *after = prior + classes;
  double low, step, bits = 0, mass = 0;
  int points;

  if (!joint || count == 0) {
    free (joint);
    return 0;
  }
  for (int i = 0; i < count; i++)
    prior[outlook[i].class] += outlook[i].weight;
  points = grid_of (outlook, count, &low, &step);
  for (int g = 0; g < points; g++) {
    double y = low + g * step, density = 0;
    double stray = wide->share > 0 ? wide->share * normal (y - wide->mean, wide->variance) : 0;
    memset (joint, 0, sizeof *joint * (size_t) classes);
    for (int i = 0; i < count; i++) {
      double here = outlook[i].weight
                    * ((1 - wide->share) * normal (y - outlook[i].mean, outlook[i].variance) + stray);
      joint[outlook[i].class] += here;
      density += here;
    }
    if (density <= 0)
      continue;
    bits += density * information_gained (joint, prior, classes, after);
    if (seen)
      seen (data, density, after);
    mass += density;
  }
  free (joint);
  return mass > 0 ? fmax (bits / mass, 0) : 0;
}

double
outlook_information (const struct outlook *outlook, int count, int classes, double wrong, double wide_mean,
                     double wide_variance)
{
  struct wide wide = { wrong, wide_mean, wide_variance };

  return information_over_grid (outlook, count, classes, &wide, NULL, NULL);
}
