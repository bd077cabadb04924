/* A normal distribution whose covariance is D + L L': D diagonal, L of few columns. Inverse and determinant by
 * Woodbury: A = 1/D, M = I + L'AL, so that only M (columns x columns) is factored. Plain values, no heap. */
#ifndef DIAGNOSIS_LOW_RANK_H
#define DIAGNOSIS_LOW_RANK_H

#include <stdbool.h>

#define CHANNELS_MAX 96 /* single values in all readings together */
#define COLUMNS_MAX 32

struct low_rank {
  int channels, columns;
  double diagonal[CHANNELS_MAX];        /* D, > 0 */
  double row[CHANNELS_MAX][COLUMNS_MAX]; /* L */
};

/* What the residuals say under it. P is the inverse covariance. */
struct low_rank_fit {
  int columns;
  double distance;                         /* r'Pr */
  double log_density;                      /* natural, with the 2 pi */
  double latent[COLUMNS_MAX];              /* mean of the columns' standard normals given the residuals: M^-1 L'Ar */
  double factor[COLUMNS_MAX][COLUMNS_MAX]; /* lower Cholesky factor of M */
};

/* False, and fit unusable, where the numbers are not finite. */
bool low_rank_fit (const struct low_rank *covariance, const double *residual, struct low_rank_fit *fit);

/* log N(r_j | all other r) for each channel j: what is taken away when reading j is left out. Exact. */
void low_rank_leave_one_out (const struct low_rank *covariance, const double *residual, const struct low_rank_fit *fit,
                             double *log_conditional);

/* Another value with the row `row` of L and variance diagonal, given the residuals: mean and variance of its deviation. */
void low_rank_predict (const struct low_rank_fit *fit, const double *row, double diagonal, double *mean, double *variance);

/* Solves factor x = row (forward substitution): products of two such give covariances given the residuals. */
void low_rank_whiten (const struct low_rank_fit *fit, const double *row, double *x);

/* Cholesky in place, the lower triangle of n rows that lie `stride` apart. False where not positive definite. */
bool cholesky (double *matrix, int n, int stride);

#endif
