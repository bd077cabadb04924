/* Cars with a known fault, read without error or with one: what is named, and what is said of each reading. */
#include "cars.h"
#include "near.h"
#include "posterior.h"
#include "solve.h"
#include "workshop.h"

#include <string.h>

/* All readings on a car with that fault; values by `error` standard uncertainties off, alternately up and down. */
static void
read_all (const struct car *nominal, int fault, double severity, int cylinder, double error, struct observation *o)
{
  struct car car = *nominal;

  if (fault >= 0)
    g_assert_true (fault_apply (&car, &workshop_faults ()[fault], severity, cylinder));
  for (int i = 0; i < READINGS; i++) {
    g_assert_true (workshop_read (nominal, &car, (enum reading_id) i, &o[i]));
    for (int j = 0; j < CYLINDERS_MAX; j++)
      o[i].value[j] += error * ((i + j) % 2 ? 1 : -1) * o[i].uncertainty * (o[i].kind->each_cylinder ? o[i].value[j] : 1);
  }
}

static struct posterior *
infer (struct signatures *signatures, const struct observation *o, int count)
{
  struct posterior *posterior;

  g_assert_cmpint (posterior_make (signatures, o, count, NULL, 0, NULL, NULL, NULL, &posterior, NULL), ==,
                   POSTERIOR_SOUND);
  return posterior;
}

static int
cause_of (const struct signatures *signatures, int fault, int cylinder)
{
  for (int c = 0; c < signatures_causes (signatures); c++)
    if (signatures_cause (signatures, c)->fault == &workshop_faults ()[fault]
        && (signatures_cause (signatures, c)->cylinder < 0 || signatures_cause (signatures, c)->cylinder == cylinder))
      return c;
  return -1;
}

static void
test_named_first (void)
{
  static const struct { int fault; double severity; int cylinder; } rows[] = {
    { REGULATOR_LOW, 0.5, 0 }, { REGULATOR_LOW, 1, 0 },    { REGULATOR_HIGH, 0.6, 0 },  { PUMP_WORN, 0.6, 0 },
    { WARM_UP_LOW, 0.4, 0 },   { WARM_UP_HIGH, 0.6, 0 },   { DIAPHRAGM_TORN, 1, 0 },    { BIMETAL_WEAK, 0.7, 0 },
    { SLOT_GUMMED, 0.8, 0 },   { SLOT_GUMMED, 0.8, 3 },    { SLOT_NARROW, 0.5, 1 },     { PLATE_HIGH, 0.5, 0 },
  };

  for (int d = 0; d < DEMO_CARS; d++) {
    struct signatures *signatures = workshop_signatures (demo_cars[d].car);
    g_assert_nonnull (signatures);
    for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
      struct observation o[READINGS];
      struct posterior *p;
      int cause = cause_of (signatures, rows[i].fault, rows[i].cylinder);

      read_all (demo_cars[d].car, rows[i].fault, rows[i].severity, rows[i].cylinder, 0.5, o);
      p = infer (signatures, o, READINGS);
      g_test_message ("%s: %s %g: %.3f", demo_cars[d].name, workshop_faults ()[rows[i].fault].key, rows[i].severity,
                      p->set[0].probability);
      if (!p->cause[cause].visible) {
        g_assert_cmpint (rows[i].fault, ==, DIAPHRAGM_TORN); /* a car without a load stage */
        g_assert_true (demo_cars[d].car->control.load_spring_rate == 0);
        g_assert_true (p->cause[cause].probability == 0);
      } else {
        g_assert_cmpint (p->set[0].count, ==, 1);
        g_assert_cmpint (p->set[0].cause[0], ==, cause);
        g_assert_cmpfloat (p->cause[cause].probability, >, 0.6);
        g_assert_cmpfloat (p->cause[cause].low, <, rows[i].severity);
        g_assert_cmpfloat (p->cause[cause].high, >, rows[i].severity * 0.95);
      }
      posterior_free (p);
    }
    signatures_free (signatures);
  }
}

