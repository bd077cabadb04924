#include "job-document.h"

#include <math.h>
#include <string.h>

static struct job *
load (const char *path)
{
  g_autoptr (problems_t) problems = problems_new ();
  struct job *job = job_load (path, problems);
  g_autofree char *text = problems_text (problems, path);

  g_assert_cmpstr (text, ==, "");
  g_assert_nonnull (job);
  return job;
}

static char *
shipped_path (const char *name)
{
  return g_build_filename (DATA_FOLDER, "jobs", name, NULL);
}

static struct job *
parse (const char *text, struct problems *problems)
{
  return job_parse (text, strlen (text), problems);
}

static void
assert_typed (const struct typed *a, const struct typed *b)
{
  g_assert_cmpstr (a->text, ==, b->text);
  g_assert_true (a->unit == b->unit);
  g_assert_cmpfloat (a->si, ==, b->si);
}

static void
assert_conditions (const struct typed_conditions *a, const struct typed_conditions *b)
{
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    assert_typed (typed_condition_get (a, &typed_condition_rows[i]), typed_condition_get (b, &typed_condition_rows[i]));
  g_assert_cmpint (a->vacuum_source_given, ==, b->vacuum_source_given);
  g_assert_cmpint (a->vacuum_source, ==, b->vacuum_source);
}

static void
assert_readings (const struct job_reading *a, const struct job_reading *b)
{
  g_assert_true (a->kind == b->kind);
  g_assert_cmpint (a->values, ==, b->values);
  for (int i = 0; i < CYLINDERS_MAX; i++)
    assert_typed (&a->value[i], &b->value[i]);
  g_assert_cmpint (a->uncertainty_form, ==, b->uncertainty_form);
  assert_typed (&a->uncertainty, &b->uncertainty);
  assert_conditions (&a->conditions, &b->conditions);
  g_assert_cmpstr (a->note, ==, b->note);
}

static void
assert_jobs (const struct job *a, const struct job *b)
{
  g_assert_cmpstr (a->workshop, ==, b->workshop);
  g_assert_cmpstr (a->technician, ==, b->technician);
  g_assert_cmpstr (a->vehicle_mark, ==, b->vehicle_mark);
  g_assert_cmpstr (a->date, ==, b->date);
  g_assert_cmpstr (a->complaint, ==, b->complaint);
  g_assert_cmpstr (a->notes, ==, b->notes);
  g_assert_cmpmem (a->vehicle, sizeof *a->vehicle, b->vehicle, sizeof *b->vehicle);
  assert_conditions (&a->conditions, &b->conditions);
  g_assert_cmpuint (a->readings->len, ==, b->readings->len);
  for (guint i = 0; i < a->readings->len; i++)
    assert_readings (g_ptr_array_index (a->readings, i), g_ptr_array_index (b->readings, i));
}

static void
assert_round_trip (const struct job *job)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *text = job_write (job);
  g_autoptr (job_t) again = parse (text, problems);
  g_autoptr (job_t) copy = job_copy (job);
  g_autofree char *told = problems_text (problems, NULL);
  g_autofree char *second = NULL;

  g_assert_cmpstr (told, ==, "");
  g_assert_nonnull (again);
  assert_jobs (job, again);
  assert_jobs (job, copy);
  second = job_write (again);
  g_assert_cmpstr (text, ==, second);
}

static void
test_shipped (void)
{
  const char *const *names = job_shipped ();
  g_autoptr (problems_t) problems = problems_new ();

  g_assert_cmpuint (g_strv_length ((char **) names), ==, 2);
  for (int i = 0; names[i]; i++) {
    g_autofree char *file = g_strconcat (names[i], ".json", NULL);
    g_autofree char *path = shipped_path (file);
    g_autoptr (job_t) job = load (path);
    g_autoptr (job_t) inside = job_load_shipped (names[i], problems);
    g_assert_cmpuint (job->readings->len, ==, 8);
    assert_round_trip (job);
    assert_jobs (job, inside);
  }
  g_assert_null (job_load_shipped ("../vehicles/generic", problems));
  g_assert_cmpuint (problems_count (problems), ==, 1);
}

/* What is typed comes back letter by letter: decimal comma, superfluous zeroes, spaces, the unit's own spelling
 * apart. */
