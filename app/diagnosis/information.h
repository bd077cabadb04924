/* Inside the diagnosis room: expected information over a grid of what may be read. */
#ifndef DIAGNOSIS_INFORMATION_H
#define DIAGNOSIS_INFORMATION_H

#include "next-reading.h"

/* A value that is plain wrong lies anywhere within a wide normal. */
struct wide {
  double share, mean, variance;
};

/* One possible outcome: how likely it is (up to a factor), and the classes' probabilities after it. */
typedef void (*information_seen) (void *data, double density, const double *after);

/* Bits (Kullback-Leibler) gained from prior to joint, which is not normalised; after receives it normalised. */
double information_gained (const double *joint, const double *prior, int classes, double *after);

double information_over_grid (const struct outlook *outlook, int count, int classes, const struct wide *wide,
                              information_seen seen, void *data);

#endif