static void
test_healthy (void)
{
  for (int d = 0; d < DEMO_CARS; d++) {
    struct signatures *signatures = workshop_signatures (demo_cars[d].car);
    struct observation o[READINGS];
    struct posterior *p;

    read_all (demo_cars[d].car, -1, 0, 0, 0.5, o);
    p = infer (signatures, o, READINGS);
    g_assert_cmpint (p->set[0].count, ==, 0);
    g_assert_false (p->set[0].none);
    g_assert_cmpfloat (p->tail, >, 0.05);
    for (int j = 0; j < p->evidence.channels; j++) {
      g_assert_false (p->reading[j].unexplained);
      g_assert_cmpfloat (p->reading[j].wrong, <, 0.05);
    }
    posterior_free (p);
    signatures_free (signatures);
  }
}

/* What nothing can show is left out instead of taking probability from the rest. */
static void
test_invisible (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  struct observation o[READINGS];
  struct posterior *p;

  read_all (&hollin_six, -1, 0, 0, 0, o);
  p = infer (signatures, o, READINGS);
  g_assert_false (p->cause[cause_of (signatures, UNMETERED_AIR, 0)].visible);
  g_assert_true (p->cause[cause_of (signatures, UNMETERED_AIR, 0)].silent);
  g_assert_true (posterior_fault (p, &workshop_faults ()[UNMETERED_AIR]) == 0);
  g_assert_true (p->cause[cause_of (signatures, PUMP_WORN, 0)].visible);
  posterior_free (p);
  p = infer (signatures, o, 1); /* delivery alone: the cylinders' faults are silent so far */
  g_assert_true (p->cause[cause_of (signatures, SLOT_NARROW, 2)].silent);
  g_assert_true (p->cause[cause_of (signatures, SLOT_NARROW, 2)].visible);
  posterior_free (p);
  signatures_free (signatures);
}

/* Probabilities are probabilities; sets, causes and hypotheses agree with each other. */
static void
test_sums (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);

  for (int fault = -1; fault < WORKSHOP_FAULTS; fault++)
    for (int count = 0; count <= READINGS; count += 3) {
      struct observation o[READINGS];
      struct posterior *p;
      double sets = 0, hypotheses = 0;

      read_all (&hollin_six, fault, 0.6, 1, 0.7, o);
      p = infer (signatures, o, count);
      for (int i = 0; i < p->sets; i++) {
        sets += p->set[i].probability;
        g_assert_true (i == 0 || p->set[i].probability <= p->set[i - 1].probability);
      }
      for (int i = 0; i < p->hypotheses; i++)
        hypotheses += p->hypothesis[i].weight;
      assert_within (sets, 1, 2e-6);
      assert_within (hypotheses + p->dropped, 1, 1e-9);
      g_assert_cmpfloat (p->dropped, <, 1e-6);
      for (int c = 0; c < signatures_causes (signatures); c++)
        g_assert_true (p->cause[c].probability >= 0 && p->cause[c].probability <= 1 + 1e-12
                       && p->cause[c].low <= p->cause[c].middle && p->cause[c].middle <= p->cause[c].high);
      posterior_free (p);
    }
  signatures_free (signatures);
}

/* A gauge misread by a bar on a healthy car. */
static void
test_wrong_reading (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  struct observation o[READINGS];
  struct posterior *p;

  read_all (&hollin_six, -1, 0, 0, 0.3, o);
  o[READING_CONTROL_WITHOUT_VACUUM].value[0] += 1e5; /* above the pressure with vacuum: no fault does that */
  p = infer (signatures, o, READINGS);
  g_assert_cmpint (p->set[0].count, ==, 0);
  for (int j = 0; j < p->evidence.channels; j++)
    if (p->evidence.channel[j].observation == READING_CONTROL_WITHOUT_VACUUM)
      g_assert_cmpfloat (p->reading[j].wrong, >, 0.8);
    else
      g_assert_cmpfloat (p->reading[j].wrong, <, 0.1);
  posterior_free (p);
  signatures_free (signatures);
}

/* Both of two faults found, each with the reading that only it moves; their readings run through the model together. */
static void
test_pair (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  const struct fault_dose doses[] = { { &workshop_faults ()[REGULATOR_LOW], 0.9, 0 },
                                      { &workshop_faults ()[SLOT_NARROW], 0.8, 4 } };
  struct observation o[READINGS];
  struct posterior *p;
  struct car car;

  g_assert_true (faults_apply (&hollin_six, doses, 2, &car, NULL));
  for (int i = 0; i < READINGS; i++)
    g_assert_true (workshop_read (&hollin_six, &car, (enum reading_id) i, &o[i]));
  p = infer (signatures, o, READINGS);
  g_assert_cmpint (p->set[0].count, ==, 2);
  g_assert_cmpint (p->set[0].cause[0], ==, cause_of (signatures, REGULATOR_LOW, 0));
  g_assert_cmpint (p->set[0].cause[1], ==, cause_of (signatures, SLOT_NARROW, 4));
  posterior_free (p);
  signatures_free (signatures);
}