static void
test_typed_stays (void)
{
  static const char text[]
      = "{\"format\": \"platelift-job\", \"version\": 1, \"car\": \"tarn-four\", \"readings\": ["
        "{\"kind\": \"system-pressure\", \"value\": \" 4,950 \", \"unit\": \"Bar\"},"
        "{\"kind\": \"system-pressure\", \"value\": 4.95, \"unit\": \"bar\"},"
        "{\"kind\": \"system-pressure\", \"value\": \"\"},"
        "{\"kind\": \"cylinders-small\", \"values\": [\"1\", \"\", 2.5, \"\"], \"unit\": [\"cm3/min\", \"\", \"l/h\", \"\"]}]}";
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = parse (text, problems);
  const struct job_reading *reading;

  g_assert_nonnull (job);
  reading = g_ptr_array_index (job->readings, 0);
  g_assert_cmpstr (reading->value[0].text, ==, " 4,950 ");
  g_assert_cmpstr (reading->value[0].unit->symbol, ==, "bar");
  g_assert_cmpfloat (reading->value[0].si, ==, 495000);
  reading = g_ptr_array_index (job->readings, 1);
  g_assert_cmpstr (reading->value[0].text, ==, "4.95");
  reading = g_ptr_array_index (job->readings, 2);
  g_assert_cmpstr (reading->value[0].text, ==, "");
  reading = g_ptr_array_index (job->readings, 3);
  g_assert_cmpint (reading->values, ==, 4);
  g_assert_cmpstr (reading->value[2].unit->symbol, ==, "l/h");
  g_assert_null (reading->value[1].unit);
  assert_round_trip (job);
}

/* -- random jobs ------------------------------------------------------------------------------------------------------ */

static const struct unit *
random_unit (GRand *random, enum quantity quantity)
{
  for (;;) {
    const struct unit *unit = &units[g_rand_int_range (random, 0, unit_count)];
    if (unit_find (unit->symbol, quantity) == unit)
      return unit;
  }
}

/* A number as somebody might type it, whose SI value lies within the limits. */
static void
random_typed (GRand *random, struct typed *typed, enum quantity quantity, double least, double most)
{
  const struct unit *unit = random_unit (random, quantity);
  double si = least + (most - least) * g_rand_double_range (random, 0.2, 0.8);
  g_autofree char *text = g_strdup_printf ("%.*f", g_rand_int_range (random, 3, 9), unit_from_si (unit, si));

  if (g_rand_boolean (random))
    g_strdelimit (text, ".", ',');
  if (g_rand_int_range (random, 0, 6) == 0)
    typed_set (typed, "", g_rand_boolean (random) ? unit : NULL);
  else
    typed_set (typed, text, unit);
}

static void
random_conditions (GRand *random, struct typed_conditions *conditions)
{
  for (int i = 0; i < TYPED_CONDITIONS; i++) {
    const struct condition *condition = condition_find (typed_condition_rows[i].condition);
    if (g_rand_boolean (random))
      random_typed (random, typed_condition_in (conditions, &typed_condition_rows[i]), condition->quantity,
                    condition->least, condition->most);
  }
  conditions->vacuum_source_given = g_rand_boolean (random);
  if (conditions->vacuum_source_given)
    conditions->vacuum_source = (enum vacuum_source) g_rand_int_range (random, 0, 3);
}

static char *
random_words (GRand *random)
{
  static const char *const pieces[] = { "rough ", "\"idle\" ", "\n", "\t", "\\", "Öl ", "油 ", "/", "\001", "é" };
  GString *text = g_string_new (NULL);

  for (int i = g_rand_int_range (random, 0, 12); i > 0; i--)
    g_string_append (text, pieces[g_rand_int_range (random, 0, G_N_ELEMENTS (pieces))]);
  return g_string_free (text, FALSE);
}

