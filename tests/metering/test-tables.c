/* The tables that documents, pages and the command line read: complete, without doubles, in their order and their limits. */
#include "cars.h"
#include "conditions.h"
#include "near.h"
#include "parameter.h"
#include "state.h"

#include <stddef.h>
#include <string.h>

/* Marks the doubles of a structure from offset on, at a step, and asserts that none was marked before. */
static void
mark (unsigned char *seen, size_t offset, int count)
{
  g_assert_cmpuint (offset % sizeof (double), ==, 0);
  for (int i = 0; i < count; i++) {
    size_t at = offset / sizeof (double) + (size_t) i;
    g_assert_cmpuint (seen[at], ==, 0);
    seen[at] = 1;
  }
}

static void
test_parameters_cover_the_car (void)
{
  unsigned char seen[sizeof (struct car) / sizeof (double)] = { 0 };

  for (int i = 0; i < parameter_count; i++)
    mark (seen, parameters[i].offset,
          parameters[i].many == ONE ? 1 : parameters[i].many == EACH_CYLINDER ? CYLINDERS_MAX : FUNNEL_POINTS_MAX);
  /* What is no double: two ints before the sensor, funnel_points and its padding */
  mark (seen, offsetof (struct car, cylinders), 1);
  mark (seen, offsetof (struct car, sensor.funnel_points), 1);
  for (size_t i = 0; i < sizeof seen; i++)
    g_assert_cmpuint (seen[i], ==, 1);
}

static void
test_state_values_cover_the_state (void)
{
  unsigned char seen[sizeof (struct state) / sizeof (double)] = { 0 };
  unsigned char cylinder[sizeof (struct cylinder_state) / sizeof (double)] = { 0 };
  size_t first = offsetof (struct state, ambient_pressure) / sizeof (double);
  size_t end = offsetof (struct state, cylinder) / sizeof (double);

  for (int i = 0; i < state_value_count; i++)
    mark (seen, state_values[i].offset, 1);
  for (size_t i = first; i < end; i++)
    g_assert_cmpuint (seen[i], ==, 1);
  for (int i = 0; i < cylinder_value_count; i++)
    mark (cylinder, cylinder_values[i].offset, 1);
  for (size_t i = 0; i < sizeof cylinder; i++)
    g_assert_cmpuint (cylinder[i], ==, 1);
}

static void
test_parameter_lookup (void)
{
  struct car car = hollin_six;

  for (int i = 0; i < parameter_count; i++) {
    const struct parameter *p = &parameters[i];
    double value = parameter_get (&car, p, 0);
    int values = parameter_values (&car, p);

    g_assert_true (parameter_find (p->key) == p); /* so no key twice */
    g_assert_cmpfloat (p->least, <, p->most);
    g_assert_cmpuint (strlen (p->name), >, 3);
    g_assert_cmpint (values, ==, p->many == ONE ? 1 : p->many == EACH_CYLINDER ? 6 : 11);
    g_assert_true (value >= p->least && value <= p->most);
    *parameter_in (&car, p, values - 1) = 12345;
    g_assert_cmpfloat (parameter_get (&car, p, values - 1), ==, 12345);
    *parameter_in (&car, p, values - 1) = parameter_get (&hollin_six, p, values - 1);
  }
  g_assert_null (parameter_find ("no such thing"));
  g_assert_true (parameter_in (&car, parameter_find ("slot_width"), 2) == &car.distributor.slot_width[2]);
  g_assert_true (parameter_in (&car, parameter_find ("plate_radius"), 0) == &car.sensor.plate_radius);
  g_assert_cmpint (memcmp (&car, &hollin_six, sizeof car), ==, 0);
}

/* Each value of each row: least and most are taken, beyond them and NaN are refused with the row and the index. */
static void
test_car_limits (void)
{
  struct car_complaint complaint;

  for (int i = 0; i < parameter_count; i++)
    for (int j = 0; j < parameter_values (&hollin_six, &parameters[i]); j++) {
      const struct parameter *p = &parameters[i];
      double bad[] = { p->least - 1e-6 * fabs (p->least) - 1e-12, p->most * (1 + 1e-6), NAN, INFINITY, -INFINITY };
      double good[] = { p->least, p->most };
      for (unsigned k = 0; k < G_N_ELEMENTS (bad); k++) {
        struct car car = hollin_six;
        *parameter_in (&car, p, j) = bad[k];
        g_assert_false (car_check (&car, &complaint));
        g_assert_cmpint (complaint.kind, ==, CAR_OUT_OF_LIMITS);
        g_assert_true (complaint.parameter == p);
        g_assert_cmpint (complaint.index, ==, j);
        g_assert_false (car_check (&car, NULL));
      }
      for (unsigned k = 0; k < G_N_ELEMENTS (good); k++) {
        struct car car = hollin_six;
        *parameter_in (&car, p, j) = good[k];
        if (!car_check (&car, &complaint)) /* by another rule perhaps, not by its limits */
          g_assert_cmpint (complaint.kind, !=, CAR_OUT_OF_LIMITS);
      }
    }
}

