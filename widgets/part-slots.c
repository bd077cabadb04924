/* The barrel unrolled: every cylinder's slot side by side, seen from outside, much magnified; the plunger's control
 * edge across all of them. */
#include "scene-parts.h"

#include <glib/gi18n.h>
#include <math.h>

#define LINE 1.35 /* of text, in its size */
#define OWN_OPENING 2e-6 /* m: a difference worth a number of its own */

static double
slot_full (const struct scene *scene)
{
  double full = 0;

  for (int i = 0; i < scene->car->cylinders; i++)
    full = fmax (full, scene->car->distributor.slot_height[i]);
  return full * 1e3;
}

/* The window's height in mm of slot: the whole slot, or its lowest tenth while the plunger is down there. */
static double
slots_range (const struct scene *scene)
{
  double full = slot_full (scene);

  return scene->state->plunger_lift * 1e3 > 0.085 * full ? full * 1.06 : full / 10;
}

/* Large type in a low window: one line of title, and none for own openings. */
static bool
is_low (const struct scene *scene, const struct plan *plan)
{
  return plan->slots.height < 7.8 * LINE * text_size (scene, plan, STYLE_VALUE);
}

/* The drawing field inside the inset's box: title above, numbers below, scale at the left. */
static struct scene_box
field (const struct scene *scene, const struct plan *plan)
{
  double line = LINE * text_size (scene, plan, STYLE_VALUE);
  struct scene_box box = plan->slots;

  box.x += 3.2 * line;
  box.width -= 3.2 * line + 3.6 * line;
  box.y += (is_low (scene, plan) ? 1.4 : 2.4) * line;
  box.height -= (is_low (scene, plan) ? 2.5 : 4.4) * line;
  return box;
}

double
slots_scale (const struct scene *scene, const struct plan *plan)
{
  return field (scene, plan).height * 0.94 / slots_range (scene);
}

static double
bottom_y (const struct scene *scene, const struct plan *plan)
{
  struct scene_box box = field (scene, plan);

  return box.y + box.height * 0.97;
}

double
slots_edge_y (const struct scene *scene, const struct plan *plan)
{
  return fmax (bottom_y (scene, plan) - scene->state->plunger_lift * 1e3 * slots_scale (scene, plan),
               field (scene, plan).y);
}

static double
slot_x (const struct scene *scene, const struct plan *plan, int index)
{
  struct scene_box box = field (scene, plan);

  return box.x + (index + 0.5) * box.width / scene->car->cylinders;
}

/* px a millimetre across: the widest slot takes a third of its place. */
static double
width_scale (const struct scene *scene, const struct plan *plan)
{
  double widest = 0;

  for (int i = 0; i < scene->car->cylinders; i++)
    widest = fmax (widest, scene->car->distributor.slot_width[i] * 1e3);
  return 0.36 * field (scene, plan).width / scene->car->cylinders / widest;
}

void
slots_draw_still (STILL_ARGUMENTS)
{
  const struct palette *palette = scene_palette (scene->theme);
  struct scene_box box = field (scene, plan);

  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  pen_body (cr, scene, plan, palette->metal, WEIGHT_EDGE);
  if (!is_low (scene, plan))
    text_draw (cr, scene, plan, STYLE_NAME, palette->line, SLOTS_TITLE, plan->slots.x,
               plan->slots.y, 0);
}

static void
scale_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  struct scene_box box = field (scene, plan);
  double full = slot_full (scene), step = slots_range (scene) < full ? full / 50 : full / 5;
  double scale = slots_scale (scene, plan), zero = bottom_y (scene, plan), tick = 5 * plan->unit;
  double size = text_size (scene, plan, STYLE_SMALL);
  int count = (int) floor (slots_range (scene) / step + 1e-6);

  for (int i = 0; i <= count; i++) {
    double y = zero - i * step * scale;
    cairo_move_to (cr, box.x - tick, y);
    cairo_line_to (cr, box.x, y);
  }
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
  for (int i = 0; i <= count; i += step * scale > size ? 1 : count) {
    double y = zero - i * step * scale;
    char text[MEASURE_MAX];
    text_number (i * step, step < 1 ? 1 : 0, text);
    text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, text, box.x - 1.5 * tick,
               y - 0.62 * size, 1);
  }
  text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, _("mm"), box.x - 1.5 * tick, zero + 0.45 * size, 1);
}

