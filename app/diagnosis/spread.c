#include "spread.h"

#include <math.h>

#define LEFT 0.04 /* of the usual variance: a fifth of the usual uncertainty may stay on the diagonal */

static double
covariance (const double *sample, int units, int i, int j)
{
  double sum = 0;

  for (int u = 0; u < units; u++)
    sum += sample[u * CHANNELS_MAX + i] * sample[u * CHANNELS_MAX + j];
  return sum / units;
}

static int
most_left (const double *rest, const double *usual, int channels)
{
  int pivot = -1;
  double most = LEFT;

  for (int i = 0; i < channels; i++)
    if (rest[i] / (usual[i] * usual[i]) > most) {
      most = rest[i] / (usual[i] * usual[i]);
      pivot = i;
    }
  return pivot;
}

int
spread_columns (const double *sample, int units, int channels, const double *usual, double row[][TOLERANCE_COLUMNS],
                double *rest)
{
  int columns = 0, pivot;

  for (int i = 0; i < channels; i++)
    rest[i] = covariance (sample, units, i, i);
  while (columns < TOLERANCE_COLUMNS && (pivot = most_left (rest, usual, channels)) >= 0) {
    double root = sqrt (rest[pivot]);
    for (int i = 0; i < channels; i++) {
      double sum = covariance (sample, units, i, pivot);
      for (int k = 0; k < columns; k++)
        sum -= row[i][k] * row[pivot][k];
      row[i][columns] = sum / root;
      rest[i] = fmax (rest[i] - row[i][columns] * row[i][columns], 0);
    }
    rest[pivot] = 0;
    columns++;
  }
  return columns;
}