static void
test_car_rules (void)
{
#define RULE(kind_, key_, index_, ...) \
  { \
    struct car car = hollin_six; \
    struct car_complaint complaint; \
    __VA_ARGS__; \
    g_assert_false (car_check (&car, &complaint)); \
    g_assert_cmpint (complaint.kind, ==, kind_); \
    g_assert_true (complaint.parameter == (key_ ? parameter_find (key_) : NULL)); \
    g_assert_cmpint (complaint.index, ==, index_); \
  }
  const char *none = NULL;

  for (int i = 0; i < DEMO_CARS; i++)
    g_assert_true (car_check (demo_cars[i].car, NULL));
  RULE (CAR_CYLINDERS, none, 0, car.cylinders = 0)
  RULE (CAR_CYLINDERS, none, 0, car.cylinders = 9)
  RULE (CAR_FUNNEL_POINTS, none, 0, car.sensor.funnel_points = 1)
  RULE (CAR_FUNNEL_POINTS, none, 0, car.sensor.funnel_points = 17)
  RULE (CAR_FUNNEL_NOT_RISING, "funnel_depth", 0, car.sensor.funnel_depth[0] = 1e-4)
  RULE (CAR_FUNNEL_NOT_RISING, "funnel_depth", 4, car.sensor.funnel_depth[4] = car.sensor.funnel_depth[3])
  RULE (CAR_FUNNEL_NOT_RISING, "funnel_depth", 5, car.sensor.funnel_clearance[5] = 0.00216)
  RULE (CAR_FUNNEL_NOT_RISING, "funnel_depth", 5, car.sensor.funnel_clearance[5] = car.sensor.funnel_clearance[4])
  RULE (CAR_ARMS, "roller_arm", 0, car.sensor.roller_arm = 0.09; car.sensor.plate_arm = 0.09)
  RULE (CAR_WINDOW, "top_stop", 0, car.sensor.rest_height = 0.01; car.sensor.top_stop = 0.01)
  RULE (CAR_WINDOW, "full_air", 0, car.engine.idle_air = 0.02; car.engine.full_air = 0.02)
  RULE (CAR_VACUUM_ORDER, "load_vacuum_low", 0, car.control.load_vacuum_low = 30000)
  RULE (CAR_AREAS, "diaphragm_area", 0, car.control.diaphragm_area = 4.9e-5)
  {
    struct car car = hollin_six;
    car.cylinders = 1;
    g_assert_true (car_check (&car, NULL));
    car.control.diaphragm_area = car.control.seat_area;
    g_assert_true (car_check (&car, NULL));
  }
}

static void
test_conditions (void)
{
  struct conditions usual, c;
  const struct condition *row;

  conditions_usual (&usual);
  g_assert_true (conditions_check (&usual, &row));
  g_assert_null (row);
  assert_near (usual.air_flow, 18 / 3600.0, 1e-12);
  g_assert_cmpfloat (usual.block_temperature, ==, 80);
  g_assert_cmpfloat (usual.vacuum, ==, 50000);
  g_assert_cmpfloat (usual.altitude, ==, 0);
  g_assert_cmpfloat (usual.ambient_temperature, ==, 20);
  g_assert_cmpfloat (usual.fuel_temperature, ==, 20);
  g_assert_cmpfloat (usual.voltage, ==, 13);
  g_assert_cmpfloat (usual.humidity + usual.heater_time, ==, 0);
  g_assert_cmpuint (usual.held, ==, 0);
  for (int i = 0; i < condition_count; i++) {
    const struct condition *p = &condition_table[i];
    double bad[] = { p->least - 1e-9, p->most * (1 + 1e-9), NAN, INFINITY };

    g_assert_true (condition_find (p->key) == p);
    g_assert_true (condition_in (&c, p) == (double *) (void *) ((char *) &c + p->offset));
    for (unsigned k = 0; k < G_N_ELEMENTS (bad); k++) {
      c = usual;
      *condition_in (&c, p) = bad[k];
      g_assert_false (conditions_check (&c, &row));
      g_assert_true (row == p);
      g_assert_false (conditions_check (&c, NULL));
    }
    c = usual;
    *condition_in (&c, p) = p->least;
    g_assert_true (conditions_check (&c, NULL));
    *condition_in (&c, p) = p->most;
    g_assert_true (conditions_check (&c, NULL));
  }
  g_assert_null (condition_find ("no such thing"));
}

