/* Settling and drawing of labels. A leader is a thin line that ends in a dot on its part (ISO 128). */
#include "scene-labels.h"

#include <math.h>

#define OBSTACLES_MAX 40

struct obstacles { struct scene_box box[OBSTACLES_MAX]; int count; };

static bool
meet (const struct scene_box *a, const struct scene_box *b, double gap)
{
  return a->x < b->x + b->width + gap && b->x < a->x + a->width + gap && a->y < b->y + b->height + gap
         && b->y < a->y + a->height + gap;
}

static double
turn (double ax, double ay, double bx, double by, double cx, double cy)
{
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
}

static bool
cross (const struct label *a, const struct label *b)
{
  return turn (a->start_x, a->start_y, a->dot_x, a->dot_y, b->start_x, b->start_y)
         * turn (a->start_x, a->start_y, a->dot_x, a->dot_y, b->dot_x, b->dot_y) < 0
         && turn (b->start_x, b->start_y, b->dot_x, b->dot_y, a->start_x, a->start_y)
         * turn (b->start_x, b->start_y, b->dot_x, b->dot_y, a->dot_x, a->dot_y) < 0;
}

/* Whether a leader runs through a text. */
static bool
strikes (const struct label *leader, const struct scene_box *box)
{
  for (int i = 0; i <= 32; i++) {
    double x = leader->start_x + (leader->dot_x - leader->start_x) * i / 32;
    double y = leader->start_y + (leader->dot_y - leader->start_y) * i / 32;
    if (x > box->x && x < box->x + box->width && y > box->y && y < box->y + box->height)
      return true;
  }
  return false;
}

static void
block (struct obstacles *obstacles, double x1, double y1, double x2, double y2)
{
  if (obstacles->count < OBSTACLES_MAX)
    obstacles->box[obstacles->count++] = (struct scene_box) { fmin (x1, x2), fmin (y1, y2), fabs (x2 - x1), fabs (y2 - y1) };
}

