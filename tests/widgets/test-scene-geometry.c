/* Where the drawing puts things, against formulas of the test's own from car and state; and that a change of one value
 * changes no pixel outside the parts that it moves. */
#include "reference-unit.h"
#include "scene-parts.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#define NEAR 1e-6 /* px */

static const struct { double air, coolant, vacuum; } states[] = {
  { 18, 80, 500 }, { 18, 20, 500 }, { 100, 40, 400 }, { 300, 80, 225 }, { 450, -20, 100 },
};

static const struct { double width, height; } sizes[] = { { 1240, 500 }, { 1880, 760 }, { 1120, 800 } };

struct sample {
  struct car car;
  struct conditions conditions;
  struct state state;
  struct scene scene;
  struct plan plan;
};

static void
sample_make (struct sample *sample, enum plate_direction direction, unsigned state, unsigned size)
{
  reference_unit (&sample->car, 6, direction);
  reference_state (&sample->car, states[state].air, states[state].coolant, states[state].vacuum, &sample->conditions,
                   &sample->state);
  sample->scene = (struct scene) { .car = &sample->car, .conditions = &sample->conditions, .state = &sample->state,
                                   .width = sizes[size].width, .height = sizes[size].height, .type_scale = 1,
                                   .layers = LAYER_PRESSURES };
  plan_make (&sample->scene, &sample->plan);
}

/* How far a mark has moved from where it is with everything at rest, in px; up and right positive. */
static void
moved (const struct sample *sample, enum scene_mark mark, double *right, double *up)
{
  struct state rest = { .cylinders = sample->car.cylinders,
                        .bimetal_temperature = sample->car.control.release_temperature };
  struct scene closed = sample->scene;
  double x, y;

  closed.state = &rest;
  scene_mark (&closed, mark, right, up);
  scene_mark (&sample->scene, mark, &x, &y);
  *right = x - *right;
  *up = *up - y;
}

static void
check_lever (const struct sample *sample)
{
  const struct air_sensor *sensor = &sample->car.sensor;
  double px = scene_scale (&sample->scene), angle = sample->state.plate_lift / sensor->plate_arm, x, y, pivot_x,
         pivot_y;
  double up = sample->car.direction == PLATE_LIFTED ? 1 : -1;

  scene_mark (&sample->scene, MARK_PIVOT, &pivot_x, &pivot_y);
  scene_mark (&sample->scene, MARK_PLATE_CENTRE, &x, &y);
  g_assert_cmpfloat_with_epsilon (pivot_x - x, px * sensor->plate_arm * cos (angle), NEAR);
  g_assert_cmpfloat_with_epsilon (pivot_y - y, up * px * sensor->plate_arm * sin (angle), NEAR);
  scene_mark (&sample->scene, MARK_ROLLER, &x, &y);
  g_assert_cmpfloat_with_epsilon (x - pivot_x, -up * px * sensor->roller_arm * cos (angle), NEAR);
  g_assert_cmpfloat_with_epsilon (pivot_y - y, px * sensor->roller_arm * sin (angle), NEAR);
}

static void
check_fuel_side (const struct sample *sample)
{
  const struct car *car = &sample->car;
  const struct fuel_distributor *d = &car->distributor;
  const struct cylinder_state *first = &sample->state.cylinder[0];
  double px = scene_scale (&sample->scene), x, y, h, open;

  h =
    (sample->state.plate_lift - car->sensor.play) * car->sensor.roller_arm / car->sensor.plate_arm + d->mixture_offset;
  moved (sample, MARK_CONTROL_EDGE, &x, &y);
  g_assert_cmpfloat_with_epsilon (y, px * fmax (h, 0) * scene_movement_factor (&sample->scene), NEAR);
  /* spring against pressure difference: drop x area = preload - rate x opening */
  open = (d->valve_drop[0] - first->slot_drop) * d->valve_area / d->valve_rate[0];
  moved (sample, MARK_VALVE_DIAPHRAGM, &x, &y);
  g_assert_cmpfloat_with_epsilon (-y, px * open * sample->plan.distributor.valve_factor, 1e-3);
  scene_mark (&sample->scene, MARK_SLOT_EDGE, &x, &y);
  g_assert_cmpfloat (y, <, sample->plan.slots.y + sample->plan.slots.height);
}

static void
check_regulator (const struct sample *sample)
{
  const struct control_circuit *c = &sample->car.control;
  double px = scene_scale (&sample->scene), above = sample->state.bimetal_temperature - c->release_temperature, share,
         x, y;
  /* Timoshenko (1925) for two equal layers: curvature 3/2 x difference of expansion x temperature / thickness; the end
   * of a clamped strip bends by half of curvature x length squared. Below its release temperature the retainer holds
   * it. */
  double bend = 0.75 * c->bimetal_expansion * above * c->bimetal_length * c->bimetal_length / c->bimetal_thickness;

  moved (sample, MARK_BIMETAL_TIP, &x, &y);
  g_assert_cmpfloat_with_epsilon (y, px * fmax (bend, 0) * sample->plan.regulator.strip_factor, 1e-3);
  share =
    (sample->conditions.vacuum * c->load_tightness - c->load_vacuum_low) / (c->load_vacuum_high - c->load_vacuum_low);
  moved (sample, MARK_LOAD_DIAPHRAGM, &x, &y);
  g_assert_cmpfloat_with_epsilon (y, px * CLAMP (share, 0, 1) * c->load_travel * sample->plan.regulator.load_factor,
                                  NEAR);
}

