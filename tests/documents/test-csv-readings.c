#include "csv-table.h"
#include "job-document.h"

#include <string.h>

static struct job *
new_job (const char *car)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = vehicle_load (car, problems);

  g_assert_nonnull (vehicle);
  return job_new (vehicle);
}

static const struct job_reading *
reading_at (const struct job *job, guint index)
{
  g_assert_cmpuint (index, <, job->readings->len);
  return g_ptr_array_index (job->readings, index);
}

/* Every one of these says the same two readings. */
static const char *const alike[] = {
  "reading;value;unit\nsystem-pressure;4,95;bar\ndelivery;900;cm³ in 30 s\n",
  "reading;value;unit\r\nsystem-pressure;4.95;bar\r\ndelivery;900;cm3/30s\r\n",
  "\357\273\277reading,value,unit\nsystem-pressure,4.95,bar\ndelivery,900,cm3/30s",
  "reading\tvalue\tunit\nsystem-pressure\t4,95\tbar\ndelivery\t900\tcm3 in 30 s\n",
  "unit;value;reading\nbar;4,95;system-pressure\ncm3/30s;900;delivery\n",
  "reading,value,unit\nsystem-pressure,\"4,95\",bar\n\"delivery\" , \"900\" ,\"cm³ in 30 s\"\n",
  "\n\nReading ; VALUE;Unit;;\n\nSystem Pressure;4,95 bar;;;\n;;;;\nDelivery at the return;900 cm3/30s;;;\n",
  "reading;value [bar];unit\nsystem-pressure;4,95;\ndelivery;900;cm3/30s\n",
  "note;reading;value;unit\n\"said: \"\"fine\"\"\nand more\";system-pressure;4,95;bar\n;delivery;900;cm3/30s\n",
};

static void
test_alike (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (alike); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (job_t) job = new_job ("hollin-six");
    gboolean good = csv_readings_parse (alike[i], strlen (alike[i]), job, problems);
    g_autofree char *told = problems_text (problems, NULL);
    g_test_message ("table %zu", i);
    g_assert_cmpstr (told, ==, "");
    g_assert_true (good);
    g_assert_cmpuint (job->readings->len, ==, 2);
    g_assert_cmpstr (reading_at (job, 0)->kind->key, ==, "system-pressure");
    g_assert_cmpfloat (reading_at (job, 0)->value[0].si, ==, 495000);
    g_assert_cmpstr (reading_at (job, 0)->value[0].unit->symbol, ==, "bar");
    g_assert_cmpstr (reading_at (job, 1)->kind->key, ==, "delivery");
    g_assert_cmpfloat_with_epsilon (reading_at (job, 1)->value[0].si, 3e-5, 1e-18);
  }
}

static void
test_quoted_note (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = new_job ("hollin-six");

  g_assert_true (csv_readings_parse (alike[8], strlen (alike[8]), job, problems));
  g_assert_cmpstr (reading_at (job, 0)->note, ==, "said: \"fine\"\nand more");
}