static struct job_reading *
random_reading (GRand *random, int cylinders)
{
  const struct reading_kind *kind = &reading_kinds[g_rand_int_range (random, 0, READINGS)];
  struct job_reading *reading = job_reading_new (kind);
  double least, most;

  job_value_limits (kind->quantity, &least, &most);
  reading->values = kind->each_cylinder ? cylinders : 1;
  for (int i = 0; i < reading->values; i++)
    random_typed (random, &reading->value[i], kind->quantity, least, most);
  reading->uncertainty_form = (enum uncertainty_form) g_rand_int_range (random, 0, 4);
  if (reading->uncertainty_form != UNCERTAINTY_USUAL)
    random_typed (random, &reading->uncertainty, job_uncertainty_quantity (kind), 1e-3, 2e-3);
  if (*reading->uncertainty.text && !(reading->uncertainty.si > 0))
    typed_set (&reading->uncertainty, "", NULL);
  random_conditions (random, &reading->conditions);
  g_free (reading->note);
  reading->note = random_words (random);
  return reading;
}

static void
test_random_round_trip (void)
{
  GRand *random = g_rand_new_with_seed (17);

  for (int i = 0; i < 500; i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autofree struct vehicle *vehicle = vehicle_load (vehicle_shipped ()[i % 3], problems);
    g_autoptr (job_t) job = job_new (vehicle);
    g_free (job->complaint);
    job->complaint = random_words (random);
    random_conditions (random, &job->conditions);
    for (int j = g_rand_int_range (random, 0, 12); j > 0; j--)
      g_ptr_array_add (job->readings, random_reading (random, vehicle->car.cylinders));
    assert_round_trip (job);
  }
  g_rand_free (random);
}

/* -- bad input -------------------------------------------------------------------------------------------------------- */

#define HEAD "{\"format\": \"platelift-job\", \"version\": 1, \"car\": \"tarn-four\", "
#define ONE(reading) HEAD "\"readings\": [" reading "]}"

