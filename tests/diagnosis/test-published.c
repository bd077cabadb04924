/* Known small examples, put through the engine itself. */
#include "cars.h"
#include "near.h"
#include "next-reading.h"
#include "workshop.h"

/* Two faults and one reading that both are seen by, so that nothing is left out; the reading itself is not taken. */
static struct signatures *
two_faults (struct fault *two)
{
  struct signature_source source = { &hollin_six, two, 2, NULL, NULL };
  struct signatures *signatures;
  struct observation o;

  two[0] = workshop_faults ()[PUMP_WORN];
  two[1] = workshop_faults ()[REGULATOR_LOW];
  signatures = signatures_new (&source);
  for (int i = READING_DELIVERY; i <= READING_SYSTEM_PRESSURE; i++) {
    g_assert_true (workshop_read (&hollin_six, &hollin_six, (enum reading_id) i, &o));
    g_assert_cmpint (signatures_add (signatures, &o, NULL, NULL), ==, i);
  }
  return signatures;
}

static struct posterior *
infer (struct signatures *signatures, const struct sign *signs, int count, const struct diagnosis_options *options)
{
  struct posterior *posterior;

  g_assert_cmpint (posterior_make (signatures, NULL, 0, signs, count, options, NULL, NULL, &posterior, NULL), ==,
                   POSTERIOR_SOUND);
  return posterior;
}

/* A condition in 8 % of cases, a test of sensitivity .75 and specificity .96: .61983 after a positive one (textbook
 * example, source not at hand; recomputed: .06 / (.06 + .0368)). */
static void
test_bayes (void)
{
  struct fault two[2];
  const struct fault *named[] = { &two[0] };
  const struct sign positive = { true, 0.75, 0.96, named, 1 };
  struct diagnosis_options options = diagnosis_usual;
  struct signatures *signatures;
  struct posterior *posterior;

  signatures = two_faults (two);
  two[1].odds = 0;
  options.temperature = 1;
  options.healthy = 0.92;
  options.one = 0.08;
  options.two = options.none_of_these = 0;
  options.sign_least = 0;
  posterior = infer (signatures, &positive, 1, &options);
  assert_within (posterior_fault (posterior, &two[0]), 0.61983, 5e-6);
  assert_within (posterior->healthy, 1 - 0.61983, 5e-6);
  posterior_free (posterior);
  signatures_free (signatures);
}

/* The wet lawn (Russell and Norvig, Artificial Intelligence; numbers from memory): clouds .5, sprinkler .1 or .5, rain .8
 * or .2, wet .99 / .9 / .9 / 0. With the clouds summed out: both .09, sprinkler alone .21, rain alone .41. Wet grass
 * makes the sprinkler .4298 and rain .7079; rain seen besides explains it away: .1945. */
static void
test_explaining_away (void)
{
  struct fault two[2];
  const struct fault *either[] = { &two[0], &two[1] }, *rain[] = { &two[1] };
  const struct sign signs[] = { { true, 0.9, 1, either, 2 }, { true, 1, 1, rain, 1 } };
  struct diagnosis_options options = diagnosis_usual;
  struct signatures *signatures;
  struct posterior *posterior;

  signatures = two_faults (two);
  two[0].odds = 0.21;
  two[1].odds = 0.41;
  options.temperature = 1;
  options.healthy = 0.29;
  options.one = 0.62;
  options.two = 0.09;
  options.none_of_these = options.sign_least = 0;
  posterior = infer (signatures, signs, 1, &options);
  assert_within (posterior_fault (posterior, &two[0]), 0.4298, 5e-5);
  assert_within (posterior_fault (posterior, &two[1]), 0.7079, 5e-5);
  posterior_free (posterior);
  posterior = infer (signatures, signs, 2, &options);
  assert_within (posterior_fault (posterior, &two[0]), 0.1945, 5e-5);
  posterior_free (posterior);
  signatures_free (signatures);
}