static void
test_held (void)
{
  static const struct { unsigned held; double lift, control, system, bimetal, approach; gboolean good; } rows[] = {
    { 0, NAN, NAN, NAN, NAN, 0, TRUE }, /* what is not held is not read */
    { 0, 0, 0, 0, 0, 1, TRUE },          { 0, 0, 0, 0, 0, -1, TRUE },
    { 0, 0, 0, 0, 0, 1.001, FALSE },     { 0, 0, 0, 0, 0, -1.001, FALSE },  { 0, 0, 0, 0, 0, NAN, FALSE },
    { HOLD_PLATE, -0.01, 0, 0, 0, 0, TRUE },      { HOLD_PLATE, 0.1, 0, 0, 0, 0, TRUE },
    { HOLD_PLATE, -0.011, 0, 0, 0, 0, FALSE },    { HOLD_PLATE, 0.11, 0, 0, 0, 0, FALSE },
    { HOLD_PLATE, NAN, 0, 0, 0, 0, FALSE },
    { HOLD_CONTROL_PRESSURE, 0, 0, 0, 0, 0, TRUE },      { HOLD_CONTROL_PRESSURE, 0, 1.5e6, 0, 0, 0, TRUE },
    { HOLD_CONTROL_PRESSURE, 0, -1, 0, 0, 0, FALSE },    { HOLD_CONTROL_PRESSURE, 0, 1.51e6, 0, 0, 0, FALSE },
    { HOLD_SYSTEM_PRESSURE, 0, 0, 0, 0, 0, TRUE },       { HOLD_SYSTEM_PRESSURE, 0, 0, 1.5e6, 0, 0, TRUE },
    { HOLD_SYSTEM_PRESSURE, 0, 0, -1, 0, 0, FALSE },     { HOLD_SYSTEM_PRESSURE, 0, 0, 1.51e6, 0, 0, FALSE },
    { HOLD_BIMETAL, 0, 0, 0, -60, 0, TRUE },  { HOLD_BIMETAL, 0, 0, 0, 300, 0, TRUE },
    { HOLD_BIMETAL, 0, 0, 0, -61, 0, FALSE }, { HOLD_BIMETAL, 0, 0, 0, 301, 0, FALSE },
  };
  const struct condition *row;

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    struct conditions c;
    conditions_usual (&c);
    c.held = rows[i].held;
    c.held_lift = rows[i].lift;
    c.held_control_pressure = rows[i].control;
    c.held_system_pressure = rows[i].system;
    c.held_bimetal_temperature = rows[i].bimetal;
    c.approach = rows[i].approach;
    g_test_message ("row %u", i);
    g_assert_cmpint (conditions_check (&c, &row), ==, rows[i].good);
    g_assert_null (row);
  }
}

static void
test_state_lookup (void)
{
  struct state state = { .lambda = 0.9, .cylinder[0].flow = 3 };

  for (int i = 0; i < state_value_count; i++)
    g_assert_true (state_value_find (state_values[i].key) == &state_values[i]);
  g_assert_null (state_value_find ("no such thing"));
  g_assert_cmpfloat (state_value_get (&state, state_value_find ("lambda")), ==, 0.9);
  for (int i = 0; i < cylinder_value_count; i++)
    if (strcmp (cylinder_values[i].key, "flow") == 0)
      g_assert_cmpfloat (cylinder_value_get (&state.cylinder[0], &cylinder_values[i]), ==, 3);
}

static void
test_texts (void)
{
  for (int a = OUTCOME_SOLVED; a <= OUTCOME_NOT_FOUND; a++) {
    g_assert_cmpuint (strlen (outcome_text ((enum outcome) a)), >, 5);
    for (int b = OUTCOME_SOLVED; b < a; b++)
      g_assert_cmpstr (outcome_text ((enum outcome) a), !=, outcome_text ((enum outcome) b));
  }
  g_assert_cmpstr (quantity_unit (QUANTITY_PRESSURE), ==, "Pa");
  g_assert_cmpstr (quantity_unit (QUANTITY_NUMBER), ==, "");
  for (int i = 0; i < QUANTITIES; i++)
    g_assert_nonnull (quantity_unit ((enum quantity) i));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tables/parameters-cover-the-car", test_parameters_cover_the_car);
  g_test_add_func ("/tables/state-values-cover-the-state", test_state_values_cover_the_state);
  g_test_add_func ("/tables/parameter-lookup", test_parameter_lookup);
  g_test_add_func ("/tables/car-limits", test_car_limits);
  g_test_add_func ("/tables/car-rules", test_car_rules);
  g_test_add_func ("/tables/conditions", test_conditions);
  g_test_add_func ("/tables/held", test_held);
  g_test_add_func ("/tables/state-lookup", test_state_lookup);
  g_test_add_func ("/tables/texts", test_texts);
  return g_test_run ();
}
