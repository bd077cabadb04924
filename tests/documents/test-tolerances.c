/* The tolerances as a document, and what healthy units drawn from them read. */
#include "reading.h"
#include "solve.h"
#include "tolerance-document.h"
#include "vehicle-document.h"

#include <math.h>
#include <string.h>

#define UNITS 800
#define BAR 1e5

struct bad {
  const char *text, *place, *word;
};

#define HEAD "{\"format\":\"platelift-tolerances\",\"version\":1,\"tolerances\":["
#define ROW(text) HEAD "{" text "}]}"

static const struct bad bads[] = {
  { "{\"format\":\"platelift-tolerances\",\"version\":1}", "/tolerances", "missing" },
  { HEAD "]}", "/tolerances", "At least 1" },
  { ROW ("\"form\":\"relative\",\"common\":0.1"), "/tolerances/0/parameter", "missing" },
  { ROW ("\"parameter\":\"pump_flow\",\"common\":0.1"), "/tolerances/0/form", "missing" },
  { ROW ("\"parameter\":\"pump_flow\",\"form\":\"relative\""), "/tolerances/0", "common" },
  { ROW ("\"parameter\":\"wings\",\"form\":\"relative\",\"common\":0.1"), "/tolerances/0/parameter", "wings" },
  { ROW ("\"parameter\":\"pump_flow\",\"form\":\"even\",\"common\":0.1"), "/tolerances/0/form", "relative" },
  { ROW ("\"parameter\":\"pump_flow\",\"form\":\"relative\",\"common\":-0.1"), "/tolerances/0/common", "range" },
  { ROW ("\"parameter\":\"pump_flow\",\"form\":\"log\",\"each\":2"), "/tolerances/0/each", "range" },
  { ROW ("\"parameter\":\"pump_flow\",\"form\":\"log\",\"each\":1,\"part\":\"land\""), "/tolerances/0/part", "clearance" },
  { ROW ("\"parameter\":\"pump_flow\",\"form\":\"log\",\"each\":1},{\"parameter\":\"pump_flow\",\"form\":\"log\",\"each\":1"),
    "/tolerances/1", "twice" },
};

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bads); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    struct tolerances tolerances;
    gboolean found = FALSE;

    g_assert_false (tolerances_parse (bads[i].text, strlen (bads[i].text), &tolerances, problems));
    for (unsigned j = 0; j < problems_count (problems); j++)
      found |= g_str_equal (problems_at (problems, j)->place, bads[i].place)
               && strstr (problems_at (problems, j)->sentence, bads[i].word) != NULL;
    if (!found) {
      g_autofree char *text = problems_text (problems, NULL);
      g_test_fail_printf ("row %zu: no “%s” at %s, but:\n%s", i, bads[i].word, bads[i].place, text);
    }
  }
}

static const struct tolerances *
shipped (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  const struct tolerances *tolerances = tolerances_shipped (problems);

  g_assert_cmpuint (problems_count (problems), ==, 0);
  return tolerances;
}

static const struct car *
car_of (const char *name)
{
  g_autoptr (problems_t) problems = problems_new ();
  static struct vehicle *vehicle;

  g_free (vehicle);
  vehicle = vehicle_load (name, problems);
  g_assert_nonnull (vehicle);
  return &vehicle->car;
}

/* One seed, one unit; another seed, another; and a row more leaves what the others draw. */
static void
test_seeds (void)
{
  const struct car *nominal = car_of ("hollin-six");
  struct tolerances fewer = *shipped ();
  struct car a, b, c, d;

  unit_draw (nominal, shipped (), 12345, &a);
  unit_draw (nominal, shipped (), 12345, &b);
  unit_draw (nominal, shipped (), 12346, &c);
  g_assert_cmpmem (&a, sizeof a, &b, sizeof b);
  g_assert_cmpint (memcmp (&a, &c, sizeof a), !=, 0);
  fewer.count = 5;
  fewer.idle_setting = 0;
  unit_draw (nominal, &fewer, 12345, &d);
  g_assert_cmpfloat (a.distributor.slot_width[3], ==, d.distributor.slot_width[3]);
  g_assert_cmpfloat (d.supply.pump_flow, ==, nominal->supply.pump_flow);
  fewer.count = 0;
  unit_draw (nominal, &fewer, 12345, &d);
  g_assert_cmpmem (&d, sizeof d, nominal, sizeof d);
}

/* Mean and standard deviation of one value over the units. */
struct spread {
  double sum, square;
};

static void
add_to (struct spread *spread, double value)
{
  spread->sum += value;
  spread->square += value * value;
}

static double
mean_of (const struct spread *spread)
{
  return spread->sum / UNITS;
}

static double
deviation_of (const struct spread *spread)
{
  double mean = mean_of (spread);

  return sqrt (fmax (spread->square / UNITS - mean * mean, 0));
}

static double
expected (enum reading_id id, const struct car *car, int cylinder)
{
  const struct reading_kind *kind = &reading_kinds[id];
  struct conditions reference;
  double value = NAN;

  reading_reference (kind, car, &reference);
  g_assert_cmpint (reading_expected (kind, car, &reference, cylinder, &value), ==, OUTCOME_SOLVED);
  return value;
}

