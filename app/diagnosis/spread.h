/* The leading components of a Monte Carlo spread, as columns L and a rest on the diagonal: the covariance is L L' + rest
 * exactly on its diagonal. Pivoted Cholesky: each step takes the channel of which most is left, on the scale of its
 * usual uncertainty, until what is left nowhere matters. */
#ifndef DIAGNOSIS_SPREAD_H
#define DIAGNOSIS_SPREAD_H

#include "signatures-private.h"

/* sample: units rows of deviations from the nominal, CHANNELS_MAX apart. The number of columns. */
int spread_columns (const double *sample, int units, int channels, const double *usual, double row[][TOLERANCE_COLUMNS],
                    double *rest);

#endif
