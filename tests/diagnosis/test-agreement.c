/* The guard band: a truth table, and the probability that it stands for. */
#include "agreement.h"
#include "near.h"

#ifdef HAVE_GSL
#include <gsl/gsl_cdf.h>
#endif

static void
test_table (void)
{
  static const struct { double value, low, high, u; enum agreement expected; } rows[] = {
    { 5, 0, 10, 1, AGREEMENT_IN },
    { 1.65, 0, 10, 1, AGREEMENT_IN },        { 1.63, 0, 10, 1, AGREEMENT_UNDECIDED },
    { 0, 0, 10, 1, AGREEMENT_UNDECIDED },    { -1.63, 0, 10, 1, AGREEMENT_UNDECIDED },
    { -1.65, 0, 10, 1, AGREEMENT_OUT_LOW },  { 8.35, 0, 10, 1, AGREEMENT_IN },
    { 8.37, 0, 10, 1, AGREEMENT_UNDECIDED }, { 11.63, 0, 10, 1, AGREEMENT_UNDECIDED },
    { 11.65, 0, 10, 1, AGREEMENT_OUT_HIGH },
    { 1.64, 0, 10, 1, AGREEMENT_UNDECIDED }, { -1.64, 0, 10, 1, AGREEMENT_UNDECIDED }, /* on the guard itself */
    { 8.36, 0, 10, 1, AGREEMENT_UNDECIDED }, { 11.64, 0, 10, 1, AGREEMENT_UNDECIDED },
    { 5, 4.9, 5.1, 1, AGREEMENT_UNDECIDED }, /* a gauge too coarse for the band never says in */
    { 2, 4.9, 5.1, 1, AGREEMENT_OUT_LOW },
    { 1e9, 3, INFINITY, 1, AGREEMENT_IN },   { -1e9, 3, INFINITY, 1, AGREEMENT_OUT_LOW },
    { 1e9, -INFINITY, 3, 1, AGREEMENT_OUT_HIGH }, { -1e9, -INFINITY, 3, 1, AGREEMENT_IN },
    { 3.652e5, 3.4e5, 3.8e5, 6e3, AGREEMENT_IN },
    { 3.31e5, 3.4e5, 3.8e5, 6e3, AGREEMENT_UNDECIDED },
    { 3.30e5, 3.4e5, 3.8e5, 6e3, AGREEMENT_OUT_LOW },
    { NAN, 0, 10, 1, AGREEMENT_UNDECIDED },
  };

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_test_message ("row %u", i);
    g_assert_cmpint (agreement_judge (rows[i].value, rows[i].low, rows[i].high, rows[i].u), ==, rows[i].expected);
  }
}

/* JCGM 106:2012: a measured -5.47 V with u 0.05 V against an upper limit of -5.40 V conforms with a probability of 92 %
 * (memory). That is less than 95 %: undecided. And what the guard of 1.64 u leaves is 5 % by the normal distribution. */
static void
test_probability (void)
{
  g_assert_cmpint (agreement_judge (-5.47, -INFINITY, -5.40, 0.05), ==, AGREEMENT_UNDECIDED);
  g_assert_cmpint (agreement_judge (-5.49, -INFINITY, -5.40, 0.05), ==, AGREEMENT_IN);
#ifdef HAVE_GSL
  assert_within (gsl_cdf_ugaussian_P ((-5.40 + 5.47) / 0.05), 0.92, 0.005);
  assert_within (gsl_cdf_ugaussian_P (GUARD_FACTOR), 0.95, 0.001);
#else
  assert_within (0.5 * erfc (-GUARD_FACTOR / G_SQRT2), 0.95, 0.001);
#endif
}

static void
test_words (void)
{
  g_assert_cmpstr (agreement_word (AGREEMENT_IN), ==, "in");
  g_assert_cmpstr (agreement_word (AGREEMENT_OUT_LOW), ==, "out, low");
  g_assert_cmpstr (agreement_word (AGREEMENT_OUT_HIGH), ==, "out, high");
  g_assert_cmpstr (agreement_word (AGREEMENT_UNDECIDED), ==, "undecided");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/agreement/table", test_table);
  g_test_add_func ("/agreement/probability", test_probability);
  g_test_add_func ("/agreement/words", test_words);
  return g_test_run ();
}
