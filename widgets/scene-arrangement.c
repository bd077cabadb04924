/* The arrangement on the area: the section, and beside or under it the warm-up regulator and the nozzles. */
#include "scene-plan.h"

#include "scene-text.h"

#include <math.h>

#define COLUMN_GAP 14.0
#define LABEL_ROOM 42.0        /* for texts left of the warm-up regulator */
#define LEGEND_ROOM 14.0       /* under the section */
#define LINES_ROOM 31.0        /* over the distributor's body: unions, cap and nozzle lines */
#define MARGIN 16.0            /* px at unit 1 */

/* Extent of a drawing in the section's millimetres: the section itself, then either a column beside it or a row
 * under it, whichever comes out larger. */
struct sheet { double left, right, bottom, top, under; };

static double
row_width (const struct scene *scene, const struct plan *plan)
{
  return plan->nozzle_pitch * scene->car->cylinders;
}

static struct sheet
section_sheet (const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct sensor_plan *s = &plan->sensor;
  double under = fmin (s->floor - PLAN_WALL, s->opening < 0 ? -s->outlet_depth : -s->inlet_height);

  return (struct sheet) { s->left, d->x + d->regulator_end, under - LEGEND_ROOM, d->top + LINES_ROOM, under };
}

static struct sheet
beside_sheet (const struct scene *scene, const struct plan *plan)
{
  struct sheet sheet = section_sheet (plan);

  sheet.right = fmax (sheet.right + 8, plan->sensor.right + LABEL_ROOM) + COLUMN_GAP;
  sheet.right += fmax (plan->regulator.width, row_width (scene, plan)) + 2;
  sheet.bottom = fmin (sheet.bottom, plan->distributor.bottom + 8 - plan->regulator.height);
  return sheet;
}

static struct sheet
stacked_sheet (const struct plan *plan)
{
  struct sheet sheet = section_sheet (plan);

  sheet.right += 36;
  sheet.bottom = sheet.under - 16 - plan->regulator.height;
  return sheet;
}

static double
sheet_scale (const struct scene *scene, const struct plan *plan, const struct sheet *sheet, double strip)
{
  double margin = MARGIN * plan->unit;

  return fmin ((scene->width - 2 * margin) / (sheet->right - sheet->left),
               (scene->height - 1.2 * margin - strip) / (sheet->top - sheet->bottom));
}

static struct frame
frame_at (const struct frame *section, double x, double y, double side)
{
  return (struct frame) { PX (section, x), PY (section, y), section->scale, side };
}

static void
plan_frames (const struct scene *scene, struct plan *plan, const struct sheet *sheet)
{
  struct distributor_plan *d = &plan->distributor;
  double row = row_width (scene, plan), column;

  plan->under = sheet->under;
  if (plan->stacked) {
    d->corner = d->regulator_end + 10;
    plan->nozzles = frame_at (&plan->section, sheet->right - row - 2, sheet->under - 24, 1);
    plan->warmup = frame_at (&plan->section, sheet->right - row - 14, sheet->bottom, -1);
    return;
  }
  d->corner = d->regulator_end;
  column = sheet->right - 2 - fmax (plan->regulator.width, row);
  plan->nozzles = frame_at (&plan->section, column + fmax (0, plan->regulator.width - row) / 2, sheet->top - 8, 1);
  plan->warmup = frame_at (&plan->section, column + plan->regulator.width, d->bottom + 8 - plan->regulator.height, -1);
}

static void
plan_place (const struct scene *scene, struct plan *plan)
{
  struct sheet beside = beside_sheet (scene, plan), under = stacked_sheet (plan), *sheet = &beside;
  double margin = MARGIN * plan->unit, strip = scene->own_readout ? fmin (0.24 * scene->height, 190 * plan->unit) : 0;
  double scale = sheet_scale (scene, plan, &beside, strip), spare, top;

  plan->stacked = sheet_scale (scene, plan, &under, 0) > scale;
  if (plan->stacked) {
    sheet = &under;
    strip = 0;
    scale = sheet_scale (scene, plan, &under, 0);
  }
  spare = scene->height - 1.2 * margin - strip - (sheet->top - sheet->bottom) * scale;
  top = 0.6 * margin + spare / 2;
  plan->section = (struct frame) { (scene->width - (sheet->right + sheet->left) * scale) / 2, top + sheet->top * scale,
                                   scale, 1 };
  plan_frames (scene, plan, sheet);
  if (!scene->own_readout)
    return;
  plan->readout = (struct scene_box) { margin, scene->height - margin - strip, scene->width - 2 * margin, strip };
  if (plan->stacked)
    plan->readout = (struct scene_box) { PX (&plan->section, sheet->left), PY (&plan->section, sheet->under - 26),
                                        PX (&plan->warmup, plan->regulator.width + LABEL_ROOM + 12)
                                          - PX (&plan->section, sheet->left),
                                        (sheet->under - 26 - sheet->bottom) * scale };
}

static void
plan_insets (const struct scene *scene, struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;
  const struct distributor_plan *d = &plan->distributor;
  double left = PX (&plan->section, s->left), letter = text_size (scene, plan, STYLE_NAME) / 12.5; /* 1 at unit 1 */
  double right = fmin (PX (&plan->section, s->funnel_x + s->inlet_radius - 5),
                       PX (&plan->section, d->x - d->half_width - 5) - 180 * letter);
  double least = fmin (left + 190 * letter, PX (&plan->section, d->x - d->half_width - 15));
  double bottom = PY (&plan->section, (s->opening > 0 ? s->outlet_depth : s->inlet_height) + 12);
  double top = PY (&plan->section, d->top + 31);

  right = fmax (right, least); /* the inset comes before the labels beside it */
  plan->slots = (struct scene_box) { left, top, right - left, bottom - top };
  plan->legend = (struct scene_box) { PX (&plan->section, d->x - d->half_width - 8) - 150 * plan->unit,
                                      PY (&plan->section, d->top + 30), 130 * plan->unit, 9 * plan->unit };
}

void
plan_arrange (const struct scene *scene, struct plan *plan)
{
  plan->nozzle_pitch = 9;
  plan_place (scene, plan);
  plan_insets (scene, plan);
}
