/* Names and present values on the parts. A leader ends in a dot on its part (ISO 128) and crosses no other part; spots
 * are laid out by hand for each plate direction, so that neither texts nor leaders meet. */
#include "scene-labels.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <math.h>

static struct label *
add (struct labels *labels, const char *name, const struct frame *f, double dot_x, double dot_y)
{
  struct label *label = &labels->label[labels->count++];

  *label = (struct label) { .name = name, .dot_x = PX (f, dot_x), .dot_y = PY (f, dot_y) };
  return label;
}

/* Where the text stands: x is its left end (align 0), middle or right end, y its upper edge. */
static void
put (struct label *label, const struct frame *f, double x, double y, double align, enum leader leader)
{
  label->x = PX (f, x);
  label->y = PY (f, y);
  label->align = align;
  label->leader = leader;
}

#define VALUE(label_, ...) g_snprintf ((label_)->value, sizeof (label_)->value, __VA_ARGS__)

static void
sensor_labels (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  bool lifted = s->opening > 0;
  struct label *label;
  char a[MEASURE_MAX], b[MEASURE_MAX];

  label = add (labels, _("Sensor plate"), f, pose->plate_x + 0.78 * s->plate_radius * cos (pose->angle),
               pose->plate_y + 0.78 * s->plate_radius * sin (pose->angle));
  put (label, f, s->funnel_x + s->inlet_radius + 4, lifted ? -s->inlet_height - 9 : s->inlet_height + 16, 0, LEADER_LEFT);
  text_measure (scene, QUANTITY_LENGTH, scene->state->plate_lift, a);
  text_measure (scene, QUANTITY_PRESSURE_DIFFERENCE, scene->state->plate_drop, b);
  VALUE (label, _("lift %s"), a);
  g_snprintf (label->note, sizeof label->note, _("drop %s"), b);
  label = add (labels, _("Lever"), f, -0.5 * s->plate_arm * cos (pose->angle) + s->opening * -6 * sin (pose->angle),
               -0.5 * s->plate_arm * sin (pose->angle) + s->opening * 6);
  put (label, f, -0.5 * s->plate_arm + 10, lifted ? -8 : -29, 0, LEADER_ABOVE);
  label = add (labels, _("Pivot"), f, 0, lifted ? -0.5 * s->boss_radius : -0.5 * s->boss_radius);
  put (label, f, lifted ? 4 : -3, lifted ? -15 : -24, lifted ? 0 : 1, LEADER_ABOVE);
  label = add (labels, _("Roller"), f, pose->roller_x, pose->roller_y - 0.6 * s->roller_radius);
  put (label, f, s->roller_x - 3, lifted ? -15 : -24, lifted ? 1 : 0, LEADER_ABOVE);
  label = add (labels, _("Balance weight"), f, s->weight_x * cos (pose->angle) - s->weight_y * sin (pose->angle),
               s->weight_x * sin (pose->angle) + s->weight_y * cos (pose->angle) + (lifted ? 5 : -5));
  put (label, f, s->weight_x, lifted ? 17 : -32, 0.5, lifted ? LEADER_BELOW : LEADER_ABOVE);
}

static void
distributor_labels (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct state *state = scene->state;
  const struct cylinder_state *left = &state->cylinder[valve_cylinder (scene, -1)];
  const struct frame *f = &plan->section;
  struct label *label;
  char a[MEASURE_MAX], b[MEASURE_MAX], c[MEASURE_MAX];

  label = add (labels, _("Pressure-difference valve"), f, d->x - d->chamber_x - 0.75 * d->chamber_radius,
               d->diaphragm + 8);
  put (label, f, d->x - d->half_width - 5, d->top + 4, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_PRESSURE_DIFFERENCE, left->slot_drop, a);
  text_micrometres (left->valve_opening, b);
  VALUE (label, _("drop %s, open %s"), a, b);
  text_ratio (d->valve_factor, c);
  g_snprintf (label->note, sizeof label->note, _("opening drawn %s"), c);

  label = add (labels, _("System pressure"), f, d->x - d->half_width - 6, d->ring);
  put (label, f, d->x - d->half_width - 12, d->ring + 20, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_PRESSURE, state->system_pressure, a);
  VALUE (label, "%s", a);

  label = add (labels, _("Control plunger"), f, d->x + plan->sensor.opening * 0.4 * d->plunger_radius, fmin (plan->sensor.deck - 1.5, d->bottom - 5));
  if (plan->sensor.opening > 0)
    put (label, f, d->x + 8, plan->sensor.deck - 2, 0, LEADER_LEFT);
  else
    put (label, f, d->x - 52, plan->sensor.deck - 0.5, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_LENGTH, state->plunger_lift, a);
  text_ratio (d->plunger_factor, b);
  VALUE (label, _("lift %s, drawn %s"), a, b);

  label = add (labels, _("Control orifice"), f, d->x + d->riser_x + 1.8, d->diaphragm + 10);
  put (label, f, d->x + d->union_x + 5, d->diaphragm + 14, 0, LEADER_LEFT);
  text_measure (scene, QUANTITY_VOLUME_FLOW, state->control_flow, a);
  VALUE (label, "%s", a);

  label = add (labels, _("Control pressure"), f, d->x + d->union_x + 26, d->passage);
  put (label, f, d->x + d->union_x + 5, d->passage + 16, 0, LEADER_BELOW);
  text_measure (scene, QUANTITY_PRESSURE, state->control_pressure, a);
  VALUE (label, "%s", a);

  label = add (labels, _("Damper"), f, d->x + d->union_x + 49, d->passage - 6);
  put (label, f, d->x + d->union_x + 45, d->passage - 8.2, 0, LEADER_NONE);

  label = add (labels, _("System pressure regulator"), f, d->x + d->regulator_end - 3, d->ring + 6.3);
  put (label, f, d->x + d->regulator_end + 6, d->ring + 14.5, 0, LEADER_LEFT);
  text_measure (scene, QUANTITY_VOLUME_FLOW, state->relief_flow, a);
  VALUE (label, _("returns %s"), a);
}