/* Heater burnt out and heater without supply read alike at every severity that matters: one group. */
static void
test_group (void)
{
  struct signature_source source = { &hollin_six, workshop_faults (), WORKSHOP_FAULTS, workshop_unit, NULL };
  struct signatures *signatures = signatures_new (&source);
  struct car car = hollin_six;
  struct conditions c, arranged;
  struct observation o;
  struct state state;
  struct posterior *p;
  int open = cause_of (signatures, HEATER_OPEN, 0), supply = cause_of (signatures, HEATER_SUPPLY, 0);

  reading_reference (&reading_kinds[READING_CONTROL_WARM], &hollin_six, &c);
  c.block_temperature = 15;
  c.heater_time = 300;
  observation_usual (&reading_kinds[READING_CONTROL_WARM], &hollin_six, &c, &o);
  g_assert_true (fault_apply (&car, &workshop_faults ()[HEATER_SUPPLY], 1, 0));
  arranged = c;
  o.kind->arrange (&hollin_six, &arranged);
  g_assert_cmpint (metering_solve (&car, &arranged, &state), ==, OUTCOME_SOLVED);
  o.value[0] = state.control_pressure;
  g_assert_cmpint (signatures_add (signatures, &o, NULL, NULL), ==, 0);
  p = infer (signatures, &o, 1);
  g_assert_cmpint (p->cause[open].group, >=, 0);
  g_assert_cmpint (p->cause[open].group, ==, p->cause[supply].group);
  g_assert_cmpint (p->cause[cause_of (signatures, PUMP_WORN, 0)].group, !=, p->cause[open].group);
  posterior_free (p);
  signatures_free (signatures);
}

/* A limit says less than the value that it bounds and more than nothing, and it points the right way. */
static void
test_limits (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  int low = cause_of (signatures, WARM_UP_LOW, 0), high = cause_of (signatures, WARM_UP_HIGH, 0);
  struct observation o[READINGS];
  double prior, prior_high;
  struct posterior *p;

  read_all (&hollin_six, WARM_UP_LOW, 0.6, 0, 0, o);
  p = infer (signatures, o, 0);
  prior = p->cause[low].probability;
  prior_high = p->cause[high].probability;
  posterior_free (p);
  o[READING_CONTROL_WARM].form = OBSERVATION_AT_MOST;
  o[READING_CONTROL_WARM].value[0] = 3.2e5;
  p = infer (signatures, &o[READING_CONTROL_WARM], 1);
  g_assert_cmpfloat (p->cause[low].probability, >, 1.5 * prior);
  g_assert_cmpfloat (p->cause[high].probability, <, prior_high);
  posterior_free (p);
  o[READING_CONTROL_WARM].form = OBSERVATION_AT_LEAST;
  p = infer (signatures, &o[READING_CONTROL_WARM], 1);
  g_assert_cmpfloat (p->cause[low].probability, <, prior);
  posterior_free (p);
  signatures_free (signatures);
}

static void
test_complaint (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  const struct fault *named[] = { &workshop_faults ()[PUMP_WORN] };
  const struct sign yes = { true, 0.8, 0.9, named, 1 }, no = { false, 0.8, 0.9, named, 1 };
  struct posterior *without = infer (signatures, NULL, 0), *with;
  double prior = posterior_fault (without, named[0]);

  g_assert_cmpint (posterior_make (signatures, NULL, 0, &yes, 1, NULL, NULL, NULL, &with, NULL), ==, POSTERIOR_SOUND);
  g_assert_cmpfloat (posterior_fault (with, named[0]), >, 3 * prior);
  posterior_free (with);
  g_assert_cmpint (posterior_make (signatures, NULL, 0, &no, 1, NULL, NULL, NULL, &with, NULL), ==, POSTERIOR_SOUND);
  g_assert_cmpfloat (posterior_fault (with, named[0]), <, 0.4 * prior);
  posterior_free (with);
  posterior_free (without);
  signatures_free (signatures);
}