static const struct {
  const char *text, *place, *words;
} bad[] = {
  { "{\"format\": \"platelift-job\", \"version\": 1}", "/car", "“car” is missing" },
  { "{\"format\": \"platelift-vehicle\", \"version\": 1}", "/format", "platelift-job" },
  { "{\"format\": \"platelift-job\", \"version\": 3}", "/version", "newer version" },
  { "{\"format\": \"platelift-job\", \"version\": 1, \"car\": \"no-such-car\"}", "/car", "garth-eight" },
  { "{\"format\": \"platelift-job\", \"version\": 1, \"car\": 7}", "/car", "shipped car" },
  { "{\"format\": \"platelift-job\", \"version\": 1, \"car\": {\"format\": \"platelift-vehicle\", \"version\": 1}}",
    "/car/name",
    "“name” is missing" },
  { "{\"format\": \"platelift-job\", \"version\": 1, \"car\": {\"format\": \"platelift-vehicle\", \"version\": 1, \"name\": "
    "\"x\", \"fuel\": {\"density\": 1}}}",
    "/car/fuel/density", "out of range" },
  { HEAD "\"workshp\": \"x\"}", "/workshp", "is “workshop” meant" },
  { HEAD "\"workshop\": 7}", "/workshop", "text" },
  { HEAD "\"readings\": {}}", "/readings", "list" },
  { ONE ("7"), "/readings/0", "object" },
  { ONE ("{}"), "/readings/0/kind", "“kind” is missing" },
  { ONE ("{\"kind\": \"oil-pressure\"}"), "/readings/0/kind", "One of" },
  { ONE ("{\"kind\": \"system-presure\"}"), "/readings/0/kind", "is “system-pressure” meant" },
  { ONE ("{\"kind\": \"delivery\", \"unit\": \"l/h\"}"), "/readings/0/value", "“value” is missing" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"900\"}"), "/readings/0/unit", "never guessed" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"900\", \"unit\": \"bar\"}"), "/readings/0/unit", "something else" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"900\", \"unit\": \"pints\"}"), "/readings/0/unit", "not a unit" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"900\", \"unit\": \"\"}"), "/readings/0/unit", "missing" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"much\", \"unit\": \"l/h\"}"), "/readings/0/value", "not a number" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"1,234.5\", \"unit\": \"l/h\"}"), "/readings/0/value", "separators" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"1e999\", \"unit\": \"l/h\"}"), "/readings/0/value", "too large" },
  { ONE ("{\"kind\": \"delivery\", \"value\": 1e308, \"unit\": \"l/h\"}"), "/readings/0/value", "is the unit right" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"-5\", \"unit\": \"l/h\"}"), "/readings/0/value", "out of range" },
  { ONE ("{\"kind\": \"delivery\", \"value\": true, \"unit\": \"l/h\"}"), "/readings/0/value", "number" },
  { ONE ("{\"kind\": \"delivery\", \"values\": [\"1\"], \"value\": \"1\", \"unit\": \"l/h\"}"), "/readings/0/values",
    "not known" },
  { ONE ("{\"kind\": \"system-pressure\", \"value\": \"495\", \"unit\": \"bar\"}"), "/readings/0/value",
    "is the unit right" },
  { ONE ("{\"kind\": \"cylinders-small\", \"value\": \"1\", \"values\": [1, 1, 1, 1], \"unit\": \"l/h\"}"),
    "/readings/0/value", "not known" },
  { ONE ("{\"kind\": \"cylinders-small\", \"values\": [1, 1, 1], \"unit\": \"l/h\"}"), "/readings/0/values",
    "4 cylinders, but 3" },
  { ONE ("{\"kind\": \"cylinders-small\", \"values\": [1, 1, 1, \"x\"], \"unit\": \"l/h\"}"), "/readings/0/values/3",
    "not a number" },
  { ONE ("{\"kind\": \"cylinders-small\", \"values\": [1, 1, 1, 1], \"unit\": [\"l/h\"]}"), "/readings/0/unit",
    "4 values, but 1" },
  { ONE ("{\"kind\": \"cylinders-small\", \"values\": [1, 1, 1, 1], \"unit\": [\"l/h\", \"l/h\", \"\", \"l/h\"]}"),
    "/readings/0/unit/2", "missing" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"9\", \"unit\": \"l/h\", \"uncertainty\": {\"value\": \"1\", \"unit\": "
         "\"l/h\"}}"),
    "/readings/0/uncertainty/form", "“form” is missing" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"9\", \"unit\": \"l/h\", \"uncertainty\": {\"value\": \"0\", \"unit\": "
         "\"l/h\", \"form\": \"95\"}}"),
    "/readings/0/uncertainty", "above 0" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"9\", \"unit\": \"l/h\", \"uncertainty\": {\"value\": \"1\", \"unit\": \"%\", "
         "\"form\": \"95\"}}"),
    "/readings/0/uncertainty/unit", "something else" },
  { ONE ("{\"kind\": \"delivery\", \"value\": \"9\", \"unit\": \"l/h\", \"conditions\": {\"vacuum_source\": \"pump\"}}"),
    "/readings/0/conditions/vacuum_source", "hand-pump" },
  { HEAD "\"conditions\": {\"ambient\": 20}}", "/conditions/ambient", "object" },
  { HEAD "\"conditions\": {\"ambient\": {\"value\": \"20\"}}}", "/conditions/ambient/unit", "never guessed" },
  { HEAD "\"conditions\": {\"ambient\": {\"value\": \"20\", \"unit\": \"K\"}}}", "/conditions/ambient/unit",
    "something else" },
  { HEAD "\"conditions\": {\"ambient\": {\"value\": \"200\", \"unit\": \"°C\"}}}", "/conditions/ambient",
    "out of range" },
  { HEAD "\"conditions\": {\"wind\": {}}}", "/conditions/wind", "not known" },
};

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (job_t) job = parse (bad[i].text, problems);
    g_test_message ("%s", bad[i].text);
    g_assert_null (job);
    g_assert_cmpstr (problems_at (problems, 0)->place, ==, bad[i].place);
    g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, bad[i].words));
  }
}

static void
test_limits (void)
{
  for (int length = 4096; length <= 4097; length++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (GString) note = g_string_new (NULL);
    g_autofree char *text = NULL;
    g_autoptr (job_t) job = NULL;
    for (int i = 0; i < length; i++)
      g_string_append (note, "ä");
    text = g_strdup_printf (HEAD "\"notes\": \"%s\"}", note->str);
    job = parse (text, problems);
    g_assert_cmpint (job != NULL, ==, length == 4096);
    if (job == NULL)
      g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, "4097 characters; the limit is 4096"));
  }
  for (int count = JOB_READINGS_MAX; count <= JOB_READINGS_MAX + 1; count++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (GString) text = g_string_new (HEAD "\"readings\": [");
    g_autoptr (job_t) job = NULL;
    for (int i = 0; i < count; i++)
      g_string_append_printf (text, "%s{\"kind\": \"delivery\", \"value\": \"\"}", i ? ", " : "");
    g_string_append (text, "]}");
    job = parse (text->str, problems);
    g_assert_cmpint (job != NULL, ==, count == JOB_READINGS_MAX);
    if (job == NULL)
      g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, "At most 500"));
  }
}

