/* Texts and leaders of the drawing: nothing meets anything, at every size, state, car and theme; at the usual sizes
 * every part has its name. */
#include "reference-unit.h"
#include "scene-labels.h"

#include <glib.h>
#include <math.h>
#include <string.h>

static const struct { double air, coolant, vacuum; } states[] = {
  { 18, 80, 500 }, { 18, 20, 500 }, { 100, 40, 400 }, { 300, 80, 225 }, { 450, -20, 100 },
};

static const struct { double width, height, type_scale; bool own_readout, all_names;
} sizes[] = {
  { 1240, 500, 1, false, true }, { 1270, 405, 1, false, true },    { 1880, 760, 1, false, true },
  { 1600, 900, 1, true, true },  { 1120, 800, 1, false, true },    { 1120, 800, 1, true, true },
  { 1500, 500, 1, false, true }, { 1880, 760, 1.5, false, false }, { 800, 400, 1, false, false },
  { 640, 900, 1, false, false }, { 3000, 1000, 2, false, false },
};

static const unsigned layers[] = { LAYER_PRESSURES | LAYER_FLOW | LAYER_LABELS, 31 };

static bool
boxes_meet (const struct scene_box *a, const struct scene_box *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height && b->y < a->y + a->height;
}

static double
side_of (const struct label *line, double x, double y)
{
  return (line->dot_x - line->start_x) * (y - line->start_y) - (line->dot_y - line->start_y) * (x - line->start_x);
}

static bool
leaders_cross (const struct label *a, const struct label *b)
{
  return side_of (a, b->start_x, b->start_y) * side_of (a, b->dot_x, b->dot_y) < 0
         && side_of (b, a->start_x, a->start_y) * side_of (b, a->dot_x, a->dot_y) < 0;
}

/* The text as it is drawn must lie in the box that was reserved for it. */
static void
check_text_in_box (const struct scene *scene, const struct plan *plan, const struct label *label)
{
  double width, height, name;

  text_extents (scene, plan, STYLE_NAME, label->name, &name, &height);
  g_assert_cmpfloat (name, <=, label->box.width + 0.01);
  for (int i = 1; i < label->lines; i++) {
    text_extents (scene, plan, STYLE_VALUE, label->line[i - 1], &width, &height);
    if (label->inline_value)
      width += name;
    g_assert_cmpfloat (width, <=, label->box.width + 0.01);
  }
}

static void
check_pair (const struct label *a, const struct label *b)
{
  if (boxes_meet (&a->box, &b->box))
    g_error ("\"%s\" lies on \"%s\"", a->name, b->name);
  if (a->leader != LEADER_NONE && b->leader != LEADER_NONE && leaders_cross (a, b))
    g_error ("the leaders of \"%s\" and \"%s\" cross", a->name, b->name);
}

static void
check_labels (const struct scene *scene, bool all_names)
{
  struct plan plan;
  struct pose pose;
  struct labels labels;
  static const enum scene_part_id kept_clear[] = { PART_WARMUP_REGULATOR, PART_SYSTEM_REGULATOR, PART_SLOTS, PART_VALVE,
                                                   PART_NOZZLE, PART_ORIFICE };
  struct scene_box part;

  plan_make (scene, &plan);
  pose_make (scene, &plan, &pose);
  labels_now (scene, &plan, &pose, &labels);
  for (int i = 0; i < labels.count; i++) {
    const struct label *label = &labels.label[i];
    if (label->lines == 0) {
      /* a lifted plate leaves no place by the regulator where its return runs down to a stacked row */
      if (all_names && !(plan.stacked && plan.sensor.opening > 0 && g_str_has_suffix (label->name, "regulator")))
        g_error ("\"%s\" has no room at %.0f x %.0f", label->name, scene->width, scene->height);
      continue;
    }
    check_text_in_box (scene, &plan, label);
    g_assert_cmpfloat (label->box.x, >=, 0);
    g_assert_cmpfloat (label->box.y, >=, 0);
    g_assert_cmpfloat (label->box.x + label->box.width, <=, scene->width);
    g_assert_cmpfloat (label->box.y + label->box.height, <=, scene->height);
    for (int k = 0; k < i; k++)
      if (labels.label[k].lines > 0)
        check_pair (label, &labels.label[k]);
    for (unsigned k = 0; k < G_N_ELEMENTS (kept_clear); k++) {
      scene_part_box (scene, kept_clear[k], &part);
      if (boxes_meet (&label->box, &part))
        g_error ("\"%s\" lies on the %s at %.0f x %.0f", label->name, scene_parts[kept_clear[k]].key, scene->width,
                 scene->height);
    }
  }
}

static void
check_size (unsigned size, int cylinders, enum plate_direction direction, unsigned layer)
{
  struct car car;
  struct conditions conditions;
  struct state state;
  struct unit_choices psi = { PRESSURE_IN_PSI, TEMPERATURE_IN_FAHRENHEIT };

  reference_unit (&car, cylinders, direction);
  for (unsigned i = 0; i < G_N_ELEMENTS (states); i++) {
    struct scene scene = { .car = &car, .conditions = &conditions, .state = &state, .width = sizes[size].width,
                           .height = sizes[size].height, .type_scale = sizes[size].type_scale, .layers = layers[layer],
                           .theme = (enum scene_theme) (i % 5), .own_readout = sizes[size].own_readout };
    reference_state (&car, states[i].air, states[i].coolant, states[i].vacuum, &conditions, &state);
    check_labels (&scene, sizes[size].all_names && layer == 0);
    scene.units = &psi;
    check_labels (&scene, false);
  }
}

static void
test_nothing_meets (void)
{
  for (unsigned size = 0; size < G_N_ELEMENTS (sizes); size++)
    for (int cylinders = 4; cylinders <= 8; cylinders += 2)
      for (unsigned layer = 0; layer < G_N_ELEMENTS (layers); layer++) {
        check_size (size, cylinders, PLATE_PRESSED_DOWN, layer);
        check_size (size, cylinders, PLATE_LIFTED, layer);
      }
}

/* Type is 11 px at least where the window is 1280 wide. */
static void
test_type_is_readable (void)
{
  struct car car;
  struct scene scene = { .car = &car, .width = 1240, .height = 500, .type_scale = 1 };
  struct plan plan;

  reference_unit (&car, 6, PLATE_PRESSED_DOWN);
  plan_make (&scene, &plan);
  for (int style = STYLE_NAME; style <= STYLE_LARGE; style++)
    g_assert_cmpfloat (text_size (&scene, &plan, (enum style) style), >=, 11);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene-labels/nothing-meets", test_nothing_meets);
  g_test_add_func ("/scene-labels/type", test_type_is_readable);
  return g_test_run ();
}
