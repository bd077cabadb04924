#include "check.h"

#include <math.h>
#include <string.h>

static struct job *
shipped (const char *name)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *path = g_build_filename (DATA_FOLDER, "jobs", name, NULL);
  struct job *job = job_load (path, problems);

  g_assert_nonnull (job);
  return job;
}

static const struct checked_reading *
entry_at (GArray *checked, guint index)
{
  g_assert_cmpuint (index, <, checked->len);
  return &g_array_index (checked, struct checked_reading, index);
}

static const struct checked_reading *
find (GArray *checked, const char *key, int cylinder)
{
  for (guint i = 0; i < checked->len; i++)
    if (g_str_equal (entry_at (checked, i)->reading->kind->key, key) && entry_at (checked, i)->cylinder == cylinder)
      return entry_at (checked, i);
  g_error ("no %s, cylinder %d", key, cylinder);
}

static void
test_good_car (void)
{
  g_autoptr (job_t) job = shipped ("hollin-six-yearly-check.json");
  g_autoptr (GArray) checked = job_check (job);

  g_assert_cmpuint (checked->len, ==, 6 + 2 * 6);
  for (guint i = 0; i < checked->len; i++) {
    const struct checked_reading *entry = entry_at (checked, i);
    g_test_message ("%s %d", entry->reading->kind->key, entry->cylinder);
    g_assert_cmpint (entry->outcome, ==, OUTCOME_SOLVED);
    g_assert_true (entry->has_band);
    g_assert_cmpint (entry->agreement, ==, AGREEMENT_IN);
    g_assert_cmpfloat (entry->uncertainty, >, 0);
    g_assert_cmpfloat (entry->low, <=, entry->expected);
    g_assert_cmpfloat (entry->expected, <=, entry->high);
  }
}

static void
test_bad_car (void)
{
  g_autoptr (job_t) job = shipped ("tarn-four-runs-rich.json");
  g_autoptr (GArray) checked = job_check (job);
  static const struct {
    const char *key;
    int cylinder;
    enum agreement agreement;
  } rows[] = {
    { "control-pressure-cold", -1, AGREEMENT_IN },
    { "system-pressure", -1, AGREEMENT_IN },
    { "delivery", -1, AGREEMENT_IN },
    { "control-pressure-warm", -1, AGREEMENT_OUT_LOW },
    { "control-pressure-without-vacuum", -1, AGREEMENT_OUT_LOW },
    { "cylinders-small", 2, AGREEMENT_OUT_LOW },
    { "cylinders-middle", 2, AGREEMENT_IN },
    { "rest-height", -1, AGREEMENT_IN },
  };

  g_assert_cmpuint (checked->len, ==, 6 + 2 * 4);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (find (checked, rows[i].key, rows[i].cylinder)->agreement, ==, rows[i].agreement);
}

