#include "scene-pressure.h"

#include "scene-text.h"

#include <glib/gi18n.h>
#include <math.h>

/* Entries 0, 16, 32 .. 240 and 255 of the map's 256; between them straight lines, within 3/255 of it. */
static const unsigned char table[][3] = {
  { 0, 34, 78 },     { 0, 46, 106 },    { 26, 56, 111 },   { 50, 67, 109 },   { 67, 78, 108 },  { 83, 90, 109 },
  { 97, 101, 111 },  { 111, 112, 115 }, { 125, 124, 120 }, { 140, 136, 120 }, { 155, 148, 118 }, { 171, 160, 114 },
  { 188, 174, 108 }, { 205, 187, 99 },  { 222, 201, 88 },  { 240, 216, 70 },  { 254, 232, 56 },
};

#define STEP (16 / 255.0)
#define LAST ((int) (sizeof table / sizeof table[0]) - 1)

struct ink
cividis (double share)
{
  double within = fmin (fmax (share, 0), 1), part;
  int i = (int) fmin (floor (within / STEP), LAST - 1);
  double colour[3];

  part = (within - i * STEP) / (i == LAST - 1 ? 1 - i * STEP : STEP);
  for (int c = 0; c < 3; c++)
    colour[c] = (table[i][c] + part * (table[i + 1][c] - table[i][c])) / 255.0;
  return (struct ink) { colour[0], colour[1], colour[2] };
}

double
pressure_scale_end (const struct car *car)
{
  return ceil (car->supply.regulator_opening * 1.15 / 1e5) * 1e5;
}

struct ink
pressure_ink (const struct scene *scene, double pressure)
{
  if (scene->layers & LAYER_PRESSURES)
    return cividis (pressure / pressure_scale_end (scene->car));
  return scene_palette (scene->theme)->window;
}

void
pressure_scale_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  struct scene_box box = plan->legend;
  double end = pressure_scale_end (scene->car);
  double size = text_size (scene, plan, STYLE_SMALL);
  const struct unit *unit = text_unit (scene, QUANTITY_PRESSURE);
  double title, width, height;
  int steps = (int) lround (end / 1e5);
  char text[MEASURE_MAX];

  for (int i = 0; i < 64; i++) {
    cairo_rectangle (cr, box.x + i * box.width / 64, box.y, box.width / 64 + 0.5, box.height);
    pen_ink (cr, cividis ((i + 0.5) / 64));
    cairo_fill (cr);
  }
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  for (int i = 0; i <= steps; i++) {
    cairo_move_to (cr, box.x + i * box.width / steps, box.y + box.height);
    cairo_rel_line_to (cr, 0, 0.4 * box.height);
  }
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
  for (int i = 0; i <= steps; i++) {
    double x = box.x + i * box.width / steps;
    if (i < steps)
      text_number (unit_from_si (unit, i * 1e5), 0, text);
    else
      text_whole (scene, QUANTITY_PRESSURE, i * 1e5, text);
    text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, text, i < steps ? x : x - 0.35 * size,
               box.y + 1.45 * box.height, i < steps ? 0.5 : 0);
  }
  text_extents (scene, plan, STYLE_NAME, SLOTS_TITLE, &title, &height);
  text_extents (scene, plan, STYLE_SMALL, _("fuel pressure"), &width, &height);
  if (box.x - size - width < plan->slots.x + title + size)
    return;
  text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, _("fuel pressure"), box.x - size,
             box.y + 0.5 * box.height - 0.68 * size, 1);
}
