#include "low-rank.h"

#include <math.h>
#include <string.h>

#define LOG_2PI 1.8378770664093454836

bool
cholesky (double *matrix, int n, int stride)
{
  for (int i = 0; i < n; i++) {
    double *row = matrix + i * stride;
    for (int j = 0; j <= i; j++) {
      const double *other = matrix + j * stride;
      double sum = row[j];
      for (int k = 0; k < j; k++)
        sum -= row[k] * other[k];
      if (j < i)
        row[j] = sum / other[j];
      else if (sum > 0) /* a NaN fails */
        row[i] = sqrt (sum);
      else
        return false;
    }
  }
  return true;
}

void
low_rank_whiten (const struct low_rank_fit *fit, const double *row, double *x)
{
  for (int i = 0; i < fit->columns; i++) {
    double sum = row[i];
    for (int k = 0; k < i; k++)
      sum -= fit->factor[i][k] * x[k];
    x[i] = sum / fit->factor[i][i];
  }
}

/* Adds a_j row_j row_j' to the lower triangle of M; written so that the inner loop runs along memory. */
static inline void
add_outer (double m[][COLUMNS_MAX], const double *row, int columns, double weight)
{
  for (int k = 0; k < columns; k++) {
    double scaled = weight * row[k];
    for (int l = 0; l <= k; l++)
      m[k][l] += scaled * row[l];
  }
}

static void
solve_backward (const struct low_rank_fit *fit, double *x)
{
  for (int i = fit->columns - 1; i >= 0; i--) {
    double sum = x[i];
    for (int k = i + 1; k < fit->columns; k++)
      sum -= fit->factor[k][i] * x[k];
    x[i] = sum / fit->factor[i][i];
  }
}

bool
low_rank_fit (const struct low_rank *c, const double *residual, struct low_rank_fit *fit)
{
  double projected[COLUMNS_MAX] = { 0 }; /* L'Ar */
  double log_determinant = 0;

  fit->columns = c->columns;
  fit->distance = 0;
  for (int k = 0; k < c->columns; k++) {
    memset (fit->factor[k], 0, sizeof (double) * (size_t) c->columns);
    fit->factor[k][k] = 1;
  }
  for (int j = 0; j < c->channels; j++) {
    double weight = 1 / c->diagonal[j], weighted = weight * residual[j];
    add_outer (fit->factor, c->row[j], c->columns, weight);
    for (int k = 0; k < c->columns; k++)
      projected[k] += weighted * c->row[j][k];
    fit->distance += weighted * residual[j];
    log_determinant += log (c->diagonal[j]);
  }
  if (!cholesky (fit->factor[0], c->columns, COLUMNS_MAX))
    return false;
  low_rank_whiten (fit, projected, fit->latent);
  for (int k = 0; k < c->columns; k++) {
    fit->distance -= fit->latent[k] * fit->latent[k];
    log_determinant += 2 * log (fit->factor[k][k]);
  }
  solve_backward (fit, fit->latent);
  if (fit->distance < 0) /* rounding; a NaN stays one */
    fit->distance = 0;
  fit->log_density = -0.5 * (fit->distance + log_determinant + c->channels * LOG_2PI);
  return isfinite (fit->log_density);
}

void
low_rank_leave_one_out (const struct low_rank *c, const double *residual, const struct low_rank_fit *fit,
                        double *log_conditional)
{
  double x[COLUMNS_MAX];

  for (int j = 0; j < c->channels; j++) {
    double weight = 1 / c->diagonal[j], common = 0, square = 0, precision, pull;

    low_rank_whiten (fit, c->row[j], x);
    for (int k = 0; k < c->columns; k++) {
      common += c->row[j][k] * fit->latent[k];
      square += x[k] * x[k];
    }
    precision = weight * fmax (1 - weight * square, 1e-12); /* P_jj; rounding only */
    pull = weight * (residual[j] - common);                 /* (P r)_j */
    log_conditional[j] = 0.5 * (log (precision) - LOG_2PI - pull * pull / precision);
  }
}

void
low_rank_predict (const struct low_rank_fit *fit, const double *row, double diagonal, double *mean, double *variance)
{
  double x[COLUMNS_MAX];

  low_rank_whiten (fit, row, x);
  *mean = 0;
  *variance = diagonal;
  for (int k = 0; k < fit->columns; k++) {
    *mean += row[k] * fit->latent[k];
    *variance += x[k] * x[k];
  }
}
