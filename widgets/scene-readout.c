/* The mixture as the largest number, on its scale with the usable window, and the conditions: for pictures that no
 * window surrounds. */
#include "scene-parts.h"

#include <glib/gi18n.h>
#include <math.h>

#define LEAST 0.6
#define MOST 1.4

/* Number, scale and conditions: side by side in a wide box, one under the other in a narrow one. */
static bool
narrow (const struct scene *scene, const struct plan *plan)
{
  return plan->readout.width < 17 * text_size (scene, plan, STYLE_LARGE);
}

static struct scene_box
scale_box (const struct scene *scene, const struct plan *plan)
{
  struct scene_box box = plan->readout;
  double large = text_size (scene, plan, STYLE_LARGE), small = text_size (scene, plan, STYLE_SMALL);

  if (narrow (scene, plan))
    return (struct scene_box) { box.x + small, box.y + 2.5 * large, box.width - 3 * small, 0.22 * large };
  return (struct scene_box) { box.x + 5.2 * large, box.y + 0.55 * box.height, fmin (10 * large, 0.4 * box.width),
                              0.22 * large };
}

static double
scale_x (struct scene_box box, double lambda)
{
  return box.x + box.width * (fmin (fmax (lambda, LEAST), MOST) - LEAST) / (MOST - LEAST);
}

void
readout_draw_still (STILL_ARGUMENTS)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct engine_air *engine = &scene->car->engine;
  struct scene_box box = scale_box (scene, plan);
  double rich = scale_x (box, engine->lambda_rich), lean = scale_x (box, engine->lambda_lean);
  double small = text_size (scene, plan, STYLE_SMALL);

  cairo_rectangle (cr, rich, box.y - box.height, lean - rich, box.height);
  pen_body (cr, scene, plan, palette->window, WEIGHT_THIN);
  cairo_move_to (cr, box.x, box.y);
  cairo_line_to (cr, box.x + box.width, box.y);
  for (int i = 0; i <= 8; i++) {
    double x = box.x + i * box.width / 8;
    cairo_move_to (cr, x, box.y);
    cairo_line_to (cr, x, box.y + 0.4 * small);
  }
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
  for (int i = 0; i <= 8; i++) {
    char text[MEASURE_MAX];
    text_number (LEAST + 0.1 * i, 1, text);
    text_draw (cr, scene, plan, STYLE_SMALL, palette->line, text, box.x + i * box.width / 8, box.y + 0.5 * small, 0.5);
  }
  text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, _("rich"), box.x, box.y + 1.9 * small, 0.5);
  text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, _("lean"), box.x + box.width, box.y + 1.9 * small, 0.5);
  text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, _("usable warm"), (rich + lean) / 2, box.y + 1.9 * small,
             0.5);
}

static void
conditions_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct conditions *c = scene->conditions;
  const struct { const char *name; enum quantity quantity; double value; } rows[] = {
    { _("Air flow"), QUANTITY_MASS_FLOW, scene->state->air_flow },
    { _("Coolant"), QUANTITY_TEMPERATURE, c->block_temperature },
    { _("Manifold vacuum"), QUANTITY_PRESSURE_DIFFERENCE, c->vacuum },
    { _("Fuel flow"), QUANTITY_MASS_FLOW, scene->state->fuel_flow },
  };
  struct scene_box box = scale_box (scene, plan);
  double x = plan->readout.x + plan->readout.width - 16 * text_size (scene, plan, STYLE_NAME),
         line = 1.5 * text_size (scene, plan, STYLE_VALUE);
  double top = box.y - box.height * 1.5 - 0.5 * line;

  if (narrow (scene, plan)) {
    x = plan->readout.x;
    top = box.y + 3 * line;
  }
  for (unsigned i = 0; i < sizeof rows / sizeof rows[0]; i++) {
    char text[MEASURE_MAX];
    double y = top + i * line;
    text_draw (cr, scene, plan, STYLE_VALUE, palette->quiet, rows[i].name, x, y, 0);
    text_measure (scene, rows[i].quantity, rows[i].value, text);
    text_draw (cr, scene, plan, STYLE_NAME, palette->line, text, x + 16 * text_size (scene, plan, STYLE_NAME), y, 1);
  }
}

void
readout_draw (MOVING_ARGUMENTS)
{
  const struct palette *palette = scene_palette (scene->theme);
  struct scene_box box = scale_box (scene, plan);
  double large = text_size (scene, plan, STYLE_LARGE), lambda = scene->state->lambda, x = plan->readout.x;
  double top = narrow (scene, plan) ? plan->readout.y : box.y - 0.95 * large;
  char text[MEASURE_MAX], line[2 * MEASURE_MAX];
  bool defined = !(scene->state->regime & (REGIME_NO_FUEL | REGIME_NO_AIR)) && lambda > 0;

  text_number (defined ? lambda : NAN, 3, text);
  g_snprintf (line, sizeof line, "λ %s", text);
  text_draw (cr, scene, plan, STYLE_LARGE, palette->line, line, x, top, 0);
  text_number (defined ? scene->state->air_fuel_ratio : NAN, 2, text);
  g_snprintf (line, sizeof line, _("air/fuel %s"), text);
  text_draw (cr, scene, plan, STYLE_VALUE, palette->quiet, line, x + 0.1 * large, top + 1.3 * large, 0);
  if (defined) {
    double mark = scale_x (box, lambda), high = box.y - box.height;
    pen_ink (cr, palette->line);
    pen_arrow_head (cr, mark, high, M_PI / 2, 0.32 * large);
    cairo_move_to (cr, mark, high);
    cairo_line_to (cr, mark, box.y);
    cairo_set_line_width (cr, pen_width (scene, plan, WEIGHT_CUT));
    cairo_stroke (cr);
  }
  if (scene->conditions != NULL)
    conditions_draw (cr, scene, plan);
}