static void
test_columns (void)
{
  static const char text[]
      = "reading;value;unit;uncertainty;form;temperature [°C];vacuum;minutes;voltage [V];ambient;altitude;fuel;vacuum_source;note\n"
        "control-pressure-warm;3,7;bar;0,06;standard;80;500 mbar;5 min;13,1;59 °F;640 m;12 °C;Hand-Pump;slow\n"
        "control-pressure-cold;2;bar;±1 psi;;20;;;;;;;none;\n"
        "cylinders-small;;;;;;;;;;;;;\n";
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = new_job ("hollin-six");
  const struct job_reading *reading;

  g_assert_false (csv_readings_parse (text, strlen (text), job, problems));
  g_assert_cmpuint (job->readings->len, ==, 2);
  reading = reading_at (job, 0);
  g_assert_cmpstr (reading->uncertainty.text, ==, "0,06");
  g_assert_cmpstr (reading->uncertainty.unit->symbol, ==, "bar");
  g_assert_cmpint (reading->uncertainty_form, ==, UNCERTAINTY_STANDARD);
  g_assert_cmpfloat (reading->conditions.temperature.si, ==, 80);
  g_assert_cmpfloat (reading->conditions.vacuum.si, ==, 50000);
  g_assert_cmpfloat (reading->conditions.minutes.si, ==, 300);
  g_assert_cmpfloat (reading->conditions.voltage.si, ==, 13.1);
  g_assert_cmpfloat_with_epsilon (reading->conditions.ambient.si, 15, 1e-12);
  g_assert_cmpfloat (reading->conditions.altitude.si, ==, 640);
  g_assert_cmpfloat (reading->conditions.fuel.si, ==, 12);
  g_assert_true (reading->conditions.vacuum_source_given);
  g_assert_cmpint (reading->conditions.vacuum_source, ==, VACUUM_HAND_PUMP);
  g_assert_cmpstr (reading->note, ==, "slow");
  reading = reading_at (job, 1);
  g_assert_cmpint (reading->uncertainty_form, ==, UNCERTAINTY_LIMITS);
  g_assert_cmpstr (reading->uncertainty.text, ==, "1");
  g_assert_cmpstr (reading->uncertainty.unit->symbol, ==, "psi");
  g_assert_cmpint (reading->conditions.vacuum_source, ==, VACUUM_NONE);
}

static void
test_cylinders (void)
{
  static const char text[] = "reading;cylinder;value;unit;temperature\n"
                             "cylinders-small;1;5,1;cm3/min;80 °C\n"
                             "cylinders-small;3;5,3;cm3/min;\n"
                             "cylinders-small;2;5,2;cm3/min;80 °C\n"
                             "cylinders-full;1;66;cm3/30s;\n"
                             "cylinders-small;4;5,4;cm3/min;\n"
                             "cylinders-small;1;6,1;cm3/min;\n"
                             "cylinders-small;2;6,2;cm3/min;20 °C\n";
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = new_job ("tarn-four");

  g_assert_true (csv_readings_parse (text, strlen (text), job, problems));
  g_assert_cmpuint (job->readings->len, ==, 4); /* 1-4; full; again 1; 2 under another temperature */
  for (int i = 0; i < 4; i++) {
    g_autofree char *expected = g_strdup_printf ("5,%d", i + 1);
    g_assert_cmpstr (reading_at (job, 0)->value[i].text, ==, expected);
  }
  g_assert_cmpint (reading_at (job, 0)->values, ==, 4);
  g_assert_cmpstr (reading_at (job, 1)->kind->key, ==, "cylinders-full");
  g_assert_cmpstr (reading_at (job, 1)->value[1].text, ==, "");
  g_assert_cmpstr (reading_at (job, 2)->value[0].text, ==, "6,1");
  g_assert_cmpstr (reading_at (job, 3)->value[1].text, ==, "6,2");
}

#define HEADER "reading;value;unit;cylinder;uncertainty;form;temperature;vacuum_source\n"

