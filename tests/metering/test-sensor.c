/* The air sensor against an independent search for the least frustum, and against its own equations turned round. */
#include "cars.h"
#include "near.h"
#include "sensor.h"

static const struct sensor_air air = { 1.2, 1.8e-5 };

/* The least frustum by brute force: every piece of the profile in 20 000 steps. */
static double
area_by_search (const struct air_sensor *s, double lift)
{
  double least = INFINITY, x = fmax (lift, 0);

  for (int i = 0; i + 1 < s->funnel_points; i++)
    for (int k = 0; k <= 20000; k++) {
      double along = s->funnel_depth[i] + (s->funnel_depth[i + 1] - s->funnel_depth[i]) * k / 20000 - x;
      double c = s->funnel_clearance[i] + (s->funnel_clearance[i + 1] - s->funnel_clearance[i]) * k / 20000;
      double area = G_PI * hypot (along, c) * (2 * s->plate_radius + c);
      least = fmin (least, area);
    }
  return least;
}

static void
test_area (void)
{
  for (int i = 0; i < DEMO_CARS; i++) {
    const struct air_sensor *s = &demo_cars[i].car->sensor;
    for (double lift = -0.001; lift < s->top_stop; lift += 0.00037) {
      double slope, h = 1e-7;
      assert_near (sensor_area (s, lift, &slope), area_by_search (s, lift), 1e-7);
      if (lift > 0)
        assert_within (slope, (sensor_area (s, lift + h, NULL) - sensor_area (s, lift - h, NULL)) / (2 * h),
                       0.02 * fabs (slope) + 1e-6);
    }
  }
}

/* A cylinder, a cone whose wall the plate has long left, and a step: cases that can be told by hand. */
static void
test_area_by_hand (void)
{
  struct air_sensor s = { .plate_radius = 0.04, .funnel_points = 3, .funnel_depth = { 0, 0.005, 0.01 },
                          .funnel_clearance = { 0.001, 0.001, 0.02 } };
  double slope;

  assert_near (sensor_area (&s, 0.003, &slope), G_PI * 0.001 * 0.081, 1e-12); /* straight across the land */
  g_assert_cmpfloat (slope, ==, 0);
  assert_near (sensor_area (&s, -0.002, &slope), G_PI * 0.001 * 0.081, 1e-12); /* still overlapped: the gap stays */
  g_assert_cmpfloat (slope, ==, 0);
  /* Past the land the nearest wall is its lower edge, 0.5 mm behind: slant hypot(0.5, 1) */
  assert_near (sensor_area (&s, 0.0055, NULL), G_PI * hypot (0.0005, 0.001) * 0.081, 1e-12);
  g_assert_cmpfloat (sensor_land (&s), ==, 0.005);
  s.funnel_clearance[1] = 0.0011;
  g_assert_cmpfloat (sensor_land (&s), ==, 0);
  s.funnel_clearance[1] = 0.001;
  s.funnel_points = 2; /* a straight pipe is all land, and ends where its points end */
  g_assert_cmpfloat (sensor_land (&s), ==, 0.005);
  s.funnel_points = 3;
  /* Far beyond the profile's end: its last edge */
  assert_near (sensor_area (&s, 0.05, NULL), area_by_search (&s, 0.05), 1e-9);
}

static void
test_area_has_no_jumps (void)
{
  for (int i = 0; i < DEMO_CARS; i++) {
    const struct air_sensor *s = &demo_cars[i].car->sensor;
    for (int k = 0; k < s->funnel_points; k++) {
      double x = s->funnel_depth[k], e = 1e-10;
      assert_near (sensor_area (s, x + e, NULL), sensor_area (s, fmax (x - e, 0), NULL), 1e-6);
    }
    for (double lift = 0; lift < s->top_stop; lift += 1e-5) /* rises all the way */
      g_assert_cmpfloat (sensor_area (s, lift + 1e-5, NULL), >=, sensor_area (s, lift, NULL));
  }
}

static void
test_flow_and_back (void)
{
  for (int i = 0; i < DEMO_CARS; i++) {
    const struct air_sensor *s = &demo_cars[i].car->sensor;
    for (double lift = s->rest_height + 1e-4; lift < s->top_stop; lift += 0.0011)
      for (double drop = 10; drop < 20000; drop *= 7) {
        double by_lift, by_drop, h = 1e-8, e = drop * 1e-6;
        double flow = sensor_flow (s, &air, lift, drop, &by_lift, &by_drop);

        assert_near (sensor_drop (s, &air, lift, flow), drop, 1e-12);
        assert_within (sensor_lift (s, &air, flow, drop, -INFINITY), lift, 1e-9 * lift);
        assert_within (sensor_lift (s, &air, flow, drop, lift * 1.01), lift, 1e-9 * lift);
        assert_near (by_drop,
                     (sensor_flow (s, &air, lift, drop + e, NULL, NULL)
                      - sensor_flow (s, &air, lift, drop - e, NULL, NULL)) / (2 * e), 1e-5);
        assert_within (by_lift,
                       (sensor_flow (s, &air, lift + h, drop, NULL, NULL)
                        - sensor_flow (s, &air, lift - h, drop, NULL, NULL)) / (2 * h), 0.02 * by_lift);
      }
  }
}