static void
column_labels (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  const struct warmup_plan *w = &plan->regulator;
  const struct state *state = scene->state;
  const struct frame *f = &plan->warmup;
  struct label *label;
  char a[MEASURE_MAX], b[MEASURE_MAX];

  label = add (labels, _("Bimetal strip"), f, w->clamp_x - 0.06 * w->strip_length, w->strip_y + w->strip_thickness / 2);
  put (label, f, w->width + 4, w->strip_y + 1, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_TEMPERATURE, state->bimetal_temperature, a);
  text_measure (scene, QUANTITY_FORCE, state->bimetal_force, b);
  VALUE (label, _("%s, presses %s"), a, b);
  if (w->load_stage) {
    label = add (labels, _("Load diaphragm"), f, w->width - 14, w->lower_stop + 9.5);
    put (label, f, w->width + 4, w->lower_stop + 22, 1, LEADER_RIGHT);
    text_measure (scene, QUANTITY_LENGTH, state->load_position, a);
    text_ratio (w->load_factor, b);
    VALUE (label, _("up %s, drawn %s"), a, b);
  }
  label = add (labels, _("Warm-up regulator"), f, w->width - 2.5, 3);
  put (label, f, w->width + 4, 5.5, 1, LEADER_RIGHT);
  label = add (labels, _("Nozzles"), &plan->nozzles, nozzle_x (0, plan) - 2.6, -8.5);
  put (label, &plan->nozzles, -2, -3, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_PRESSURE, state->cylinder[0].line_pressure, a);
  VALUE (label, "%s", a);
}

void
labels_make (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  labels->count = 0;
  sensor_labels (scene, plan, pose, labels);
  distributor_labels (scene, plan, pose, labels);
  column_labels (scene, plan, pose, labels);
  for (int i = 0; i < labels->count; i++) {
    struct label *label = &labels->label[i];
    const char *lines[] = { label->name, label->value, label->note };
    double width, height;

    label->box = (struct scene_box) { 0, label->y, 0, 0 };
    for (int line = 0; line < 3 && lines[line][0] != '\0'; line++) {
      text_extents (scene, plan, line == 0 ? STYLE_NAME : STYLE_VALUE, lines[line], &width, &height);
      label->box.width = fmax (label->box.width, width);
      label->box.height += height;
    }
    label->box.x = label->x - label->align * label->box.width;
  }
}

static void
leader_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct label *label)
{
  double x = label->box.x, y = label->box.y + 0.65 * text_size (scene, plan, STYLE_NAME), gap = 4 * plan->unit;
  struct scene_box box = label->box;

  switch (label->leader) {
  case LEADER_LEFT: x -= gap; break;
  case LEADER_RIGHT: x += box.width + gap; break;
  case LEADER_ABOVE: x += fmin (fmax (label->dot_x - x, 4 * gap), box.width - 4 * gap); y = box.y - 0.3 * gap; break;
  case LEADER_ABOVE_START: x += 2 * gap; y = box.y - 0.3 * gap; break;
  case LEADER_BELOW: x += fmin (fmax (label->dot_x - x, 4 * gap), box.width - 4 * gap); y = box.y + box.height + 0.3 * gap; break;
  default: return;
  }
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, label->dot_x, label->dot_y);
  pen_ink (cr, scene_palette (scene->theme)->line);
  cairo_set_line_width (cr, 1.4 * pen_width (scene, plan, WEIGHT_THIN));
  cairo_stroke (cr);
  cairo_arc (cr, label->dot_x, label->dot_y, 2.1 * fmax (plan->unit, 0.8), 0, 2 * G_PI);
  cairo_fill (cr);
}

void
labels_draw (MOVING_ARGUMENTS)
{
  const struct palette *palette = scene_palette (scene->theme);
  struct labels labels;

  labels_make (scene, plan, pose, &labels);
  for (int i = 0; i < labels.count; i++) {
    const struct label *label = &labels.label[i];
    double line = text_size (scene, plan, STYLE_NAME) * 1.3;
    leader_draw (cr, scene, plan, label);
    text_draw (cr, scene, plan, STYLE_NAME, palette->line, label->name, label->x, label->y, label->align);
    text_draw (cr, scene, plan, STYLE_VALUE, palette->line, label->value, label->x, label->y + line, label->align);
    text_draw (cr, scene, plan, STYLE_VALUE, palette->line, label->note, label->x, label->y + 2 * line, label->align);
  }
}