static void
slot_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, int index)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct fuel_distributor *d = &scene->car->distributor;
  struct scene_box box = field (scene, plan);
  double scale = slots_scale (scene, plan), zero = bottom_y (scene, plan), edge = slots_edge_y (scene, plan);
  double w = d->slot_width[index] * 1e3 * width_scale (scene, plan), x = slot_x (scene, plan, index) - w / 2;
  double top = fmax (zero - d->slot_height[index] * 1e3 * scale, box.y);
  double sill = fmin (fmax (zero - d->slot_edge[index] * 1e3 * scale, edge), box.y + box.height);
  double open = fmin (scene->state->cylinder[index].slot_opening * 1e3 * scale, sill - top);

  cairo_rectangle (cr, x, top, w, zero - top);
  pen_body (cr, scene, plan, palette->moving, WEIGHT_EDGE);
  cairo_rectangle (cr, x, sill - open, w, open);
  pen_body (cr, scene, plan, pressure_ink (scene, scene->state->system_pressure), WEIGHT_EDGE);
  if (sill < zero) { /* gum on the sill */
    cairo_rectangle (cr, x, sill, w, zero - sill);
    pen_ink (cr, palette->line);
    cairo_fill (cr);
  }
}

static void
title_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  char height[MEASURE_MAX], width[MEASURE_MAX], text[2 * MEASURE_MAX + 40];

  text_ratio (slots_scale (scene, plan) / plan->section.scale, height);
  text_ratio (width_scale (scene, plan) / plan->section.scale, width);
  if (is_low (scene, plan))
    g_snprintf (text, sizeof text, _("Slots: height %s, width %s"), height, width);
  else
    g_snprintf (text, sizeof text, _("height %s, width %s of the section"), height, width);
  text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, text, plan->slots.x,
             plan->slots.y + (is_low (scene, plan) ? 0 : LINE) * text_size (scene, plan, STYLE_VALUE), 0);
}

/* Number of the cylinder; under it its own opening where gum or tolerance makes it another than the plunger's lift. */
static void
foot_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, int index)
{
  const struct palette *palette = scene_palette (scene->theme);
  struct scene_box box = field (scene, plan);
  double size = text_size (scene, plan, STYLE_SMALL), y = box.y + box.height + 0.2 * size,
         x = slot_x (scene, plan, index);
  double own = scene->state->cylinder[index].slot_opening;
  char text[MEASURE_MAX];

  g_snprintf (text, sizeof text, "%d", index + 1);
  text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, text, x, y, 0.5);
  if (fabs (own - scene->state->plunger_lift) < OWN_OPENING || is_low (scene, plan))
    return;
  text_number (own * 1e3, 2, text);
  text_draw (cr, scene, plan, STYLE_SMALL, palette->line, text, x, y + 1.2 * size, 0.5);
}

/* The control edge runs across; its height stands as a dimension at the right. */
static void
edge_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  struct scene_box box = field (scene, plan);
  double y = slots_edge_y (scene, plan), zero = bottom_y (scene, plan), x = box.x + box.width + 7 * plan->unit;
  char text[MEASURE_MAX];

  cairo_move_to (cr, box.x, y);
  cairo_line_to (cr, x + 4 * plan->unit, y);
  pen_ink (cr, palette->line);
  cairo_set_line_width (cr, pen_width (scene, plan, WEIGHT_CUT));
  cairo_stroke (cr);
  cairo_move_to (cr, box.x + box.width, zero);
  cairo_line_to (cr, x + 4 * plan->unit, zero);
  cairo_move_to (cr, x, y - 12 * plan->unit);
  cairo_line_to (cr, x, y);
  cairo_move_to (cr, x, zero);
  cairo_line_to (cr, x, zero + 12 * plan->unit);
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
  pen_ink (cr, palette->line);
  pen_arrow_head (cr, x, y, G_PI / 2, 7 * plan->unit);
  pen_arrow_head (cr, x, zero, -G_PI / 2, 7 * plan->unit);
  text_measure (scene, QUANTITY_LENGTH, scene->state->plunger_lift, text);
  text_draw (cr, scene, plan, STYLE_NAME, palette->line, text, x + 6 * plan->unit,
             (y + zero) / 2 - 0.65 * text_size (scene, plan, STYLE_NAME), 0);
}

void
slots_draw (MOVING_ARGUMENTS)
{
  title_draw (cr, scene, plan);
  scale_draw (cr, scene, plan);
  for (int i = 0; i < scene->car->cylinders; i++) {
    slot_draw (cr, scene, plan, i);
    foot_draw (cr, scene, plan, i);
  }
  edge_draw (cr, scene, plan);
}
