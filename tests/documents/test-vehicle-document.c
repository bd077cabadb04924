#include "json-strict.h"
#include "parameter.h"
#include "vehicle-document.h"

#include <glib/gstdio.h>

#include <math.h>
#include <string.h>

static struct vehicle *
load (const char *name)
{
  g_autoptr (problems_t) problems = problems_new ();
  struct vehicle *vehicle = vehicle_load (name, problems);
  g_autofree char *text = problems_text (problems, name);

  g_assert_cmpstr (text, ==, "");
  g_assert_nonnull (vehicle);
  return vehicle;
}

static struct vehicle *
parse (const char *text, struct problems *problems)
{
  return vehicle_parse (text, strlen (text), problems);
}

static void
test_shipped (void)
{
  const char *const *names = vehicle_shipped ();
  struct car_complaint complaint;

  g_assert_cmpuint (g_strv_length ((char **) names), ==, 3);
  for (int i = 0; names[i]; i++) {
    g_autofree struct vehicle *vehicle = load (names[i]);
    g_assert_cmpstr (vehicle->key, ==, names[i]);
    g_assert_cmpstr (vehicle->name, !=, "");
    g_assert_true (car_check (&vehicle->car, &complaint));
    for (int j = 0; j < READINGS; j++) {
      g_assert_cmpint (vehicle->bands[j].form, !=, BAND_NONE);
      g_assert_cmpstr (vehicle->bands[j].source, !=, "");
    }
  }
  g_assert_false (g_strv_contains (names, "generic"));
  g_autofree struct vehicle *generic = load ("generic");
  g_assert_cmpint (generic->car.cylinders, ==, 6);
}

/* Written and read back: the same struct to the last byte, and the same text. */
static void
assert_round_trip (const struct vehicle *vehicle)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *text = vehicle_write (vehicle);
  g_autofree struct vehicle *again = parse (text, problems);
  g_autofree char *told = problems_text (problems, NULL);
  g_autofree char *second = NULL;

  g_assert_cmpstr (told, ==, "");
  g_assert_nonnull (again);
  second = vehicle_write (again);
  g_assert_cmpstr (text, ==, second);
  g_assert_cmpmem (vehicle, sizeof *vehicle, again, sizeof *again);
}

static void
test_round_trip (void)
{
  for (const char *const *name = vehicle_shipped (); *name; name++) {
    g_autofree struct vehicle *vehicle = load (*name);
    assert_round_trip (vehicle);
  }
}

/* Every parameter moved at random within its limits, so that no row of the table is left out. */
static void
test_random_round_trip (void)
{
  GRand *random = g_rand_new_with_seed (5);
  int done = 0;

  for (int i = 0; i < 900; i++) {
    g_autofree struct vehicle *vehicle = load (vehicle_shipped ()[i % 3]);
    struct vehicle before = *vehicle;
    for (int j = 0; j < parameter_count; j++)
      for (int k = 0; k < parameter_values (&vehicle->car, &parameters[j]); k++) {
        double share = g_rand_double (random);
        if (parameters[j].many != EACH_POINT)
          *parameter_in (&vehicle->car, &parameters[j], k)
              = parameters[j].least + share * (parameters[j].most - parameters[j].least);
      }
    vehicle->bands[i % READINGS] = (struct band) { BAND_FIXED, -INFINITY, g_rand_double (random), "" };
    vehicle->bands[(i + 1) % READINGS] = (struct band) { BAND_NONE };
    if (!car_check (&vehicle->car, NULL))
      continue;
    assert_round_trip (vehicle);
    g_assert_true (memcmp (&before, vehicle, sizeof before) != 0);
    done++;
  }
  g_assert_cmpint (done, >, 60);
  g_rand_free (random);
}

static void
test_left_out (void)
{
  static const char least[] = "{\"format\": \"platelift-vehicle\", \"version\": 1, \"name\": \"Mine\", \"cylinders\": 8}";
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *generic = load ("generic");
  g_autofree struct vehicle *vehicle = parse (least, problems);

  g_assert_nonnull (vehicle);
  g_assert_cmpint (vehicle->car.cylinders, ==, 8);
  g_assert_cmpstr (vehicle->key, ==, "");
  for (int i = 0; i < parameter_count; i++) {
    int last = parameter_values (&vehicle->car, &parameters[i]) - 1;
    int usual = parameter_values (&generic->car, &parameters[i]) - 1;
    g_assert_cmpfloat (parameter_get (&vehicle->car, &parameters[i], last), ==,
                       parameter_get (&generic->car, &parameters[i], usual));
  }
  g_assert_cmpmem (vehicle->bands, sizeof vehicle->bands, generic->bands, sizeof generic->bands);
}