static void
test_marks (void)
{
  struct sample sample;

  for (unsigned state = 0; state < G_N_ELEMENTS (states); state++)
    for (unsigned size = 0; size < G_N_ELEMENTS (sizes); size++)
      for (int direction = 0; direction < 2; direction++) {
        sample_make (&sample, (enum plate_direction) direction, state, size);
        check_lever (&sample);
        check_fuel_side (&sample);
        check_regulator (&sample);
      }
}

static cairo_surface_t *
picture (const struct scene *scene)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) scene->width, (int) scene->height);
  cairo_t *cr = cairo_create (surface);

  scene_draw (cr, scene);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static void
add_part (cairo_t *mask, const struct scene *scene, enum scene_part_id part)
{
  scene_part_outline (mask, scene, part);
  cairo_fill_preserve (mask);
  cairo_set_line_width (mask, 8);
  cairo_stroke (mask);
}

/* Every pixel that differs must lie in the parts, before or after, with the width of their lines. */
static void
check_changes (const struct scene *before, const struct scene *after, const enum scene_part_id *parts, int count)
{
  cairo_surface_t *a = picture (before), *b = picture (after);
  cairo_surface_t *mask = cairo_image_surface_create (CAIRO_FORMAT_A8, (int) before->width, (int) before->height);
  cairo_t *cr = cairo_create (mask);
  int changed = 0, stride = cairo_image_surface_get_stride (a), mask_stride = cairo_image_surface_get_stride (mask);

  for (int i = 0; i < count; i++) {
    add_part (cr, before, parts[i]);
    add_part (cr, after, parts[i]);
  }
  cairo_destroy (cr);
  cairo_surface_flush (mask);
  for (int y = 0; y < (int) before->height; y++)
    for (int x = 0; x < (int) before->width; x++)
      if (memcmp (cairo_image_surface_get_data (a) + y * stride + 4 * x,
                  cairo_image_surface_get_data (b) + y * stride + 4 * x, 3) != 0) {
        changed++;
        if (cairo_image_surface_get_data (mask)[y * mask_stride + x] == 0)
          g_error ("a pixel at %d, %d changed outside the parts moved", x, y);
      }
  g_assert_cmpint (changed, >, 0);
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
  cairo_surface_destroy (mask);
}

/* One value of the state at a time, the others held, so that only its own parts may move. */
static void
check_isolation (enum plate_direction direction)
{
  static const enum scene_part_id lever[] = { PART_PLATE, PART_LEVER, PART_WEIGHT, PART_ROLLER };
  static const enum scene_part_id plunger[] = { PART_PLUNGER, PART_BARREL, PART_SLOTS };
  static const enum scene_part_id valve[] = { PART_VALVE }, regulator[] = { PART_WARMUP_REGULATOR };
  static const enum scene_part_id supply[] = { PART_SYSTEM_REGULATOR };
  struct sample sample;
  struct state other;
  struct scene after;

  sample_make (&sample, direction, 2, 0);
  after = sample.scene;
  after.state = &other;
  other = sample.state;
  other.plate_lift = 0.02;
  check_changes (&sample.scene, &after, lever, G_N_ELEMENTS (lever));
  other = sample.state;
  other.plunger_lift *= 2;
  check_changes (&sample.scene, &after, plunger, G_N_ELEMENTS (plunger));
  other = sample.state;
  other.cylinder[0].valve_opening = 5e-5;
  check_changes (&sample.scene, &after, valve, 1);
  other = sample.state;
  other.bimetal_temperature = 110;
  check_changes (&sample.scene, &after, regulator, 1);
  other = sample.state;
  other.load_position = 0;
  check_changes (&sample.scene, &after, regulator, 1);
  other = sample.state;
  other.relief_flow = 0;
  check_changes (&sample.scene, &after, supply, 1);
}

static void
test_isolation (void)
{
  check_isolation (PLATE_PRESSED_DOWN);
  check_isolation (PLATE_LIFTED);
}

/* CIE 1976 lightness of an sRGB colour (IEC 61966-2-1, D65). */
static double
lightness (struct ink ink)
{
  double parts[] = { ink.red, ink.green, ink.blue }, weights[] = { 0.2126, 0.7152, 0.0722 }, y = 0;

  for (int i = 0; i < 3; i++)
    y += weights[i] * (parts[i] <= 0.04045 ? parts[i] / 12.92 : pow ((parts[i] + 0.055) / 1.055, 2.4));
  return y > 216.0 / 24389 ? 116 * cbrt (y) - 16 : 24389.0 / 27 * y;
}

/* Nunez, Anderton and Renslow (2018): from #00224E to #FEE838, lightness rising evenly. */
static void
test_pressure_colours (void)
{
  struct ink low = cividis (0), high = cividis (1);
  double first = lightness (low), span = lightness (high) - first;

  g_assert_cmpint ((int) lround (low.blue * 255), ==, 0x4e);
  g_assert_cmpint ((int) lround (low.green * 255), ==, 0x22);
  g_assert_cmpint ((int) lround (high.red * 255), ==, 0xfe);
  g_assert_cmpint ((int) lround (high.green * 255), ==, 0xe8);
  for (int i = 1; i <= 50; i++) {
    g_assert_cmpfloat (lightness (cividis (i / 50.0)), >, lightness (cividis ((i - 1) / 50.0)));
    g_assert_cmpfloat (fabs ((lightness (cividis (i / 50.0)) - first) / span - i / 50.0), <, 0.02);
  }
  g_assert_cmpfloat (cividis (-1).green, ==, low.green);
  g_assert_cmpfloat (cividis (2).green, ==, high.green);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene-geometry/marks", test_marks);
  g_test_add_func ("/scene-geometry/isolation", test_isolation);
  g_test_add_func ("/scene-geometry/pressure-colours", test_pressure_colours);
  return g_test_run ();
}