static const struct {
  const char *text;
  gssize length; /* -1: to the NUL */
  const char *place, *words;
} bad[] = {
  { "", -1, "", "empty" },
  { "\n\n", -1, "", "empty" },
  { "reading;value;unit\n", -1, "", "no reading" },
  { "reading;unit\ndelivery;l/h\n", -1, "line 1", "no column “value”" },
  { "value;unit\n900;l/h\n", -1, "line 1", "no column “reading”" },
  { "reading;value;unit;colour\n", -1, "line 1", "“colour” is not known" },
  { "reading;value;unit;value\n", -1, "line 1", "twice" },
  { HEADER "oil-pressure;1;bar\n", -1, "line 2, reading", "“oil-pressure”" },
  { HEADER ";1;bar\n", -1, "line 2, reading", "missing" },
  { HEADER "\n\ndelivery;900;\n", -1, "line 4, value", "unit is missing" },
  { HEADER "delivery;900\n", -1, "line 2, value", "unit is missing" },
  { HEADER "delivery;;l/h\n", -1, "line 2, value", "missing" },
  { HEADER "delivery;much;l/h\n", -1, "line 2, value", "not a number" },
  { HEADER "delivery;nan;l/h\n", -1, "line 2, value", "not a number" },
  { HEADER "delivery;1.234,5;l/h\n", -1, "line 2, value", "separators" },
  { HEADER "delivery;1e999;l/h\n", -1, "line 2, value", "too large" },
  { HEADER "delivery;900;bar\n", -1, "line 2, value", "something else" },
  { HEADER "delivery;900;pints\n", -1, "line 2, value", "not a unit" },
  { HEADER "system-pressure;495;bar\n", -1, "line 2, value", "is the unit right" },
  { HEADER "delivery;900;l/h;1\n", -1, "line 2, cylinder", "not taken by cylinder" },
  { HEADER "cylinders-small;5;cm3/min\n", -1, "line 2, cylinder", "missing" },
  { HEADER "cylinders-small;5;cm3/min;7\n", -1, "line 2, cylinder", "has 6" },
  { HEADER "cylinders-small;5;cm3/min;0\n", -1, "line 2, cylinder", "has 6" },
  { HEADER "cylinders-small;5;cm3/min;1,5\n", -1, "line 2, cylinder", "has 6" },
  { HEADER "cylinders-small;5;cm3/min;1;0.1\n", -1, "line 2, uncertainty", "unit is missing" },
  { HEADER "delivery;100;l/h;;0\n", -1, "line 2, uncertainty", "above 0" },
  { HEADER "delivery;100;l/h;;1;wide\n", -1, "line 2, form", "“wide”" },
  { HEADER "delivery;100;l/h;;;;20\n", -1, "line 2, temperature", "unit is missing" },
  { HEADER "delivery;100;l/h;;;;20 K\n", -1, "line 2, temperature", "something else" },
  { HEADER "delivery;100;l/h;;;;900 °C\n", -1, "line 2, temperature", "out of range" },
  { HEADER "delivery;100;l/h;;;;;mouth\n", -1, "line 2, vacuum_source", "“mouth”" },
  { HEADER "delivery;100;l/h;;;;;none;more\n", -1, "line 2", "more fields" },
  { "reading,value,unit\nsystem-pressure,4,95,bar\n", -1, "line 2", "quotation marks" },
  { HEADER "delivery;\"100;l/h\n\n", -1, "line 2", "not closed" },
  { HEADER "delivery;\"100\"x;l/h\n", -1, "line 2", "closing quotation" },
  { HEADER "\"a\nb\";1;bar\n", -1, "line 2, reading", "not a reading" },
  { HEADER "\"a\nb\";1;bar\nx;1;bar\n", -1, "line 2, reading", "not a reading" },
  { HEADER "delivery;100;\260C\n", -1, "line 2", "UTF-8" },
  { "\377\376r\0e\0", 6, "line 1", "UTF-16" },
  { "reading;val\0ue\n", 14, "line 1", "UTF-8" },
};

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (job_t) job = new_job ("hollin-six");
    gsize length = bad[i].length < 0 ? strlen (bad[i].text) : (gsize) bad[i].length;
    g_test_message ("row %zu: %s", i, bad[i].words);
    g_assert_false (csv_readings_parse (bad[i].text, length, job, problems));
    g_assert_cmpstr (problems_at (problems, 0)->place, ==, bad[i].place);
    g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, bad[i].words));
    g_assert_cmpuint (job->readings->len, ==, 0);
  }
}

/* A bad line is told and left out, the others are taken; lines are counted through quoted line ends. */
static void
test_good_lines_stay (void)
{
  static const char text[] = "reading;value;unit;note\nsystem-pressure;4,9;bar;\"one\ntwo\nthree\"\ndelivery;x;l/h;\n"
                             "delivery;900;l/h;\nrest-height;1;;\n";
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = new_job ("hollin-six");

  g_assert_false (csv_readings_parse (text, strlen (text), job, problems));
  g_assert_cmpuint (job->readings->len, ==, 2);
  g_assert_cmpuint (problems_count (problems), ==, 2);
  g_assert_cmpstr (problems_at (problems, 0)->place, ==, "line 5, value");
  g_assert_cmpstr (problems_at (problems, 1)->place, ==, "line 7, value");
}