/* The system pressure speaks for the regulator against what comes second; the rest height has nothing to say. */
static void
test_weights (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  struct observation o[READINGS];
  double weight[READINGS], low, high;
  struct posterior *p;

  read_all (&hollin_six, REGULATOR_LOW, 0.8, 0, 0, o);
  p = infer (signatures, o, READINGS);
  g_assert_true (posterior_weights (p, weight));
  g_assert_cmpfloat (fabs (weight[READING_REST_HEIGHT]), <, 0.1);
  g_assert_true (posterior_band (p, READING_SYSTEM_PRESSURE, -1, &low, &high));
  g_assert_cmpfloat (low, <, 496e3);
  g_assert_cmpfloat (high, >, 496e3);
  g_assert_cmpfloat (low, >, o[READING_SYSTEM_PRESSURE].value[0]);
  g_assert_true (posterior_band (p, READING_SYSTEM_PRESSURE, 0, &low, &high));
  g_assert_cmpfloat (low, <, o[READING_SYSTEM_PRESSURE].value[0]);
  g_assert_cmpfloat (high, >, o[READING_SYSTEM_PRESSURE].value[0]);
  posterior_free (p);
  signatures_free (signatures);
}

/* A higher temperature flattens, and does not turn the order round. */
static void
test_temperature (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  struct diagnosis_options options = diagnosis_usual;
  struct observation o[READINGS];
  struct posterior *cool, *hot;

  read_all (&hollin_six, PUMP_WORN, 0.6, 0, 0.5, o);
  cool = infer (signatures, o, READINGS);
  options.temperature = 2;
  g_assert_cmpint (posterior_make (signatures, o, READINGS, NULL, 0, &options, NULL, NULL, &hot, NULL), ==,
                   POSTERIOR_SOUND);
  g_assert_cmpint (hot->set[0].cause[0], ==, cool->set[0].cause[0]);
  g_assert_cmpfloat (hot->set[0].probability, <, cool->set[0].probability);
  posterior_free (cool);
  posterior_free (hot);
  signatures_free (signatures);
}

static guint64
hash (guint64 sum, const void *bytes, gsize count)
{
  const guchar *byte = bytes;

  for (gsize i = 0; i < count; i++)
    sum = (sum ^ byte[i]) * 0x100000001b3u; /* FNV-1a */
  return sum;
}

static guint64
hash_of_diagnosis (void)
{
  struct signatures *signatures = workshop_signatures (&hollin_six);
  struct observation o[READINGS];
  guint64 sum = 0xcbf29ce484222325u;

  for (int fault = 0; fault < WORKSHOP_FAULTS; fault += 5) {
    struct posterior *p;
    read_all (&hollin_six, fault, 0.6, 1, 0.7, o);
    p = infer (signatures, o, READINGS);
    for (int i = 0; i < p->hypotheses; i++)
      sum = hash (sum, &p->hypothesis[i].weight, sizeof (double));
    for (int j = 0; j < p->evidence.channels; j++)
      sum = hash (sum, &p->reading[j].wrong, sizeof (double));
    posterior_free (p);
  }
  signatures_free (signatures);
  return sum;
}

static gpointer
hash_in_thread (gpointer data)
{
  guint64 *sum = data;

  *sum = hash_of_diagnosis ();
  return NULL;
}

static void
test_determinism (void)
{
  guint64 first = hash_of_diagnosis (), sums[2];
  GThread *threads[2];

  g_assert_true (first == hash_of_diagnosis ());
  for (int i = 0; i < 2; i++)
    threads[i] = g_thread_new ("diagnosis", hash_in_thread, &sums[i]);
  for (int i = 0; i < 2; i++) {
    g_thread_join (threads[i]);
    g_assert_true (sums[i] == first);
  }
}

static bool
stop_after (void *data, double share)
{
  int *left = data;

  g_assert_true (share >= 0 && share <= 1);
  return (*left)-- > 0;
}