static void
test_bands (void)
{
  static const char text[]
      = "{\"format\": \"platelift-vehicle\", \"version\": 1, \"name\": \"Mine\", \"bands\": {\"delivery\": {\"form\": "
        "\"limits\", \"low\": 2.5e-5}, \"rest-height\": {\"form\": \"about\", \"low\": 0, \"high\": 1e-4, \"source\": \"x\"}}}";
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = parse (text, problems);

  g_assert_nonnull (vehicle);
  g_assert_cmpint (vehicle->bands[READING_DELIVERY].form, ==, BAND_LIMITS);
  g_assert_cmpfloat (vehicle->bands[READING_DELIVERY].low, ==, 2.5e-5);
  g_assert_true (isinf (vehicle->bands[READING_DELIVERY].high));
  g_assert_cmpint (vehicle->bands[READING_REST_HEIGHT].form, ==, BAND_ABOUT);
  g_assert_cmpstr (vehicle->bands[READING_REST_HEIGHT].source, ==, "x");
  g_assert_cmpint (vehicle->bands[READING_SYSTEM_PRESSURE].form, ==, BAND_NONE); /* not listed: the data are silent */
}

#define HEAD "{\"format\": \"platelift-vehicle\", \"version\": 1, \"name\": \"Mine\", "

static const struct {
  const char *text, *place, *words;
} bad[] = {
  { "[]", "/", "object" },
  { "{}", "/format", "“format” is missing" },
  { "{\"format\": \"platelift-job\", \"version\": 1, \"name\": \"x\"}", "/format", "platelift-vehicle" },
  { "{\"format\": \"platelift-vehicle\", \"version\": 2, \"name\": \"x\"}", "/version", "newer version" },
  { "{\"format\": \"platelift-vehicle\", \"version\": 0, \"name\": \"x\"}", "/version", "out of range" },
  { "{\"format\": \"platelift-vehicle\", \"version\": \"1\", \"name\": \"x\"}", "/version", "number" },
  { "{\"format\": \"platelift-vehicle\", \"version\": 1}", "/name", "“name” is missing" },
  { "{\"format\": \"platelift-vehicle\", \"version\": 1, \"name\": \"\"}", "/name", "must not be empty" },
  { HEAD "\"colour\": 3}", "/colour", "not known" },
  { HEAD "\"a/b~c\": 3}", "/a~1b~0c", "not known" },
  { HEAD "\"sensor\": {\"plate_radios\": 0.04}}", "/sensor/plate_radios", "is “plate_radius” meant" },
  { HEAD "\"sensor\": []}", "/sensor", "object" },
  { HEAD "\"sensor\": {\"plate_radius\": \"40 mm\"}}", "/sensor/plate_radius", "number" },
  { HEAD "\"sensor\": {\"plate_radius\": true}}", "/sensor/plate_radius", "number" },
  { HEAD "\"sensor\": {\"plate_radius\": null}}", "/sensor/plate_radius", "number" },
  { HEAD "\"sensor\": {\"plate_radius\": 40}}", "/sensor/plate_radius", "40 is out of range: 0.015 to 0.1" },
  { HEAD "\"sensor\": {\"funnel_depth\": [0]}}", "/sensor/funnel_depth", "not known" },
  { HEAD "\"sensor\": {\"funnel\": [[0, 0.001]]}}", "/sensor/funnel", "At least 2" },
  { HEAD "\"sensor\": {\"funnel\": [[0, 0.001], [0.01]]}}", "/sensor/funnel/1", "2 entries" },
  { HEAD "\"sensor\": {\"funnel\": [[0, 0.001], [0.01, \"x\"]]}}", "/sensor/funnel/1/1", "number" },
  { HEAD "\"sensor\": {\"funnel\": [[0, 0.001], [0.01, 0.0005]]}}", "/sensor/funnel/1", "must rise" },
  { HEAD "\"sensor\": {\"funnel\": [[0.001, 0.001], [0.01, 0.005]]}}", "/sensor/funnel/0", "must rise" },
  { HEAD "\"sensor\": {\"roller_arm\": 0.1, \"plate_arm\": 0.05}}", "/sensor/roller_arm", "shorter" },
  { HEAD "\"distributor\": {\"slot_width\": [0.0002, 0.0002]}}", "/distributor/slot_width", "6 cylinders, but 2" },
  { HEAD "\"cylinders\": 2, \"distributor\": {\"slot_width\": [0.0002, 2]}}", "/distributor/slot_width/1",
    "out of range" },
  { HEAD "\"distributor\": {\"slot_width\": {}}}", "/distributor/slot_width", "list of one number" },
  { HEAD "\"distributor\": {\"slot_width\": []}}", "/distributor/slot_width", "At least 1" },
  { HEAD "\"cylinders\": 9}", "/cylinders", "out of range" },
  { HEAD "\"cylinders\": 4.5}", "/cylinders", "whole" },
  { HEAD "\"plate_direction\": \"up\"}", "/plate_direction", "pressed-down" },
  { HEAD "\"key\": \"a key\"}", "/key", "letters" },
  { HEAD "\"engine\": {\"idle_air\": 0.05, \"full_air\": 0.01}}", "/engine/full_air", "above its lower" },
  { HEAD "\"bands\": {\"oil-pressure\": {}}}", "/bands/oil-pressure", "not known" },
  { HEAD "\"bands\": {\"delivery\": {\"form\": \"wide\", \"low\": 1}}}", "/bands/delivery/form", "limits" },
  { HEAD "\"bands\": {\"delivery\": {\"form\": \"limits\"}}}", "/bands/delivery", "“low” or “high” is missing" },
  { HEAD "\"bands\": {\"delivery\": {\"form\": \"limits\", \"low\": 2, \"high\": 1}}}", "/bands/delivery",
    "above the upper" },
  { HEAD "\"bands\": {\"delivery\": {\"form\": \"about\", \"low\": -1, \"high\": 1}}}", "/bands/delivery",
    "not negative" },
  { HEAD "\"bands\": {\"delivery\": {\"form\": \"about\", \"high\": 1}}}", "/bands/delivery", "about" },
};

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autofree struct vehicle *vehicle = parse (bad[i].text, problems);
    g_test_message ("%s", bad[i].text);
    g_assert_null (vehicle);
    g_assert_cmpstr (problems_at (problems, 0)->place, ==, bad[i].place);
    g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, bad[i].words));
  }
}