static void
test_deviations (void)
{
  g_autoptr (job_t) job = shipped ("tarn-four-runs-rich.json");
  g_autoptr (GArray) checked = job_check (job);
  double sum = 0, expected = 0;

  /* (5.6 + 5.5 + 4.2 + 5.6) / 4 = 5.225; 4.2 / 5.225 - 1 */
  g_assert_cmpfloat_with_epsilon (find (checked, "cylinders-small", 2)->value, 4.2 / 5.225 - 1, 1e-12);
  for (int i = 0; i < 4; i++) {
    sum += find (checked, "cylinders-small", i)->value;
    expected += find (checked, "cylinders-small", i)->expected;
  }
  g_assert_cmpfloat_with_epsilon (sum, 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (expected, 0, 1e-12);
  g_assert_cmpfloat (find (checked, "cylinders-small", 0)->expected, !=, 0); /* this car's slots differ */
}

static const struct unit *
unit (const char *symbol, const struct reading_kind *kind)
{
  return unit_find (symbol, kind->quantity);
}

static void
test_incomplete (void)
{
  g_autoptr (job_t) job = shipped ("tarn-four-runs-rich.json");
  struct job_reading *one = job_reading_new (reading_find ("cylinders-full"));
  struct job_reading *two = job_reading_new (reading_find ("cylinders-full"));
  struct job_reading *nothing = job_reading_new (reading_find ("delivery"));
  g_autoptr (GArray) checked = NULL;

  one->values = two->values = 4;
  typed_set (&one->value[1], "66", unit ("cm3/30s", one->kind));
  typed_set (&two->value[0], "60", unit ("cm3/30s", one->kind));
  typed_set (&two->value[3], "2", unit ("cm³ in 30 s", one->kind));
  typed_set (&two->value[3], "70", unit ("cm³ in 30 s", one->kind));
  g_ptr_array_set_size (job->readings, 0);
  g_ptr_array_add (job->readings, nothing);
  g_ptr_array_add (job->readings, one);
  g_ptr_array_add (job->readings, two);
  checked = job_check (job);
  g_assert_cmpuint (checked->len, ==, 2); /* nothing typed: no entry; one cylinder has no mean to differ from */
  g_assert_cmpint (entry_at (checked, 0)->cylinder, ==, 0);
  g_assert_cmpint (entry_at (checked, 1)->cylinder, ==, 3);
  g_assert_cmpfloat_with_epsilon (entry_at (checked, 0)->value, -5.0 / 65, 1e-12);
}

static void
test_no_band (void)
{
  g_autoptr (job_t) job = shipped ("hollin-six-yearly-check.json");
  g_autoptr (GArray) checked = NULL;

  memset (job->vehicle->bands, 0, sizeof job->vehicle->bands);
  checked = job_check (job);
  for (guint i = 0; i < checked->len; i++) {
    g_assert_false (entry_at (checked, i)->has_band);
    g_assert_cmpint (entry_at (checked, i)->agreement, ==, AGREEMENT_UNDECIDED);
    g_assert_cmpint (entry_at (checked, i)->outcome, ==, OUTCOME_SOLVED);
  }
}

/* The reading walks from far below to far above its band: out, undecided, in, undecided, out, each at its own
 * limits. */
static void
test_walk (void)
{
  g_autoptr (job_t) job = shipped ("hollin-six-yearly-check.json");
  static const enum agreement order[]
      = { AGREEMENT_OUT_LOW, AGREEMENT_UNDECIDED, AGREEMENT_IN, AGREEMENT_UNDECIDED, AGREEMENT_OUT_HIGH };
  struct job_reading *reading = job_reading_new (reading_find ("system-pressure"));
  int seen = 0;

  g_ptr_array_set_size (job->readings, 0);
  g_ptr_array_add (job->readings, reading);
  reading->uncertainty_form = UNCERTAINTY_STANDARD;
  typed_set (&reading->uncertainty, "0.05", unit_find ("bar", QUANTITY_PRESSURE_DIFFERENCE));
  for (int i = 400; i < 600; i++) {
    g_autofree char *text = g_strdup_printf ("%d", i);
    g_autoptr (GArray) checked = NULL;
    const struct checked_reading *entry;
    typed_set (&reading->value[0], text, unit ("kPa", reading->kind));
    checked = job_check (job);
    entry = entry_at (checked, 0);
    if (i > 400 && entry->agreement != order[seen])
      seen++;
    g_assert_cmpint (entry->agreement, ==, order[seen]);
    /* JCGM 106:2012 8.3: guard band 1.64 u = 8.2 kPa to either side of a limit. */
    g_assert_cmpint (entry->agreement == AGREEMENT_IN, ==,
                     i * 1e3 > entry->low + 8200 && i * 1e3 < entry->high - 8200);
  }
  g_assert_cmpint (seen, ==, 4);
}

static void
test_table (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = vehicle_load ("garth-eight", problems);
  g_autoptr (job_t) job = job_new (vehicle);
  g_autoptr (GArray) checked = NULL;
  g_autofree char *text = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (DATA_FOLDER "/jobs/garth-eight-readings.csv", &text, &length, NULL));
  g_assert_true (csv_readings_parse (text, length, job, problems));
  checked = job_check (job);
  g_assert_cmpuint (checked->len, ==, 5 + 8);
  for (guint i = 0; i < checked->len; i++)
    g_assert_cmpint (entry_at (checked, i)->agreement, ==, AGREEMENT_IN);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/check/good-car", test_good_car);
  g_test_add_func ("/documents/check/bad-car", test_bad_car);
  g_test_add_func ("/documents/check/deviations", test_deviations);
  g_test_add_func ("/documents/check/incomplete", test_incomplete);
  g_test_add_func ("/documents/check/no-band", test_no_band);
  g_test_add_func ("/documents/check/walk", test_walk);
  g_test_add_func ("/documents/check/table", test_table);
  return g_test_run ();
}