/* Beyond the land a pure contraction: Cd A sqrt(2 rho dp). On it the overlap costs more, the more the slower. */
static void
test_flow_by_hand (void)
{
  const struct air_sensor *s = &hollin_six.sensor;
  double lift = 0.004, overlap = 0.0006, area = sensor_area (s, 0.0004, NULL), speed, drop = 781, loss;

  assert_near (sensor_flow (s, &air, lift, drop, NULL, NULL),
               s->discharge * sensor_area (s, lift, NULL) * sqrt (2 * air.density * drop), 1e-12);
  speed = sensor_flow (s, &air, 0.0004, drop, NULL, NULL) / (air.density * area);
  loss = 12 * air.viscosity * overlap / (5e-5 * 5e-5) * speed + air.density / (2 * 0.76 * 0.76) * speed * speed;
  assert_near (loss, drop, 1e-12);
  /* Creeping: twice the drop, twice the flow; fast: root of two */
  assert_near (sensor_flow (s, &air, 0, 2e-4, NULL, NULL) / sensor_flow (s, &air, 0, 1e-4, NULL, NULL), 2, 1e-3);
  assert_near (sensor_flow (s, &air, 0.01, 200, NULL, NULL) / sensor_flow (s, &air, 0.01, 100, NULL, NULL),
               G_SQRT2, 1e-12);
}

/* The first guess: near where the plate may float, and the middle between its stops where nothing is to be known. */
static void
test_rough_lift (void)
{
  for (int i = 0; i < DEMO_CARS; i++) {
    const struct air_sensor *s = &demo_cars[i].car->sensor;
    double middle = s->rest_height + (s->top_stop - s->rest_height) / 2, land = sensor_land (s), worst = 0;

    for (double lift = 1.5 * land; lift < 0.95 * s->top_stop; lift += 0.0004) {
      double flow = sensor_flow (s, &air, lift, 800, NULL, NULL);
      worst = fmax (worst, fabs (sensor_lift_roughly (s, &air, flow, 800) / lift - 1));
    }
    g_test_message ("%s: the rough lift is off by %.3g at most", demo_cars[i].name, worst);
    g_assert_cmpfloat (worst, <, 1e-4);
    assert_near (sensor_lift_roughly (s, &air, 100 * sensor_flow (s, &air, s->top_stop, 800, NULL, NULL), 800), middle, 1e-12);
    assert_near (sensor_lift_roughly (s, &air, 1e-9, 800), middle, 1e-12);
  }
}

static void
test_lift_on_the_stops (void)
{
  struct air_sensor s = hollin_six.sensor;

  g_assert_cmpfloat (sensor_lift (&s, &air, 1e-6, 800, -INFINITY), ==, s.rest_height);
  g_assert_cmpfloat (sensor_lift (&s, &air, 1e-6, 800, 0.01), ==, s.rest_height);
  g_assert_cmpfloat (sensor_lift (&s, &air, 10, 800, -INFINITY), ==, s.top_stop);
  g_assert_cmpfloat (sensor_lift (&s, &air, 10, 800, 0.002), ==, s.top_stop);
  s.rest_height = 0.004;
  g_assert_cmpfloat (sensor_lift (&s, &air, 0.005, 800, 0.001), ==, 0.004);
}

/* The moments about the pivot by hand: dp pi R^2 L = F l + M. */
static void
test_balance (void)
{
  struct air_sensor s = { .plate_radius = 0.04, .plate_arm = 0.15, .roller_arm = 0.02 };
  double area = G_PI * 0.0016;

  assert_near (sensor_balance_drop (&s, 29.45, 0), 29.45 * 0.02 / 0.15 / area, 1e-12);
  assert_near (sensor_balance_drop (&s, 29.45, 0), 781, 1e-3);
  s.unbalance = 0.1;
  assert_near (sensor_balance_drop (&s, 0, 0), 0.1 / 0.15 / area, 1e-12);
  s.friction = 0.2;
  assert_near (sensor_balance_drop (&s, 0, -1), (0.1 / 0.15 + 0.2) / area, 1e-12); /* opening: more air force */
  assert_near (sensor_balance_drop (&s, 0, 1), (0.1 / 0.15 - 0.2) / area, 1e-12);
  assert_near (sensor_balance_drop (&s, 0, 0), 0.1 / 0.15 / area, 1e-12);
  s.unbalance = -1;
  g_assert_cmpfloat (sensor_balance_drop (&s, 0, 0), <, 0);
}

static void
test_plunger (void)
{
  static const struct { double lift, offset, expected; } rows[] = {
    { 0.0010, 0, 0 },      { 0.0005, 0, 0 },      { 0.0010, 2e-5, 2e-5 },  { 0.0010, -2e-5, 0 },
    { 0.0160, 0, 0.002 },  { 0.0160, 1e-4, 0.0021 }, { 0.0085, -1e-4, 0.0009 },
  };
  const struct air_sensor s = { .plate_arm = 0.15, .roller_arm = 0.02, .play = 0.001 };

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_within (sensor_plunger_lift (&s, rows[i].lift, rows[i].offset), rows[i].expected, 1e-15);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sensor/area", test_area);
  g_test_add_func ("/sensor/area-by-hand", test_area_by_hand);
  g_test_add_func ("/sensor/area-has-no-jumps", test_area_has_no_jumps);
  g_test_add_func ("/sensor/flow-and-back", test_flow_and_back);
  g_test_add_func ("/sensor/flow-by-hand", test_flow_by_hand);
  g_test_add_func ("/sensor/rough-lift", test_rough_lift);
  g_test_add_func ("/sensor/stops", test_lift_on_the_stops);
  g_test_add_func ("/sensor/balance", test_balance);
  g_test_add_func ("/sensor/plunger", test_plunger);
  return g_test_run ();
}
