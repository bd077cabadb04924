/* Settling and drawing of labels. A leader is a thin line that ends in a dot on its part (ISO 128). */
#include "scene-labels.h"

#include <glib.h>
#include <math.h>
#include <string.h>

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
find_box (const struct scene *scene, const struct plan *plan, struct label *label, int lines)
{
  double width = 0, height = 0, w, h;

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
}

/* Where the leader leaves the text. */
static void
find_start (const struct scene *scene, const struct plan *plan, struct label *label)
{
  const struct scene_box *box = &label->box;
  double gap = 4 * plan->unit;

  label->start_x = fmin (fmax (label->dot_x, box->x + 3 * gap), box->x + fmax (box->width - 3 * gap, 3 * gap));
  label->start_y = label->y + 0.68 * text_size (scene, plan, STYLE_NAME);
  if (label->leader == LEADER_LEFT)
    label->start_x = box->x - gap;
  else if (label->leader == LEADER_RIGHT)
    label->start_x = box->x + box->width + gap;
  else
    label->start_y = label->leader == LEADER_BELOW ? label->y + box->height + 0.5 * gap : label->y - 0.2 * gap;
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
    if (label->leader != LEADER_NONE
        && (strikes (label, &other->box) || (other->leader != LEADER_NONE && cross (label, other))))
      return false;
  }
  return true;
}

static void
settle (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  struct obstacles obstacles;

  obstacles_find (scene, plan, &obstacles);
  for (int i = 0; i < labels->count; i++) {
    struct label *label = &labels->label[i];
    int lines = 1;

    while (lines < LABEL_LINES && label->line[lines - 1][0] != '\0')
      lines++;
    for (; lines > 0; lines--) {
      find_box (scene, plan, label, lines);
      find_start (scene, plan, label);
      if (fits (scene, labels, i, &obstacles, 2 * plan->unit))
        break;
    }
    label->lines = lines;
  }
}

/* A state whose every value is as wide as values come, the lever part open. */
static void
widest_state (const struct car *car, struct state *state)
{
  *state = (struct state) { .cylinders = car->cylinders, .plate_lift = 0.3 * car->sensor.top_stop, .plate_drop = 8880,
                            .plunger_lift = 8.88e-3, .system_pressure = 8.88e5, .control_pressure = 8.88e5,
                            .control_flow = 88.8 / 3.6e6, .relief_flow = 888 / 3.6e6, .air_flow = 888 / 3600.0,
                            .bimetal_temperature = -88, .bimetal_force = 88.8, .load_position = 8.88e-3 };
  for (int i = 0; i < car->cylinders; i++)
    state->cylinder[i] =
      (struct cylinder_state) { .slot_drop = 0.888e5, .valve_opening = 100e-6, .line_pressure = 8.88e5 };
}

/* What the settling depends on; it is done again only where that has changed. */
struct question {
  struct car car;
  double width, height, type_scale, magnifier;
  unsigned layers;
  bool own_readout, conditions;
  struct unit_choices units;
};

struct answer { struct question question; struct labels settled; bool known; };

static GPrivate answer_key = G_PRIVATE_INIT (g_free);

static void
ask (const struct scene *scene, struct question *question)
{
  memset (question, 0, sizeof *question); /* compared as bytes, gaps included */
  question->car = *scene->car;
  question->width = scene->width;
  question->height = scene->height;
  question->type_scale = scene->type_scale;
  question->magnifier = scene->magnifier;
  question->layers = scene->layers;
  question->own_readout = scene->own_readout;
  question->conditions = scene->conditions != NULL;
  if (scene->units != NULL)
    question->units = *scene->units;
}

static const struct labels *
settled_labels (const struct scene *scene, const struct plan *plan)
{
  struct answer *answer = g_private_get (&answer_key);
  struct scene widest = *scene;
  struct question question;
  struct state state;
  struct pose pose;

  if (answer == NULL) {
    answer = g_new0 (struct answer, 1);
    g_private_set (&answer_key, answer);
  }
  ask (scene, &question);
  if (answer->known && memcmp (&question, &answer->question, sizeof question) == 0)
    return &answer->settled;
  widest_state (scene->car, &state);
  widest.state = &state;
  pose_make (&widest, plan, &pose);
  labels_make (&widest, plan, &pose, &answer->settled);
  settle (&widest, plan, &answer->settled);
  answer->question = question;
  answer->known = true;
  return &answer->settled;
}

void
labels_now (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  const struct labels *settled = settled_labels (scene, plan);

  labels_make (scene, plan, pose, labels);
  for (int i = 0; i < labels->count; i++) {
    labels->label[i].lines = settled->label[i].lines;
    labels->label[i].box = settled->label[i].box;
    find_start (scene, plan, &labels->label[i]);
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
values_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct label *label)
{
  struct ink ink = scene_palette (scene->theme)->line;
  double line = text_size (scene, plan, STYLE_NAME) * 1.3, width, height;

  if (label->inline_value && label->lines > 1) {
    text_extents (scene, plan, STYLE_NAME, label->name, &width, &height);
    width += 0.5 * text_size (scene, plan, STYLE_VALUE);
    text_draw (cr, scene, plan, STYLE_VALUE, ink, label->line[0], label->box.x + width, label->y, 0);
    return;
  }
  for (int i = 1; i < label->lines; i++)
    text_draw (cr, scene, plan, STYLE_VALUE, ink, label->line[i - 1], label->x, label->y + i * line, label->align);
}

void
labels_draw (MOVING_ARGUMENTS)
{
  struct labels labels;

  labels_now (scene, plan, pose, &labels);
  for (int i = 0; i < labels.count; i++)
    if (labels.label[i].lines > 0) {
      leader_draw (cr, scene, plan, &labels.label[i]);
      values_draw (cr, scene, plan, &labels.label[i]);
    }
}

/* The names, which stand still. */
void
labels_draw_still (STILL_ARGUMENTS)
{
  const struct labels *labels = settled_labels (scene, plan);

  for (int i = 0; i < labels->count; i++) {
    const struct label *label = &labels->label[i];
    if (label->lines > 0)
      text_draw (cr, scene, plan, STYLE_NAME, scene_palette (scene->theme)->line, label->name,
                 label->inline_value ? label->box.x : label->x, label->y, label->inline_value ? 0 : label->align);
  }
}
