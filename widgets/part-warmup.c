/* Warm-up regulator: diaphragm on its flat seat, nested springs, bimetal strip with heater, load diaphragm. */
#include "scene-parts.h"

#include <math.h>

void
warmup_outline (STILL_ARGUMENTS)
{
  pen_rectangle (cr, &plan->warmup, 0, 0, plan->regulator.width, plan->regulator.height);
}

static void
line_to (cairo_t *cr, const struct plan *plan, double x, double y)
{
  pen_line (cr, &plan->warmup, x, y);
}

/* The hollow's wall above the split, from the right side of the frame's millimetres over the top to the left. */
static void
upper_hollow (cairo_t *cr, const struct plan *plan)
{
  const struct warmup_plan *w = &plan->regulator;

  line_to (cr, plan, 5, w->rim);
  line_to (cr, plan, 5, w->seat_y - 4);
  line_to (cr, plan, w->seat_x - 13, w->seat_y);
  line_to (cr, plan, w->seat_x + 13, w->seat_y);
  line_to (cr, plan, w->seat_x + 16, w->seat_y - 4);
  line_to (cr, plan, w->width - 5, w->seat_y - 4);
  line_to (cr, plan, w->width - 5, w->rim);
}

/* Below the split, back again; with a load stage two pads that its diaphragm comes down on. */
static void
lower_hollow (cairo_t *cr, const struct plan *plan)
{
  const struct warmup_plan *w = &plan->regulator;

  line_to (cr, plan, w->width - 5, w->rim);
  line_to (cr, plan, w->width - 5, 5);
  for (int side = 1; side >= -1 && w->load_stage; side -= 2) {
    double far = w->seat_x + (side > 0 ? 10 : -5), near = w->seat_x + (side > 0 ? 5 : -10);
    line_to (cr, plan, far, 5);
    line_to (cr, plan, far, w->lower_stop - 2);
    line_to (cr, plan, near, w->lower_stop - 2);
    line_to (cr, plan, near, 5);
  }
  line_to (cr, plan, 5, 5);
  line_to (cr, plan, 5, w->rim);
}

/* Housing, cover and top: hatched one by one, then outlined without a line across the hollow. */
static void
castings (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct warmup_plan *w = &plan->regulator;
  const struct frame *f = &plan->warmup;

  pen_rectangle (cr, f, 0, w->rim, w->width, w->seat_y);
  cairo_new_sub_path (cr);
  upper_hollow (cr, plan);
  cairo_close_path (cr);
  pen_hatch (cr, scene, plan, HATCH_RISING);
  pen_rectangle (cr, f, 0, 0, w->width, w->rim);
  cairo_new_sub_path (cr);
  lower_hollow (cr, plan);
  cairo_close_path (cr);
  pen_hatch (cr, scene, plan, HATCH_FALLING);
  pen_rectangle (cr, f, 0, 0, w->width, w->seat_y);
  cairo_new_sub_path (cr);
  upper_hollow (cr, plan);
  lower_hollow (cr, plan);
  cairo_close_path (cr);
  for (int side = 0; side < 2; side++) {
    pen_move (cr, f, side ? w->width - 5 : 0, w->rim);
    pen_line (cr, f, side ? w->width : 5, w->rim);
  }
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
  pen_rectangle (cr, f, 0, w->seat_y, w->width, w->height);
  pen_cut (cr, scene, plan, HATCH_FALLING);
}

static void
ground (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  pen_rectangle (cr, &plan->warmup, 3, 3, plan->regulator.width - 3, plan->regulator.seat_y);
  pen_ink (cr, scene_palette (scene->theme)->paper);
  cairo_fill (cr);
}

/* Hole in the cover: the air's pressure under the load diaphragm. */
static void
vent (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct warmup_plan *w = &plan->regulator;

  pen_rectangle (cr, &plan->warmup, w->seat_x - 1.5, -0.5, w->seat_x + 1.5, 5.5);
  pen_ink (cr, scene_palette (scene->theme)->paper);
  cairo_fill (cr);
  for (int side = -1; side <= 1; side += 2) {
    pen_move (cr, &plan->warmup, w->seat_x + side * 1.5, 0);
    pen_line (cr, &plan->warmup, w->seat_x + side * 1.5, 5);
  }
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
}

/* Upper stop of the load diaphragm: a plate with a hole for the spring. */
static void
stops (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct warmup_plan *w = &plan->regulator;
  double y = w->lower_stop + 2 + w->load_travel * w->load_factor;

  pen_rectangle (cr, &plan->warmup, 5, y, w->seat_x - 11, y + 2.4);
  pen_cut (cr, scene, plan, HATCH_FALLING_FINE);
  pen_rectangle (cr, &plan->warmup, w->seat_x + 11, y, w->width - 5, y + 2.4);
  pen_cut (cr, scene, plan, HATCH_FALLING_FINE);
}

