/* Woodbury against the dense solve of the GNU Scientific Library (libgsl-dev), and what follows from it. */
#include "draw.h"
#include "low-rank.h"
#include "near.h"

#ifdef HAVE_GSL
#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#endif

#define CASES 60

/* A sum of independent contributions adds their variances, whichever stand in D and which in L. JCGM 100:2008 (GUM)
 * annex H.1, end gauges: 25, 9.7, 2.9 and 16.6 nm make 32 nm (31.671; figures from memory). */
static void
test_gum (void)
{
  struct low_rank none = { .channels = 0, .columns = 3 };
  const double row[COLUMNS_MAX] = { 9.7, 2.9, 16.6 };
  struct low_rank_fit fit;
  double mean, variance;

  g_assert_true (low_rank_fit (&none, NULL, &fit));
  low_rank_predict (&fit, row, 25.0 * 25.0, &mean, &variance);
  g_assert_true (mean == 0);
  assert_within (sqrt (variance), 31.671, 0.0005);
  assert_within (sqrt (variance), 32, 0.5);
}

static void
test_bad_numbers (void)
{
  struct low_rank covariance = { .channels = 1, .columns = 1, .diagonal = { 1 }, .row = { { 1 } } };
  struct low_rank_fit fit;
  const double nan[] = { NAN }, huge[] = { 1e200 }, fine[] = { 1 };

  g_assert_true (low_rank_fit (&covariance, fine, &fit));
  g_assert_false (low_rank_fit (&covariance, nan, &fit));
  g_assert_false (low_rank_fit (&covariance, huge, &fit));
  covariance.row[0][0] = NAN;
  g_assert_false (low_rank_fit (&covariance, fine, &fit));
}

#ifdef HAVE_GSL

/* Channels on scales as far apart as pressures in Pa and flows in m3/s. */
static void
make (uint64_t seed, struct low_rank *c, double *residual)
{
  c->channels = 1 + (int) (draw_bits (seed, 0) % 30);
  c->columns = (int) (draw_bits (seed, 1) % 20);
  for (int j = 0; j < c->channels; j++) {
    double scale = pow (10, 12 * draw_uniform (seed, 10 + (uint64_t) j) - 6);
    c->diagonal[j] = scale * scale * exp (2 * draw_normal (seed, 100 + (uint64_t) j));
    residual[j] = 2 * scale * draw_normal (seed, 200 + (uint64_t) j);
    for (int k = 0; k < c->columns; k++)
      c->row[j][k] = scale * draw_normal (seed, 1000 + (uint64_t) (j * 32 + k));
  }
}

static double
dense (const struct low_rank *c, int i, int j)
{
  double sum = i == j ? c->diagonal[i] : 0;

  for (int k = 0; k < c->columns; k++)
    sum += c->row[i][k] * c->row[j][k];
  return sum;
}

/* log N of the residuals, channel `without` left out (-1: none), by GSL. */
static double
dense_log_density (const struct low_rank *c, const double *residual, int without)
{
  int n = c->channels - (without >= 0), at[CHANNELS_MAX];
  gsl_matrix *m;
  gsl_vector *r;
  double log_density = 0;

  if (n == 0)
    return 0;
  m = gsl_matrix_alloc ((size_t) n, (size_t) n);
  r = gsl_vector_alloc ((size_t) n);
  for (int i = 0, k = 0; i < c->channels; i++)
    if (i != without)
      at[k++] = i;
  for (int i = 0; i < n; i++) {
    gsl_vector_set (r, (size_t) i, residual[at[i]]);
    for (int j = 0; j < n; j++)
      gsl_matrix_set (m, (size_t) i, (size_t) j, dense (c, at[i], at[j]));
  }
  gsl_linalg_cholesky_decomp1 (m);
  gsl_blas_dtrsv (CblasLower, CblasNoTrans, CblasNonUnit, m, r);
  for (int i = 0; i < n; i++)
    log_density -= 0.5 * gsl_vector_get (r, (size_t) i) * gsl_vector_get (r, (size_t) i)
                   + log (gsl_matrix_get (m, (size_t) i, (size_t) i)) + 0.5 * log (2 * G_PI);
  gsl_matrix_free (m);
  gsl_vector_free (r);
  return log_density;
}

static void
test_density (void)
{
  for (uint64_t seed = 0; seed < CASES; seed++) {
    struct low_rank c = { 0 };
    struct low_rank_fit fit;
    double residual[CHANNELS_MAX];

    make (seed, &c, residual);
    g_assert_true (low_rank_fit (&c, residual, &fit));
    assert_within (fit.log_density, dense_log_density (&c, residual, -1), 1e-8);
  }
}

static void
test_leave_one_out (void)
{
  for (uint64_t seed = 0; seed < CASES; seed++) {
    struct low_rank c = { 0 };
    struct low_rank_fit fit;
    double residual[CHANNELS_MAX], left_out[CHANNELS_MAX];

    make (seed, &c, residual);
    g_assert_true (low_rank_fit (&c, residual, &fit));
    low_rank_leave_one_out (&c, residual, &fit, left_out);
    for (int j = 0; j < c.channels; j++)
      assert_within (left_out[j], dense_log_density (&c, residual, -1) - dense_log_density (&c, residual, j), 1e-7);
  }
}

/* The last channel predicted from the others: N(predicted) = N(all) / N(others). */
static void
test_predict (void)
{
  for (uint64_t seed = 0; seed < CASES; seed++) {
    struct low_rank c = { 0 };
    struct low_rank_fit fit;
    double residual[CHANNELS_MAX], mean, variance, off;
    int last;

    make (seed, &c, residual);
    last = c.channels - 1;
    c.channels = last;
    g_assert_true (low_rank_fit (&c, residual, &fit));
    low_rank_predict (&fit, c.row[last], c.diagonal[last], &mean, &variance);
    c.channels = last + 1;
    off = residual[last] - mean;
    assert_within (-0.5 * (off * off / variance + log (2 * G_PI * variance)),
                   dense_log_density (&c, residual, -1) - dense_log_density (&c, residual, last), 1e-7);
  }
}

#endif

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/low-rank/gum-h1", test_gum);
  g_test_add_func ("/low-rank/bad-numbers", test_bad_numbers);
#ifdef HAVE_GSL
  g_test_add_func ("/low-rank/density-against-gsl", test_density);
  g_test_add_func ("/low-rank/leave-one-out-against-gsl", test_leave_one_out);
  g_test_add_func ("/low-rank/predict-against-gsl", test_predict);
#endif
  return g_test_run ();
}
