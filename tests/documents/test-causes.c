/* A job's readings on their way into the diagnosis. */
#include "causes.h"

#include <math.h>

static struct job *
new_job (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = vehicle_load ("hollin-six", problems);

  g_assert_nonnull (vehicle);
  return job_new (vehicle);
}

static struct job_reading *
add (struct job *job, const char *key, const char *value, const char *unit)
{
  struct job_reading *reading = job_reading_new (reading_find (key));

  reading->values = 1;
  typed_set (&reading->value[0], value, unit_any (unit));
  g_ptr_array_add (job->readings, reading);
  return reading;
}

static void
test_nothing (void)
{
  g_autoptr (job_t) job = new_job ();

  g_assert_null (job_causes (job));
  g_ptr_array_add (job->readings, job_reading_new (reading_find ("delivery"))); /* not filled in yet */
  g_assert_null (job_causes (job));
}

/* Half of a gauge's variance is its own, whatever was typed. */
static void
test_uncertainty (void)
{
  g_autoptr (job_t) job = new_job ();
  g_autoptr (causes_t) causes = NULL;
  struct job_reading *reading = add (job, "system-pressure", "4.9", "bar");

  reading->uncertainty_form = UNCERTAINTY_STANDARD;
  typed_set (&reading->uncertainty, "0.1", unit_any ("bar"));
  add (job, "rest-height", "0.1", "mm");
  causes = job_causes (job);
  g_assert_nonnull (causes);
  g_assert_cmpint (causes->takens, ==, 2);
  g_assert_cmpfloat_with_epsilon (hypot (causes->posterior->observation[0].uncertainty,
                                         causes->posterior->observation[0].bias), 1e4, 1e-6);
  g_assert_true (causes->posterior->observation[1].bias == 0);
  g_assert_cmpfloat_with_epsilon (causes->posterior->observation[1].value[0], 1e-4, 1e-12);
}

/* What has been read is no candidate; more readings than there is room for are counted, not lost silently. */
static void
test_candidates_and_room (void)
{
  g_autoptr (job_t) job = new_job ();
  g_autoptr (causes_t) causes = NULL;

  for (int i = 0; i < OBSERVATIONS_MAX + 3; i++)
    add (job, "system-pressure", "4.95", "bar");
  causes = job_causes (job);
  g_assert_nonnull (causes);
  g_assert_cmpint (causes->takens, ==, OBSERVATIONS_MAX);
  g_assert_cmpint (causes->left_out, ==, 3);
  g_assert_cmpint (causes->candidates, ==, READINGS - 1);
  g_assert_cmpint (causes->covered, >, 15);
  g_assert_cmpuint ((guint) causes->covered, <, causes->catalogue->count);
  for (int i = 0; i < causes->candidates; i++)
    g_assert_true (causes->candidate[i].kind != reading_find ("system-pressure"));
}

/* A heater reading ends the cold: the cold pressure then comes too late. */
static void
test_cold_is_over (void)
{
  g_autoptr (job_t) job = new_job ();
  g_autoptr (causes_t) causes = NULL;
  gboolean seen = FALSE;

  add (job, "control-pressure-warm", "3.7", "bar");
  causes = job_causes (job);
  g_assert_nonnull (causes);
  for (int i = 0; i < causes->advice.count; i++)
    if (causes->candidate[causes->advice.reading[i].candidate].kind == reading_find ("control-pressure-cold")) {
      g_assert_true (causes->advice.reading[i].too_late);
      seen = TRUE;
    }
  g_assert_true (seen);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/causes/nothing", test_nothing);
  g_test_add_func ("/causes/uncertainty", test_uncertainty);
  g_test_add_func ("/causes/candidates-and-room", test_candidates_and_room);
  g_test_add_func ("/causes/cold-is-over", test_cold_is_over);
  return g_test_run ();
}
