/* What labels must keep clear of. */
#include "scene-labels.h"

#include <math.h>

static void
block (struct obstacles *obstacles, double x1, double y1, double x2, double y2)
{
  if (obstacles->count < OBSTACLES_MAX)
    obstacles->box[obstacles->count++] =
      (struct scene_box) { fmin (x1, x2), fmin (y1, y2), fabs (x2 - x1), fabs (y2 - y1) };
}

static void
block_lines (const struct scene *scene, const struct plan *plan, struct obstacles *obstacles)
{
  double half = plan->section.scale;

  for (int line = 0; line < LINES; line++) {
    struct route route;
    line_route (scene, plan, (enum line) line, &route);
    for (int i = 1; i < route.count; i++)
      block (obstacles, fmin (route.point[i - 1][0], route.point[i][0]) - half,
             fmin (route.point[i - 1][1], route.point[i][1]) - half,
             fmax (route.point[i - 1][0], route.point[i][0]) + half,
             fmax (route.point[i - 1][1], route.point[i][1]) + half);
  }
}

/* Walls of the sensor housing. */
static void
block_housing (const struct plan *plan, struct obstacles *obstacles)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  double edge = s->funnel_x + s->inlet_radius + s->wall + 1, out = s->funnel_x + s->outlet_radius + s->wall;
  double top = s->opening > 0 ? s->outlet_depth : s->inlet_height, land = s->opening * s->window_depth;
  double low = s->opening > 0 ? s->floor - s->wall : -s->outlet_depth;

  block (obstacles, PX (f, s->left), PY (f, fmin (top, s->inlet_height)), PX (f, s->funnel_x - s->radius[0]),
         PY (f, s->opening > 0 ? -s->inlet_height : low));
  block (obstacles, PX (f, s->opening > 0 ? out : edge), PY (f, s->base), PX (f, s->right), PY (f, s->deck));
  block (obstacles, PX (f, s->funnel_x + s->outlet_radius), PY (f, s->floor), PX (f, s->right), PY (f, low));
  block (obstacles, PX (f, s->right - s->wall), PY (f, s->base), PX (f, s->right), PY (f, low));
  if (s->opening > 0) {
    block (obstacles, PX (f, s->funnel_x + s->radius[0]), PY (f, land), PX (f, edge + 12), PY (f, low));
    block (obstacles, PX (f, s->funnel_x + s->outlet_radius), PY (f, top), PX (f, out + 8), PY (f, s->deck));
  } else {
    block (obstacles, PX (f, s->funnel_x + s->radius[0]), PY (f, top), PX (f, edge + 1), PY (f, land));
    block (obstacles, PX (f, edge), PY (f, s->deck), PX (f, edge + 8), PY (f, land));
  }
}

/* Numbers of the layers of forces and dimensions, which stand where they must. */
static void
block_numbers (const struct scene *scene, const struct plan *plan, struct obstacles *obstacles)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  double line = 1.3 * text_size (scene, plan, STYLE_VALUE), side = s->opening > 0 ? -1 : 1, number = 3.6 * line;
  double x = PX (f, plan->distributor.x + side * 6), boss = PY (f, -s->boss_radius - 2);

  if (scene->layers & LAYER_DIMENSIONS) {
    block (obstacles, PX (f, -s->plate_arm), PY (f, plan->under - 7) - line, PX (f, 25), PY (f, plan->under - 7));
    block (obstacles, PX (f, -s->plate_arm - s->plate_radius), PY (f, plan->under - 14) - line,
           PX (f, -s->plate_arm + s->plate_radius), PY (f, plan->under - 14));
  }
  if (scene->layers & LAYER_FORCES) {
    block (obstacles, x, PY (f, s->deck - 1.5), x + side * number, PY (f, s->deck - 1.5) + line);
    block (obstacles, PX (f, 0), boss, PX (f, side * 1.8) + side * number, boss + line);
    block (obstacles, PX (f, -1), boss, PX (f, 1), PY (f, s->floor));
    block (obstacles, PX (f, s->roller_arm + 8), PY (f, plan->under - 3), PX (f, s->roller_arm + 8) + 17 * line,
           PY (f, plan->under - 3) + 3 * line);
  }
}

static void
block_parts (const struct scene *scene, const struct plan *plan, struct obstacles *obstacles)
{
  const struct frame *f = &plan->section, *w = &plan->warmup, *n = &plan->nozzles;
  const struct distributor_plan *d = &plan->distributor;
  double body = d->barrel_radius + 6, right = nozzle_x (scene->car->cylinders - 1, plan) + 3;
  struct scene_box boxes[] = { plan->slots, plan->legend, plan->readout };

  block (obstacles, PX (f, d->x - d->half_width), PY (f, d->top), PX (f, d->x + d->union_x), PY (f, d->bottom));
  block (obstacles, PX (f, d->x - body), PY (f, d->cap_top), PX (f, d->x + body), PY (f, d->top));
  block (obstacles, PX (f, d->x + d->regulator_x), PY (f, d->ring + 9), PX (f, d->x + d->regulator_end),
         PY (f, d->ring - 9));
  block (obstacles, PX (f, d->x + d->corner + 2), PY (f, d->passage + 7), PX (f, d->x + d->corner + 14),
         PY (f, d->passage - 7));
  block (obstacles, PX (w, 0), PY (w, 0), PX (w, plan->regulator.width), PY (w, plan->regulator.height));
  block (obstacles, PX (w, plan->regulator.width), PY (w, plan->regulator.vacuum_y + 2),
         PX (w, plan->regulator.width + 8), PY (w, plan->regulator.vacuum_y - 2));
  block (obstacles, PX (n, nozzle_x (0, plan) - 3), PY (n, -1), PX (n, right), PY (n, -33));
  for (unsigned i = 0; i < sizeof boxes / sizeof boxes[0]; i++)
    if (boxes[i].width > 0)
      obstacles->box[obstacles->count++] = boxes[i];
}

void
obstacles_find (const struct scene *scene, const struct plan *plan, struct obstacles *obstacles)
{
  obstacles->count = 0;
  block_parts (scene, plan, obstacles);
  block_housing (plan, obstacles);
  block_numbers (scene, plan, obstacles);
  block_lines (scene, plan, obstacles);
}