static void
test_all_problems (void)
{
  static const char text[] = HEAD "\"colour\": 3, \"cylinders\": 99, \"sensor\": {\"plate_radius\": -1, \"play\": \"x\"}, "
                                  "\"fuel\": {\"density\": []}}";
  g_autoptr (problems_t) problems = problems_new ();

  g_assert_null (parse (text, problems));
  g_assert_cmpuint (problems_count (problems), ==, 5);
}

static void
test_names_and_paths (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (problems_t) missing = problems_new ();
  g_autofree char *folder = g_dir_make_tmp ("platelift-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "My Car.2.json", NULL);
  g_autofree struct vehicle *shipped = load ("tarn-four");
  g_autofree char *text = vehicle_write (shipped);
  g_autofree struct vehicle *vehicle = NULL;

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  vehicle = load (path);
  g_assert_cmpstr (vehicle->key, ==, "My-Car-2");
  g_assert_null (vehicle_load ("no-such-car", problems));
  g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, "hollin-six, garth-eight, tarn-four"));
  g_assert_null (vehicle_load ("/no/such/car.json", missing));
  g_assert_nonnull (strstr (problems_at (missing, 0)->sentence, "/no/such/car.json"));
  g_remove (path);
  g_remove (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/vehicle/shipped", test_shipped);
  g_test_add_func ("/documents/vehicle/round-trip", test_round_trip);
  g_test_add_func ("/documents/vehicle/random-round-trip", test_random_round_trip);
  g_test_add_func ("/documents/vehicle/left-out", test_left_out);
  g_test_add_func ("/documents/vehicle/bands", test_bands);
  g_test_add_func ("/documents/vehicle/bad", test_bad);
  g_test_add_func ("/documents/vehicle/all-problems", test_all_problems);
  g_test_add_func ("/documents/vehicle/names-and-paths", test_names_and_paths);
  return g_test_run ();
}
