/* The algebra of faults, on one of the shipped cars. */
#include "cars.h"
#include "fault.h"
#include "parameter.h"

#include <glib.h>

#include <math.h>
#include <string.h>

static struct fault
fault_of (const char *parameter, enum fault_form form, enum fault_course course, double worst)
{
  struct fault fault = { .key = "", .odds = 1, .effects = 1 };

  strcpy (fault.key, parameter);
  fault.effect[0] = (struct fault_effect) { parameter_find (parameter), form, course, worst };
  return fault;
}

static void
test_courses (void)
{
  struct { enum fault_form form; enum fault_course course; double worst, severity, amount; } rows[] = {
    { FAULT_SCALE, FAULT_LINEAR, 0.5, 0, 1 },
    { FAULT_SCALE, FAULT_LINEAR, 0.5, 0.5, 0.75 },
    { FAULT_SCALE, FAULT_LINEAR, 0.5, 1, 0.5 },
    { FAULT_SCALE, FAULT_GEOMETRIC, 100, 0, 1 },
    { FAULT_SCALE, FAULT_GEOMETRIC, 100, 0.5, 10 },
    { FAULT_SCALE, FAULT_GEOMETRIC, 100, 1, 100 },
    { FAULT_SCALE, FAULT_RECIPROCAL, 4, 0, 1 },
    { FAULT_SCALE, FAULT_RECIPROCAL, 4, 2.0 / 3, 2 },
    { FAULT_SCALE, FAULT_RECIPROCAL, 4, 1, 4 },
    { FAULT_ADD, FAULT_LINEAR, -8, 0, 0 },
    { FAULT_ADD, FAULT_LINEAR, -8, 0.25, -2 },
    { FAULT_ADD, FAULT_SQUARE, 8, 0.5, 2 },
    { FAULT_ADD, FAULT_SQUARE, 8, 1, 8 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    struct fault_effect effect = { NULL, rows[i].form, rows[i].course, rows[i].worst };
    g_assert_cmpfloat_with_epsilon (fault_effect_at (&effect, rows[i].severity), rows[i].amount, 1e-13);
  }
}

/* value = healthy x product of scales + sum of adds: not the one after the other. */
static void
test_together (void)
{
  const struct car healthy = hollin_six;
  struct fault scale = fault_of ("pump_flow", FAULT_SCALE, FAULT_LINEAR, 0.5);
  struct fault more = fault_of ("pump_flow", FAULT_SCALE, FAULT_LINEAR, 0.8);
  struct fault add = fault_of ("pump_flow", FAULT_ADD, FAULT_LINEAR, 1e-5);
  struct fault_dose doses[] = { { &scale, 1, 0 }, { &add, 0.5, 0 }, { &more, 1, 0 } };
  struct car faulty;
  double wanted = healthy.supply.pump_flow * 0.4 + 0.5e-5;

  strcpy (more.key, "more");
  strcpy (add.key, "add");
  g_assert_true (faults_apply (&healthy, doses, 3, &faulty, NULL));
  g_assert_true (fabs (faulty.supply.pump_flow - wanted) < 1e-15 * wanted);
  faulty.supply.pump_flow = healthy.supply.pump_flow;
  g_assert_cmpmem (&faulty, sizeof faulty, &healthy, sizeof healthy);
}

static void
test_limits (void)
{
  const struct parameter *parameter = parameter_find ("mixture_offset");
  const double worst[] = { 1e3, -1e3 }, wanted[] = { parameter->most, parameter->least };

  for (int i = 0; i < 2; i++) {
    struct fault fault = fault_of ("mixture_offset", FAULT_ADD, FAULT_LINEAR, worst[i]);
    struct car car = hollin_six;
    g_assert_true (fault_apply (&car, &fault, 1, 0));
    g_assert_true (car.distributor.mixture_offset == wanted[i]);
  }
}

static void
test_cylinders (void)
{
  const struct car healthy = hollin_six;
  struct fault fault = fault_of ("slot_width", FAULT_SCALE, FAULT_LINEAR, 0.5);
  struct car car = healthy;

  g_assert_true (fault_apply (&car, &fault, 1, -7));
  for (int i = 0; i < healthy.cylinders; i++)
    g_assert_cmpfloat (car.distributor.slot_width[i], ==, healthy.distributor.slot_width[i] * 0.5);
  fault.one_cylinder = true;
  car = healthy;
  g_assert_true (fault_apply (&car, &fault, 1, 2));
  g_assert_true (car.distributor.slot_width[2] == healthy.distributor.slot_width[2] * 0.5);
  car.distributor.slot_width[2] = healthy.distributor.slot_width[2];
  g_assert_cmpmem (&car, sizeof car, &healthy, sizeof healthy);
  g_assert_false (fault_apply (&car, &fault, 1, healthy.cylinders));
  g_assert_false (fault_apply (&car, &fault, 1, -1));
}

static void
test_refused (void)
{
  struct fault fault = fault_of ("roller_arm", FAULT_SCALE, FAULT_LINEAR, 100);
  struct fault_dose doses[FAULTS_AT_ONCE_MAX + 1];
  const struct car healthy = hollin_six;
  struct car_complaint complaint;
  struct car car = healthy;

  g_assert_false (fault_apply (&car, &fault, NAN, 0));
  g_assert_false (fault_apply (&car, &fault, -0.1, 0));
  g_assert_false (fault_apply (&car, &fault, 1.1, 0));
  for (int i = 0; i <= FAULTS_AT_ONCE_MAX; i++)
    doses[i] = (struct fault_dose) { &fault, 0.001, 0 };
  g_assert_false (faults_apply (&healthy, doses, FAULTS_AT_ONCE_MAX + 1, &car, NULL));
  g_assert_true (faults_apply (&healthy, doses, FAULTS_AT_ONCE_MAX, &car, NULL));
  car = healthy;
  car.sensor.plate_arm = 0.06; /* the roller's limit lies above it */
  doses[0].severity = 1;
  {
    struct car before = car, after;
    g_assert_false (faults_apply (&before, doses, 1, &after, &complaint));
    g_assert_true (complaint.kind == CAR_ARMS);
    g_assert_cmpmem (&before, sizeof before, &after, sizeof after);
  }
  g_assert_cmpstr (fault_system_name (FAULT_SYSTEMS), ==, "");
  g_assert_cmpstr (fault_system_name (FAULT_IN_AIR), ==, "Air path");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/metering/faults/courses", test_courses);
  g_test_add_func ("/metering/faults/together", test_together);
  g_test_add_func ("/metering/faults/limits", test_limits);
  g_test_add_func ("/metering/faults/cylinders", test_cylinders);
  g_test_add_func ("/metering/faults/refused", test_refused);
  return g_test_run ();
}