static double
lambda_at (const struct car *car, double air, double vacuum)
{
  struct conditions c;
  struct state state;

  conditions_usual (&c);
  c.air_flow = air;
  c.vacuum = vacuum;
  g_assert_cmpint (metering_solve (car, &c, &state), ==, OUTCOME_SOLVED);
  return state.lambda;
}

/* Largest less smallest cylinder, by the mean. */
static double
cylinder_range (const struct car *car)
{
  double least = INFINITY, most = 0, mean = 0;

  for (int i = 0; i < car->cylinders; i++) {
    double flow = expected (READING_CYLINDERS_SMALL, car, i);
    least = fmin (least, flow);
    most = fmax (most, flow);
    mean += flow / car->cylinders;
  }
  return (most - least) / mean;
}

/* The usual figures of the trade for how far healthy units differ, as twice the standard deviation: judged, no source. */
static void
test_figures (void)
{
  const struct car *nominal = car_of ("hollin-six");
  struct spread system = { 0 }, warm = { 0 }, cold = { 0 }, range = { 0 }, idle = { 0 }, full = { 0 }, flow = { 0 };

  for (int i = 0; i < UNITS; i++) {
    struct car unit;

    unit_draw (nominal, shipped (), 1000 + (uint64_t) i, &unit);
    g_assert_true (car_check (&unit, NULL));
    add_to (&system, expected (READING_SYSTEM_PRESSURE, &unit, 0));
    add_to (&warm, expected (READING_CONTROL_WARM, &unit, 0));
    add_to (&cold, expected (READING_CONTROL_COLD, &unit, 0));
    add_to (&range, cylinder_range (&unit));
    add_to (&idle, lambda_at (&unit, nominal->engine.idle_air, 50e3));
    add_to (&full, lambda_at (&unit, nominal->engine.full_air, 2e3));
    add_to (&flow, expected (READING_DELIVERY, &unit, 0));
  }
  g_test_message ("2 sd: system %.3f, warm %.3f, cold %.3f bar, lambda idle %.4f, full %.4f, delivery %.1f %%; cylinders "
                  "range over %.1f %%",
                  2 * deviation_of (&system) / BAR, 2 * deviation_of (&warm) / BAR, 2 * deviation_of (&cold) / BAR,
                  2 * deviation_of (&idle), 2 * deviation_of (&full), 200 * deviation_of (&flow) / mean_of (&flow),
                  100 * mean_of (&range));
  g_assert_cmpfloat_with_epsilon (2 * deviation_of (&system), 0.15 * BAR, 0.03 * BAR);
  g_assert_cmpfloat_with_epsilon (2 * deviation_of (&warm), 0.15 * BAR, 0.03 * BAR);
  g_assert_cmpfloat_with_epsilon (2 * deviation_of (&cold), 0.19 * BAR, 0.04 * BAR);
  g_assert_cmpfloat_with_epsilon (mean_of (&range), 0.07, 0.03);
  g_assert_cmpfloat_with_epsilon (2 * deviation_of (&idle), 2 * 0.0065 * mean_of (&idle), 0.002);
  g_assert_cmpfloat_with_epsilon (2 * deviation_of (&full), 0.035, 0.02);
}

/* Most healthy units read inside their car's bands, on every shipped car and in every reading. Not all: the delivery of a
 * strong pump lies above its band, which nobody minds. */
static void
test_in_bands (void)
{
  g_autoptr (problems_t) problems = problems_new ();

  for (const char *const *name = vehicle_shipped (); *name; name++) {
    g_autofree struct vehicle *vehicle = vehicle_load (*name, problems);
    int inside[READINGS] = { 0 }, asked[READINGS] = { 0 };

    g_assert_nonnull (vehicle);
    for (int n = 0; n < 200; n++) {
      struct car unit;
      unit_draw (&vehicle->car, shipped (), (uint64_t) n, &unit);
      for (int r = 0; r < READINGS; r++) {
        struct conditions reference;
        double low, high, value;
        if (reading_kinds[r].each_cylinder)
          continue; /* judged by deviations: test_figures */
        reading_reference (&reading_kinds[r], &vehicle->car, &reference);
        if (!band_limits (&vehicle->bands[r], &reading_kinds[r], &vehicle->car, &reference, &low, &high))
          continue;
        value = expected ((enum reading_id) r, &unit, 0);
        asked[r]++;
        inside[r] += value >= low && value <= high;
      }
    }
    for (int r = 0; r < READINGS; r++)
      if (asked[r] > 0 && !(inside[r] >= 0.8 * asked[r]))
        g_test_fail_printf ("%s: %s: %d of %d inside", *name, reading_kinds[r].key, inside[r], asked[r]);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/tolerances/bad", test_bad);
  g_test_add_func ("/documents/tolerances/seeds", test_seeds);
  g_test_add_func ("/documents/tolerances/figures", test_figures);
  g_test_add_func ("/documents/tolerances/in-bands", test_in_bands);
  return g_test_run ();
}