void
warmup_draw_still (STILL_ARGUMENTS)
{
  const struct warmup_plan *w = &plan->regulator;
  const struct frame *f = &plan->warmup;

  ground (cr, scene, plan);
  castings (cr, scene, plan);
  if (w->load_stage)
    stops (cr, scene, plan);
  /* bracket of the inner spring, behind the cut */
  pen_rectangle (cr, f, w->seat_x - 6, w->inner_seat_y - 1.5, w->width - 5, w->inner_seat_y);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->metal, WEIGHT_EDGE);
  if (w->load_stage) {
    pen_rectangle (cr, f, w->width - 6, w->vacuum_y - 2, w->width + 8, w->vacuum_y + 2);
    pen_body (cr, scene, plan, scene_palette (scene->theme)->paper, WEIGHT_EDGE);
  }
  vent (cr, scene, plan);
  /* clamp of the strip with the heater's terminal */
  pen_rectangle (cr, f, w->clamp_x, w->strip_y - 4, w->width - 5, w->strip_y + 3.5);
  pen_cut (cr, scene, plan, HATCH_FALLING_FINE);
}

static void
fuel (cairo_t *cr, const struct scene *scene, const struct plan *plan, double left, double bottom, double right,
      double top, double pressure)
{
  pen_rectangle (cr, &plan->warmup, left, bottom, right, top);
  pen_body (cr, scene, plan, pressure_ink (scene, pressure), WEIGHT_EDGE);
}

/* Control fuel comes down the middle on to the diaphragm; what passes the seat returns from the ring round it. */
static void
seat (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct warmup_plan *w = &plan->regulator;
  double x = w->seat_x, y = w->seat_y, back = scene->state->return_pressure;

  fuel (cr, scene, plan, x + 8, y + 1.5, w->return_x + 1.5, y + 4.5, back);
  fuel (cr, scene, plan, w->return_x - 1.5, y + 3, w->return_x + 1.5, w->height, back);
  fuel (cr, scene, plan, x + 8, y + 1.5, w->return_x, y + 4.5, back);
  pen_rectangle (cr, &plan->warmup, w->return_x - 1.2, y + 2, w->return_x + 1.2, y + 6);
  pen_ink (cr, pressure_ink (scene, back));
  cairo_fill (cr);
  fuel (cr, scene, plan, x - 10, y + 0.4, x + 10, y + 6, back);
  fuel (cr, scene, plan, x - 1.6, y + 1, x + 1.6, w->height, scene->state->control_pressure);
  for (int side = -1; side <= 1; side += 2) {
    double in = x + side * 1.6, out = x + side * 4;
    pen_rectangle (cr, &plan->warmup, fmin (in, out), y + 0.7, fmax (in, out), y + 6);
  }
  pen_body (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
  pen_move (cr, &plan->warmup, 2.5, y);
  pen_line (cr, &plan->warmup, x + 14, y);
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
  /* push piece and retainer */
  pen_rectangle (cr, &plan->warmup, x - 4.5, y - 1.4, x + 4.5, y - 0.2);
  pen_rectangle (cr, &plan->warmup, x - 1.4, w->retainer_y, x + 1.4, y - 1.4);
  pen_rectangle (cr, &plan->warmup, x - 11, w->retainer_y - 2, x + 11, w->retainer_y);
  pen_union (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
}

/* The strip's middle line, y over x: a free strip bends to a circle, a hindered one to a cubic that comes back. */
static double
strip_height (const struct plan *plan, const struct pose *pose, double share)
{
  const struct warmup_plan *w = &plan->regulator;
  double free = pose->strip_free - w->strip_y, held = pose->strip_tip - pose->strip_free;

  return w->strip_y + free * share * share + held * 0.5 * share * share * (3 - share);
}

static void
strip_line (cairo_t *cr, const struct plan *plan, const struct pose *pose, double above)
{
  const struct warmup_plan *w = &plan->regulator;

  for (int i = 0; i <= 24; i++)
    pen_line (cr, &plan->warmup, w->clamp_x - w->strip_length * i / 24, strip_height (plan, pose, i / 24.0) + above);
}

void
bimetal_outline (MOVING_ARGUMENTS)
{
  const struct warmup_plan *w = &plan->regulator;
  double thick = w->strip_thickness;

  for (int i = 0; i <= 24; i++)
    if (i == 0)
      pen_move (cr, &plan->warmup, w->clamp_x, w->strip_y);
    else
      pen_line (cr, &plan->warmup, w->clamp_x - w->strip_length * i / 24, strip_height (plan, pose, i / 24.0));
  for (int i = 24; i >= 0; i--)
    pen_line (cr, &plan->warmup, w->clamp_x - w->strip_length * i / 24, strip_height (plan, pose, i / 24.0) + thick);
  cairo_close_path (cr);
}

static void
strip (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct pose *pose)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct warmup_plan *w = &plan->regulator;

  if (pose->strip_free < pose->strip_tip) { /* where the cold strip would go if the retainer let it */
    struct pose free = *pose;
    free.strip_tip = free.strip_free;
    cairo_save (cr);
    cairo_set_dash (cr, (double[]) { 7 * plan->unit, 2 * plan->unit, 1.5 * plan->unit, 2 * plan->unit }, 4, 0);
    strip_line (cr, plan, &free, w->strip_thickness / 2);
    pen_stroke (cr, scene, plan, WEIGHT_EDGE);
    cairo_restore (cr);
  }
  bimetal_outline (cr, scene, plan, pose);
  pen_body (cr, scene, plan, palette->accent, WEIGHT_EDGE);
  strip_line (cr, plan, pose, w->strip_thickness * 0.75); /* the upper layer expands less */
  pen_ink (cr, palette->moving);
  cairo_set_line_width (cr, 0.4 * w->strip_thickness * plan->warmup.scale);
  cairo_stroke (cr);
}

static void
heater (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct pose *pose)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct warmup_plan *w = &plan->regulator;
  const struct frame *f = &plan->warmup;

  for (int i = 0; i < 7; i++) {
    double x = w->clamp_x - w->strip_length * (0.12 + 0.075 * i), y = strip_height (plan, pose, 0.12 + 0.075 * i);
    pen_move (cr, f, x + 0.7, y - 1);
    pen_line (cr, f, x - 0.7, y + w->strip_thickness + 1);
  }
  pen_ink (cr, palette->line);
  cairo_set_line_width (cr, 1.3 * pen_width (scene, plan, WEIGHT_EDGE));
  cairo_stroke (cr);
}