static void
test_too_many (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = new_job ("hollin-six");
  g_autoptr (GString) text = g_string_new ("reading;value;unit\n");

  for (int i = 0; i < JOB_READINGS_MAX + 3; i++)
    g_string_append (text, "delivery;100;l/h\n");
  g_assert_false (csv_readings_parse (text->str, text->len, job, problems));
  g_assert_cmpuint (job->readings->len, ==, JOB_READINGS_MAX);
  g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, "at most 500"));
}

/* Absurd sizes: each is refused with its limit, nothing is taken. */
static void
test_limits (void)
{
  g_autofree char *wide = g_strnfill (CSV_COLUMNS_MAX + 1, ';');
  g_autofree char *field = g_strnfill (CSV_FIELD_MAX + 1, 'x');
  g_autofree char *huge = g_strnfill (5 * 1024 * 1024, ' ');
  g_autofree char *columns = g_strconcat ("reading;value\n", wide, "\n", NULL);
  g_autofree char *letters = g_strconcat ("reading;value\n", field, ";1\n", NULL);
  g_autoptr (GString) rows = g_string_new ("reading;value;unit\n");
  const struct {
    const char *text, *place, *words;
  } tables[] = {
    { columns, "line 2", "64 fields" },
    { letters, "line 2", "4096 characters" },
    { huge, "", "4 MiB" },
    { NULL, "line 5002", "5000 lines" },
  };

  for (int i = 0; i < CSV_ROWS_MAX; i++)
    g_string_append (rows, "x;1;bar\n");
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (job_t) job = new_job ("hollin-six");
    const char *text = tables[i].text ? tables[i].text : rows->str;
    g_assert_false (csv_readings_parse (text, strlen (text), job, problems));
    g_assert_cmpstr (problems_at (problems, 0)->place, ==, tables[i].place);
    g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, tables[i].words));
    g_assert_cmpuint (job->readings->len, ==, 0);
  }
}

static void
test_random (void)
{
  static const char letters[] = ";;,,\t\n\r\"\"19.,-e °Cbarl/hdelivery±\377\303 ";
  GRand *random = g_rand_new_with_seed (23);
  g_autoptr (job_t) job = new_job ("hollin-six");

  for (int i = 0; i < 20000; i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (GString) text = g_string_new (i % 2 ? "reading;value;unit;note;temperature\n" : "");
    for (int j = g_rand_int_range (random, 0, 40); j > 0; j--)
      g_string_append_c (text, letters[g_rand_int_range (random, 0, sizeof letters - 1)]);
    g_assert_cmpint (csv_readings_parse (text->str, text->len, job, problems), ==, problems_count (problems) == 0);
  }
  g_rand_free (random);
}

static void
test_shipped (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (job_t) job = new_job ("garth-eight");
  g_autofree char *text = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (DATA_FOLDER "/jobs/garth-eight-readings.csv", &text, &length, NULL));
  g_assert_true (csv_readings_parse (text, length, job, problems));
  g_assert_cmpuint (job->readings->len, ==, 6);
  g_assert_cmpint (reading_at (job, 4)->values, ==, 8);
  g_assert_cmpstr (reading_at (job, 4)->value[7].text, ==, "5,7");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/csv/alike", test_alike);
  g_test_add_func ("/documents/csv/quoted-note", test_quoted_note);
  g_test_add_func ("/documents/csv/columns", test_columns);
  g_test_add_func ("/documents/csv/cylinders", test_cylinders);
  g_test_add_func ("/documents/csv/bad", test_bad);
  g_test_add_func ("/documents/csv/good-lines-stay", test_good_lines_stay);
  g_test_add_func ("/documents/csv/too-many", test_too_many);
  g_test_add_func ("/documents/csv/limits", test_limits);
  g_test_add_func ("/documents/csv/random", test_random);
  g_test_add_func ("/documents/csv/shipped", test_shipped);
  return g_test_run ();
}