/* -- what is derived -------------------------------------------------------------------------------------------------- */

static void
test_conditions (void)
{
  static const char text[]
      = "{\"format\": \"platelift-job\", \"version\": 1, \"car\": \"tarn-four\", \"conditions\": {\"ambient\": {\"value\": "
        "\"50\", \"unit\": \"°F\"}, \"vacuum\": {\"value\": \"400\", \"unit\": \"mbar\"}, \"temperature\": {\"value\": 12, "
        "\"unit\": \"°C\"}}, \"readings\": [{\"kind\": \"control-pressure-cold\", \"value\": \"1\", \"unit\": \"bar\", "
        "\"conditions\": {\"temperature\": {\"value\": \"14\", \"unit\": \"°C\"}, \"vacuum_source\": \"none\"}}, {\"kind\": "
        "\"control-pressure-warm\", \"value\": \"1\", \"unit\": \"bar\", \"conditions\": {\"minutes\": {\"value\": \"3\", "
        "\"unit\": \"min\"}}}]}";
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = parse (text, problems);
  struct conditions conditions, usual;

  g_assert_nonnull (job);
  conditions_usual (&usual);
  job_conditions (job, g_ptr_array_index (job->readings, 0), &conditions);
  g_assert_cmpfloat_with_epsilon (conditions.ambient_temperature, 10, 1e-12);
  g_assert_cmpfloat (conditions.block_temperature, ==, 14);
  g_assert_cmpfloat (conditions.vacuum, ==, 0);
  g_assert_cmpfloat (conditions.heater_time, ==, usual.heater_time);
  g_assert_cmpfloat (conditions.voltage, ==, usual.voltage);
  job_conditions (job, g_ptr_array_index (job->readings, 1), &conditions);
  g_assert_cmpfloat (conditions.block_temperature, ==, 12);
  g_assert_cmpfloat (conditions.vacuum, ==, 40000);
  g_assert_cmpfloat (conditions.heater_time, ==, 180);
}

static void
test_uncertainty (void)
{
  const struct reading_kind *kind = reading_find ("system-pressure");
  g_autoptr (job_reading_t) reading = job_reading_new (kind);
  const struct unit *bar = unit_find ("bar", QUANTITY_PRESSURE_DIFFERENCE);

  g_assert_cmpfloat (job_reading_uncertainty (reading), ==, kind->usual_uncertainty);
  typed_set (&reading->uncertainty, "0.3", bar);
  g_assert_cmpfloat (job_reading_uncertainty (reading), ==, kind->usual_uncertainty);
  reading->uncertainty_form = UNCERTAINTY_STANDARD;
  g_assert_cmpfloat_with_epsilon (job_reading_uncertainty (reading), 30000, 1e-6);
  /* JCGM 100:2008 4.3.7: limits of half width a, nothing known within them: u = a / sqrt 3. */
  reading->uncertainty_form = UNCERTAINTY_LIMITS;
  g_assert_cmpfloat_with_epsilon (job_reading_uncertainty (reading), 30000 / sqrt (3), 1e-6);
  /* JCGM 100:2008 table G.1: 95 % of a normal distribution lie within 1.960 u. */
  reading->uncertainty_form = UNCERTAINTY_95;
  g_assert_cmpfloat_with_epsilon (job_reading_uncertainty (reading), 30000 / 1.960, 1e-6);
  typed_set (&reading->uncertainty, "", NULL);
  g_assert_cmpfloat (job_reading_uncertainty (reading), ==, kind->usual_uncertainty);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/job/shipped", test_shipped);
  g_test_add_func ("/documents/job/typed-stays", test_typed_stays);
  g_test_add_func ("/documents/job/random-round-trip", test_random_round_trip);
  g_test_add_func ("/documents/job/bad", test_bad);
  g_test_add_func ("/documents/job/limits", test_limits);
  g_test_add_func ("/documents/job/conditions", test_conditions);
  g_test_add_func ("/documents/job/uncertainty", test_uncertainty);
  return g_test_run ();
}