/* Load diaphragm with its plate, between the stops. */
static void
load_path (cairo_t *cr, const struct plan *plan, const struct pose *pose)
{
  const struct warmup_plan *w = &plan->regulator;
  const struct frame *f = &plan->warmup;
  double rim = w->rim, x = w->seat_x, y = pose->load - 1;

  pen_move (cr, f, 2.5, rim);
  pen_line (cr, f, 5, rim);
  cairo_curve_to (cr, PX (f, 8), PY (f, rim), PX (f, x - 14), PY (f, y), PX (f, x - 10), PY (f, y));
  pen_line (cr, f, x + 10, y);
  cairo_curve_to (cr, PX (f, x + 18), PY (f, y), PX (f, w->width - 18), PY (f, rim), PX (f, w->width - 5), PY (f, rim));
  pen_line (cr, f, w->width - 2.5, rim);
}

void
load_outline (MOVING_ARGUMENTS)
{
  const struct warmup_plan *w = &plan->regulator;

  if (w->load_stage)
    pen_rectangle (cr, &plan->warmup, w->seat_x - 10, pose->load - 2, w->seat_x + 10, pose->load + 2);
  else
    pen_rectangle (cr, &plan->warmup, w->seat_x - 10, w->lower_stop - 2, w->seat_x + 10, w->lower_stop);
}

static void
springs (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct pose *pose)
{
  const struct warmup_plan *w = &plan->regulator;

  if (w->load_stage)
    pen_spring (cr, scene, plan, &plan->warmup, w->seat_x, pose->load + 2, w->retainer_y - 2, 8.2, 7);
  pen_spring (cr, scene, plan, &plan->warmup, w->seat_x, w->inner_seat_y, w->retainer_y - 2, 4.2, 6);
}

void
warmup_draw (MOVING_ARGUMENTS)
{
  const struct warmup_plan *w = &plan->regulator;
  const struct palette *palette = scene_palette (scene->theme);

  seat (cr, scene, plan);
  if (w->load_stage) {
    load_path (cr, plan, pose);
    pen_stroke (cr, scene, plan, WEIGHT_CUT);
    load_outline (cr, scene, plan, pose);
    pen_body (cr, scene, plan, palette->moving, WEIGHT_EDGE);
  }
  springs (cr, scene, plan, pose);
  strip (cr, scene, plan, pose);
  heater (cr, scene, plan, pose);
}