static void
block_lines (const struct scene *scene, const struct plan *plan, struct obstacles *obstacles)
{
  double half = plan->section.scale;

  for (int line = 0; line < LINES; line++) {
    struct route route;
    line_route (scene, plan, (enum line) line, &route);
    for (int i = 1; i < route.count; i++)
      block (obstacles, fmin (route.point[i - 1][0], route.point[i][0]) - half, fmin (route.point[i - 1][1], route.point[i][1]) - half,
             fmax (route.point[i - 1][0], route.point[i][0]) + half, fmax (route.point[i - 1][1], route.point[i][1]) + half);
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
  block (obstacles, PX (f, d->x + d->regulator_x), PY (f, d->ring + 9), PX (f, d->x + d->regulator_end), PY (f, d->ring - 9));
  block (obstacles, PX (f, d->x + d->corner + 2), PY (f, d->passage + 7), PX (f, d->x + d->corner + 14), PY (f, d->passage - 7));
  block (obstacles, PX (w, 0), PY (w, 0), PX (w, plan->regulator.width), PY (w, plan->regulator.height));
  block (obstacles, PX (n, nozzle_x (0, plan) - 3), PY (n, -1), PX (n, right), PY (n, -33));
  for (unsigned i = 0; i < sizeof boxes / sizeof boxes[0]; i++)
    if (boxes[i].width > 0)
      obstacles->box[obstacles->count++] = boxes[i];
}

/* Box of the first lines of a label and where its leader starts. */
static void
measure (const struct scene *scene, const struct plan *plan, struct label *label, int lines)
{
  double width = 0, height = 0, w, h, gap = 4 * plan->unit;

  for (int i = 0; i < lines; i++) {
    text_extents (scene, plan, i == 0 ? STYLE_NAME : STYLE_VALUE, i == 0 ? label->name : label->line[i - 1], &w, &h);
    if (label->inline_value && i == 1) {
      width += w + 0.5 * text_size (scene, plan, STYLE_VALUE);
      continue;
    }
    width = fmax (width, w);
    height += h;
  }
  label->lines = lines;
  label->box = (struct scene_box) { label->x - label->align * width, label->y, width, height };
  label->start_x = fmin (fmax (label->dot_x, label->box.x + 3 * gap), label->box.x + fmax (width - 3 * gap, 3 * gap));
  label->start_y = label->y + 0.68 * text_size (scene, plan, STYLE_NAME);
  if (label->leader == LEADER_LEFT)
    label->start_x = label->box.x - gap;
  else if (label->leader == LEADER_RIGHT)
    label->start_x = label->box.x + width + gap;
  else
    label->start_y = label->leader == LEADER_BELOW ? label->y + height + 0.5 * gap : label->y - 0.2 * gap;
}

static bool
fits (const struct scene *scene, const struct labels *labels, int index, const struct obstacles *obstacles, double gap)
{
  const struct label *label = &labels->label[index];
  const struct scene_box *box = &label->box;

  if (box->x < 0 || box->y < 0 || box->x + box->width > scene->width || box->y + box->height > scene->height)
    return false;
  for (int i = 0; i < obstacles->count; i++)
    if (meet (box, &obstacles->box[i], 0))
      return false;
  for (int i = 0; i < index; i++) {
    const struct label *other = &labels->label[i];
    if (other->lines == 0)
      continue;
    if (meet (box, &other->box, gap) || (other->leader != LEADER_NONE && strikes (other, box)))
      return false;
    if (label->leader != LEADER_NONE && (strikes (label, &other->box) || (other->leader != LEADER_NONE && cross (label, other))))
      return false;
  }
  return true;
}

void
labels_settle (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  struct obstacles obstacles = { .count = 0 };

  block_parts (scene, plan, &obstacles);
  block_lines (scene, plan, &obstacles);
  for (int i = 0; i < labels->count; i++) {
    struct label *label = &labels->label[i];
    int lines = 1;

    while (lines < LABEL_LINES && label->line[lines - 1][0] != '\0')
      lines++;
    for (; lines > 0; lines--) {
      measure (scene, plan, label, lines);
      if (fits (scene, labels, i, &obstacles, 2 * plan->unit))
        break;
    }
    label->lines = lines;
  }
}

static void
leader_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct label *label)
{
  if (label->leader == LEADER_NONE)
    return;
  cairo_move_to (cr, label->start_x, label->start_y);
  cairo_line_to (cr, label->dot_x, label->dot_y);
  pen_ink (cr, scene_palette (scene->theme)->line);
  cairo_set_line_width (cr, 1.4 * pen_width (scene, plan, WEIGHT_THIN));
  cairo_stroke (cr);
  cairo_arc (cr, label->dot_x, label->dot_y, 2.1 * fmax (plan->unit, 0.8), 0, 6.2832);
  cairo_fill (cr);
}

static void
label_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct label *label)
{
  struct ink ink = scene_palette (scene->theme)->line;
  double line = text_size (scene, plan, STYLE_NAME) * 1.3, y = label->y;

  leader_draw (cr, scene, plan, label);
  if (label->inline_value && label->lines > 1) {
    text_draw (cr, scene, plan, STYLE_NAME, ink, label->name, label->box.x, y, 0);
    text_draw (cr, scene, plan, STYLE_VALUE, ink, label->line[0], label->box.x + label->box.width, y, 1);
    return;
  }
  text_draw (cr, scene, plan, STYLE_NAME, ink, label->name, label->x, y, label->align);
  for (int i = 1; i < label->lines; i++)
    text_draw (cr, scene, plan, STYLE_VALUE, ink, label->line[i - 1], label->x, y + i * line, label->align);
}

void
labels_draw (MOVING_ARGUMENTS)
{
  struct labels labels;

  labels_make (scene, plan, pose, &labels);
  labels_settle (scene, plan, &labels);
  for (int i = 0; i < labels.count; i++)
    if (labels.label[i].lines > 0)
      label_draw (cr, scene, plan, &labels.label[i]);
}
