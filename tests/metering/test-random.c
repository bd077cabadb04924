#include "near.h"
#include "random.h"

/* The first outputs of the reference program pcg32-demo (pcg-random.org), seed 42, sequence 54. */
static void
test_reference (void)
{
  static const uint32_t round_1[] = { 0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e };
  struct random_stream stream;

  random_start (&stream, 42, 54);
  for (gsize i = 0; i < G_N_ELEMENTS (round_1); i++)
    g_assert_cmphex (random_bits (&stream), ==, round_1[i]);
}

/* FNV-1a's own test vectors (draft-eastlake-fnv, 64 bits; from memory). */
static void
test_sequence (void)
{
  g_assert_cmphex (random_sequence (""), ==, 0xcbf29ce484222325u);
  g_assert_cmphex (random_sequence ("a"), ==, 0xaf63dc4c8601ec8cu);
  g_assert_cmphex (random_sequence ("foobar"), ==, 0x85944171f73967e8u);
}

/* Moments of a standard normal and of a uniform, each within four standard errors; shares of the normal's tables. */
static void
test_distributions (void)
{
  const int count = 200000;
  double mean = 0, square = 0, fourth = 0, uniform = 0, within_1 = 0, within_2 = 0, least = 1, most = 0;
  struct random_stream stream;

  random_start (&stream, 7, 1);
  for (int i = 0; i < count; i++) {
    double z = random_normal (&stream), u = random_uniform (&stream);
    mean += z / count;
    square += z * z / count;
    fourth += z * z * z * z / count;
    within_1 += fabs (z) < 1 ? 1.0 / count : 0;
    within_2 += fabs (z) < 1.959964 ? 1.0 / count : 0;
    uniform += u / count;
    least = fmin (least, u);
    most = fmax (most, u);
  }
  assert_within (mean, 0, 4 / sqrt (count));
  assert_within (square, 1, 4 * sqrt (2.0 / count));
  assert_within (fourth, 3, 4 * sqrt (96.0 / count));
  assert_within (within_1, 0.682689, 4 * sqrt (0.6827 * 0.3173 / count));
  assert_within (within_2, 0.95, 4 * sqrt (0.95 * 0.05 / count));
  assert_within (uniform, 0.5, 4 / sqrt (12.0 * count));
  g_assert_true (least > 0 && least < 1e-4 && most < 1 && most > 1 - 1e-4);
}

/* Streams of one seed have nothing in common. */
static void
test_streams (void)
{
  const int count = 20000;
  struct random_stream a, b;
  double product = 0;

  random_start (&a, 5, random_sequence ("pump_flow"));
  random_start (&b, 5, random_sequence ("pump_slip"));
  for (int i = 0; i < count; i++)
    product += random_normal (&a) * random_normal (&b) / count;
  assert_within (product, 0, 4 / sqrt (count));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/metering/random/reference", test_reference);
  g_test_add_func ("/metering/random/sequence", test_sequence);
  g_test_add_func ("/metering/random/distributions", test_distributions);
  g_test_add_func ("/metering/random/streams", test_streams);
  return g_test_run ();
}
