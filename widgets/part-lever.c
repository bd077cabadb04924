/* Lever with hub, roller, pivot and balance weight: not cut, as solid parts along their axis are not (ISO 128). */
#include "scene-parts.h"

#include <math.h>

/* A place on the lever, given where it lies at lift 0. */
static void
turned (const struct pose *pose, double x, double y, double *px, double *py)
{
  *px = x * cos (pose->angle) - y * sin (pose->angle);
  *py = x * sin (pose->angle) + y * cos (pose->angle);
}

/* All contours that make one outline must run the same way round: backwards turns a mirrored one. */
static void
turned_polygon (cairo_t *cr, const struct plan *plan, const struct pose *pose, const double (*points)[2], int count,
                bool backwards)
{
  for (int i = 0; i < count; i++) {
    int k = backwards ? count - 1 - i : i;
    double x, y;
    turned (pose, points[k][0], points[k][1], &x, &y);
    if (i == 0)
      pen_move (cr, &plan->section, x, y);
    else
      pen_line (cr, &plan->section, x, y);
  }
  cairo_close_path (cr);
}

/* Long arm, cranked from under (or over) the plate to the boss; all points in one turning sense. */
static void
arm_path (cairo_t *cr, const struct plan *plan, const struct pose *pose)
{
  const struct sensor_plan *s = &plan->sensor;
  double side = s->opening, near = side * LEVER_HUB, far = side * (LEVER_HUB + LEVER_HEIGHT), a = -s->plate_arm;
  double boss = s->boss_radius;
  const double arm[][2] = { { a - 9, near },
                            { a + 30, near },
                            { -boss * 2, -side * 0.15 * boss },
                            { 0, -side * 0.72 * boss },
                            { 0, side * 0.8 * boss },
                            { -boss * 1.2, side * 0.8 * boss },
                            { a + 34, far },
                            { a - 6, far } };
  const double hub[][2] = { { a - 5, side * s->plate_thickness },
                            { a + 5, side * s->plate_thickness },
                            { a + 5, near + side },
                            { a - 5, near + side } };

  turned_polygon (cr, plan, pose, arm, 8, side > 0);
  turned_polygon (cr, plan, pose, hub, 4, side > 0);
}

/* Short arm to roller or weight. */
static void
short_arm_path (cairo_t *cr, const struct plan *plan, const struct pose *pose)
{
  const struct sensor_plan *s = &plan->sensor;
  double end = s->weight_x, low = s->weight_y, r = s->roller_radius * 0.72;
  const double arm[][2] = {
    { 0, 0.7 * s->boss_radius }, { fmax (s->roller_x, 0), r },      { end - 4, low + 6 },
    { end - 4, low - 2 },        { fmax (s->roller_x, 0), -r - 1 }, { 0, -0.7 * s->boss_radius }
  };

  turned_polygon (cr, plan, pose, arm, 6, false);
  if (s->roller_x > 0) {
    double x, y;
    turned (pose, s->roller_x, 0, &x, &y);
    pen_circle (cr, &plan->section, x, y, r);
  }
}

/* Head of the bolt that holds the plate, on its upstream face. */
static void
bolt_path (cairo_t *cr, const struct plan *plan, const struct pose *pose)
{
  const struct sensor_plan *s = &plan->sensor;
  double up = -s->opening, a = -s->plate_arm;
  const double head[][2] = { { a - 3, 0 }, { a - 2.2, up * 2 }, { a + 2.2, up * 2 }, { a + 3, 0 } };

  turned_polygon (cr, plan, pose, head, 4, false);
}

void
weight_outline (MOVING_ARGUMENTS)
{
  const struct sensor_plan *s = &plan->sensor;
  double w = s->weight_width / 2, h = s->weight_height / 2, x = s->weight_x, y = s->weight_y;
  const double box[][2] = { { x - w + 2, y + h }, { x + w - 3, y + h }, { x + w, y + h - 3 }, { x + w, y - h + 3 },
                            { x + w - 3, y - h }, { x - w + 2, y - h }, { x - w, y - h + 2 }, { x - w, y + h - 2 } };

  turned_polygon (cr, plan, pose, box, 8, false);
}

void
lever_outline (MOVING_ARGUMENTS)
{
  arm_path (cr, plan, pose);
  short_arm_path (cr, plan, pose);
  pen_circle (cr, &plan->section, 0, 0, plan->sensor.boss_radius);
}

void
lever_whole_outline (MOVING_ARGUMENTS)
{
  double arm[4][2], screw[8][2];

  screw_points (plan, arm, screw);
  lever_outline (cr, scene, plan, pose);
  turned_polygon (cr, plan, pose, arm, 4, false);
  turned_polygon (cr, plan, pose, screw, 8, false);
  bolt_path (cr, plan, pose);
}

void
roller_outline (MOVING_ARGUMENTS)
{
  pen_circle (cr, &plan->section, pose->roller_x, pose->roller_y, plan->sensor.roller_radius);
}

static void
pivot_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  double boss = plan->sensor.boss_radius, reach = boss + 2.5;

  pen_circle (cr, &plan->section, 0, 0, 0.62 * boss);
  pen_body (cr, scene, plan, palette->metal, WEIGHT_EDGE);
  pen_circle (cr, &plan->section, 0, 0, 0.42 * boss);
  pen_body (cr, scene, plan, palette->paper, WEIGHT_CUT);
  pen_move (cr, &plan->section, -reach, 0);
  pen_line (cr, &plan->section, reach, 0);
  pen_move (cr, &plan->section, 0, -reach);
  pen_line (cr, &plan->section, 0, reach);
  pen_ink (cr, palette->line);
  cairo_set_line_width (cr, pen_width (scene, plan, WEIGHT_THIN));
  cairo_stroke (cr);
}

/* The mixture screw and the small arm that it sets, behind the lever. */
static void
setting_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct pose *pose)
{
  const struct palette *palette = scene_palette (scene->theme);
  double arm[4][2], screw[8][2];

  screw_points (plan, arm, screw);
  turned_polygon (cr, plan, pose, arm, 4, false);
  pen_body (cr, scene, plan, palette->weight, WEIGHT_EDGE);
  turned_polygon (cr, plan, pose, screw, 8, false);
  pen_body (cr, scene, plan, palette->weight, WEIGHT_EDGE);
}

void
lever_draw (MOVING_ARGUMENTS)
{
  const struct palette *palette = scene_palette (scene->theme);

  weight_outline (cr, scene, plan, pose);
  pen_body (cr, scene, plan, palette->weight, WEIGHT_CUT);
  setting_draw (cr, scene, plan, pose);
  lever_outline (cr, scene, plan, pose);
  pen_union (cr, scene, plan, palette->moving, WEIGHT_CUT);
  roller_outline (cr, scene, plan, pose);
  pen_body (cr, scene, plan, palette->paper, WEIGHT_CUT);
  pen_circle (cr, &plan->section, pose->roller_x, pose->roller_y, 0.35 * plan->sensor.roller_radius);
  pen_body (cr, scene, plan, palette->line, WEIGHT_EDGE);
  pivot_draw (cr, scene, plan);
  bolt_path (cr, plan, pose);
  pen_body (cr, scene, plan, palette->moving, WEIGHT_EDGE);
}