/* Quinlan 1986, "Induction of decision trees": 14 days, 9 for playing; entropy .9403, gains of the four attributes (from
 * memory). A value that tells everything or nothing of each attribute stands as a narrow normal of its own. */
static void
test_information (void)
{
  static const struct { const char *name; int play[3], stay[3]; double bits; } rows[] = {
    { "outlook", { 2, 4, 3 }, { 3, 0, 2 }, 0.2467 },
    { "temperature", { 2, 4, 3 }, { 2, 2, 1 }, 0.0292 },
    { "humidity", { 3, 6, 0 }, { 4, 1, 0 }, 0.1518 },
    { "wind", { 6, 3, 0 }, { 2, 3, 0 }, 0.0481 },
    { "the answer itself", { 9, 0, 0 }, { 0, 5, 0 }, 0.9403 },
    { "nothing", { 9, 0, 0 }, { 5, 0, 0 }, 0 },
  };

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    struct outlook outlook[6];
    for (int j = 0; j < 3; j++) {
      outlook[2 * j] = (struct outlook) { rows[i].play[j] / 14.0, 10.0 * j, 0.04, 0 };
      outlook[2 * j + 1] = (struct outlook) { rows[i].stay[j] / 14.0, 10.0 * j, 0.04, 1 };
    }
    g_test_message ("%s", rows[i].name);
    assert_within (outlook_information (outlook, 6, 2, 0, 0, 1), rows[i].bits, 1e-4);
  }
}

/* A value that may be plain wrong tells less, and one twice as uncertain too. */
static void
test_information_falls (void)
{
  struct outlook sharp[] = { { 0.5, 0, 1, 0 }, { 0.5, 3, 1, 1 } }, blunt[] = { { 0.5, 0, 4, 0 }, { 0.5, 3, 4, 1 } };
  double best = outlook_information (sharp, 2, 2, 0, 0, 1);

  g_assert_cmpfloat (best, <, 1);
  g_assert_cmpfloat (outlook_information (sharp, 2, 2, 0.1, 0, 100), <, 0.95 * best);
  g_assert_cmpfloat (outlook_information (blunt, 2, 2, 0, 0, 1), <, 0.6 * best);
}

static double
minutes_by_order (const struct repair *repairs, const int *order, int n)
{
  struct repair sequence[6];

  for (int i = 0; i < n; i++)
    sequence[i] = repairs[order[i]];
  return repair_expected_minutes (sequence, n, 100);
}

/* All orders of the rest behind what is fixed. */
static double
least_minutes (const struct repair *repairs, int *order, int fixed, int n)
{
  double least = INFINITY;

  if (fixed == n)
    return minutes_by_order (repairs, order, n);
  for (int i = fixed; i < n; i++) {
    int kept = order[fixed];
    order[fixed] = order[i];
    order[i] = kept;
    least = fmin (least, least_minutes (repairs, order, fixed + 1, n));
    order[i] = order[fixed];
    order[fixed] = kept;
  }
  return least;
}

/* Heckerman, Breese and Rommelse 1995: the order p/c has the least expected cost. Against every order there is. */
static void
test_repair_order (void)
{
  for (int seed = 0; seed < 50; seed++) {
    GRand *random = g_rand_new_with_seed ((guint32) seed);
    int order[] = { 0, 1, 2, 3, 4, 5 };
    struct repair repairs[6];
    double least;

    for (int i = 0; i < 6; i++)
      repairs[i] = (struct repair) { i, g_rand_double (random) / 6, g_rand_double_range (random, 5, 120) };
    least = least_minutes (repairs, order, 0, 6);
    repair_order (repairs, 6);
    assert_within (repair_expected_minutes (repairs, 6, 100), least, 1e-9 * least);
    g_rand_free (random);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/published/bayes", test_bayes);
  g_test_add_func ("/published/explaining-away", test_explaining_away);
  g_test_add_func ("/published/information-gain", test_information);
  g_test_add_func ("/published/information-falls", test_information_falls);
  g_test_add_func ("/published/repair-order", test_repair_order);
  return g_test_run ();
}