/* Stopped anywhere, it says so, and goes on later as if nothing had been. */
static void
test_stopped (void)
{
  struct signature_source source = { &hollin_six, workshop_faults (), WORKSHOP_FAULTS, workshop_unit, NULL };
  struct signatures *signatures = signatures_new (&source);
  struct observation o[READINGS];
  struct posterior *whole, *p;
  int left = 10;

  read_all (&hollin_six, PUMP_WORN, 0.6, 0, 0.5, o);
  g_assert_cmpint (signatures_add (signatures, &o[0], stop_after, &left), ==, SIGNATURES_STOPPED);
  g_assert_cmpint (posterior_make (signatures, o, 1, NULL, 0, NULL, NULL, NULL, &p, NULL), ==, POSTERIOR_NOT_ADDED);
  for (int i = 0; i < READINGS; i++)
    g_assert_cmpint (signatures_add (signatures, &o[i], NULL, NULL), ==, i);
  g_assert_cmpint (signatures_add (signatures, &o[3], NULL, NULL), ==, 3); /* once only */
  whole = infer (signatures, o, READINGS);
  for (int polls = 0; polls < 60; polls += 7) {
    left = polls;
    if (posterior_make (signatures, o, READINGS, NULL, 0, NULL, stop_after, &left, &p, NULL) == POSTERIOR_STOPPED)
      g_assert_null (p);
    else
      posterior_free (p);
  }
  p = infer (signatures, o, READINGS);
  g_assert_true (p->set[0].probability == whole->set[0].probability);
  posterior_free (p);
  posterior_free (whole);
  signatures_free (signatures);
}

static void
test_bad_input (void)
{
  struct signatures *signatures = workshop_signatures (&tarn_four);
  struct observation good[READINGS], o[OBSERVATIONS_MAX + 1];
  struct posterior *p;
  int which = -1;

  read_all (&tarn_four, -1, 0, 0, 0, good);
  for (int i = 0; i < 8; i++) {
    memcpy (o, good, sizeof good);
    switch (i) {
    case 0: o[2].value[0] = NAN; break;
    case 1: o[2].uncertainty = 0; break;
    case 2: o[2].uncertainty = INFINITY; break;
    case 3: o[2].instrument = INSTRUMENTS_MAX + 1; break;
    case 4: o[2] = good[READING_CYLINDERS_SMALL]; o[2].cylinders = 1; break;
    case 5: o[2] = good[READING_CYLINDERS_SMALL]; o[2].cylinders = 1 << 6 | 1; break;
    case 6: o[2] = good[READING_CYLINDERS_SMALL]; memset (o[2].value, 0, sizeof o[2].value); break;
    default: o[2] = good[READING_CYLINDERS_SMALL]; o[2].form = OBSERVATION_AT_LEAST; break;
    }
    g_assert_cmpint (posterior_make (signatures, o, READINGS, NULL, 0, NULL, NULL, NULL, &p, &which), ==, POSTERIOR_BAD);
    g_assert_cmpint (which, ==, 2);
    g_assert_null (p);
  }
  for (int i = 0; i <= OBSERVATIONS_MAX; i++)
    o[i] = good[0];
  g_assert_cmpint (posterior_make (signatures, o, OBSERVATIONS_MAX + 1, NULL, 0, NULL, NULL, NULL, &p, NULL), ==,
                   POSTERIOR_TOO_MUCH);
  g_assert_cmpint (posterior_make (signatures, o, OBSERVATIONS_MAX, NULL, 0, NULL, NULL, NULL, &p, NULL), ==,
                   POSTERIOR_SOUND);
  posterior_free (p);
  o[0].value[0] = 1e9; /* sound as a number, beyond all sense: an answer, or none, but never a NaN */
  if (posterior_make (signatures, o, 1, NULL, 0, NULL, NULL, NULL, &p, NULL) == POSTERIOR_SOUND) {
    g_assert_true (isfinite (p->set[0].probability));
    g_assert_true (p->reading[0].unexplained || p->reading[0].wrong > 0.5);
    posterior_free (p);
  }
  signatures_free (signatures);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/causes/named-first", test_named_first);
  g_test_add_func ("/causes/healthy", test_healthy);
  g_test_add_func ("/causes/invisible", test_invisible);
  g_test_add_func ("/causes/sums", test_sums);
  g_test_add_func ("/causes/wrong-reading", test_wrong_reading);
  g_test_add_func ("/causes/pair", test_pair);
  g_test_add_func ("/causes/group", test_group);
  g_test_add_func ("/causes/limits", test_limits);
  g_test_add_func ("/causes/complaint", test_complaint);
  g_test_add_func ("/causes/weights", test_weights);
  g_test_add_func ("/causes/temperature", test_temperature);
  g_test_add_func ("/causes/determinism", test_determinism);
  g_test_add_func ("/causes/stopped", test_stopped);
  g_test_add_func ("/causes/bad-input", test_bad_input);
  return g_test_run ();
}
