/* Names and present values on the parts: what each label says and where it stands. Spots are chosen by hand for either
 * plate direction and arrangement, so that leaders enter a part from outside and pass through no other. */
#include "scene-labels.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <math.h>

#define SAY(label_, line_, ...) g_snprintf ((label_)->line[line_], sizeof (label_)->line[line_], __VA_ARGS__)

static struct label *
add (struct labels *labels, const char *name, const struct frame *f, double dot_x, double dot_y)
{
  struct label *label = &labels->label[labels->count++];

  *label = (struct label) { .name = name, .dot_x = PX (f, dot_x), .dot_y = PY (f, dot_y) };
  return label;
}

static void
put (struct label *label, const struct frame *f, double x, double y, double align, enum leader leader)
{
  label->x = PX (f, x);
  label->y = PY (f, y);
  label->align = align;
  label->leader = leader;
}

static void
measure (const struct scene *scene, struct label *label, int line, enum quantity quantity, double si)
{
  char text[MEASURE_MAX];

  text_measure (scene, quantity, si, text);
  SAY (label, line, "%s", text);
}

static void
plate_label (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  double along = 0.78 * s->plate_radius;
  struct label *label = add (labels, _("Sensor plate"), f, pose->plate_x + along * cos (pose->angle),
                             pose->plate_y + along * sin (pose->angle));
  char text[MEASURE_MAX];

  put (label, f, s->funnel_x + s->inlet_radius - (s->opening > 0 ? -3 : 4),
       s->opening > 0 ? fmin (-s->inlet_height - 9, plan->under - 1.5) : s->inlet_height + 18.8, 0, LEADER_LEFT);
  text_measure (scene, QUANTITY_LENGTH, scene->state->plate_lift, text);
  SAY (label, 0, _("lift %s"), text);
  text_measure (scene, QUANTITY_PRESSURE_DIFFERENCE, scene->state->plate_drop, text);
  SAY (label, 1, _("drop %s"), text);
}

static void
air_label (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  struct label *label =
    add (labels, _("Air"), f, s->funnel_x - 0.6 * s->inlet_radius, -s->opening * (s->inlet_height - 2));

  label->inline_value = true;
  measure (scene, label, 0, QUANTITY_MASS_FLOW, scene->state->air_flow);
  if (s->opening > 0)
    put (label, f, s->left, -s->inlet_height - 3.5, 0, LEADER_ABOVE);
  else
    put (label, f, s->left, s->inlet_height + 8, 0, LEADER_BELOW);
}

static void
lever_labels (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  bool lifted = s->opening > 0;
  double along = -(lifted ? 0.42 : 0.3) * s->plate_arm, c = cos (pose->angle), n = sin (pose->angle);
  struct label *label;

  label = add (labels, _("Balance weight"), f, s->weight_x * c - s->weight_y * n + (lifted ? 0 : -7),
               s->weight_x * n + s->weight_y * c + (lifted ? 5 : -5));
  put (label, f, lifted ? s->right - s->wall - 2 : s->weight_x - 7, lifted ? 15.5 : s->floor + 8, 1,
       lifted ? LEADER_BELOW : LEADER_ABOVE);
  label = add (labels, _("Pivot"), f, 0, -0.5 * s->boss_radius);
  put (label, f, lifted ? 3 : -3, lifted ? -14 : -22, lifted ? 0 : 1, LEADER_ABOVE);
  label = add (labels, _("Roller"), f, pose->roller_x, pose->roller_y - 0.6 * s->roller_radius);
  put (label, f, s->roller_x - 3, lifted ? -14 : -22, lifted ? 1 : 0, LEADER_ABOVE);
  label = add (labels, _("Lever"), f, along * c, along * n + s->opening * 4);
  put (label, f, along + (lifted ? 12 : 4), lifted ? -9 : -24, 0, LEADER_ABOVE);
}

static void
plunger_label (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double deck = plan->sensor.deck, side = plan->sensor.opening > 0 ? 1 : -1;
  struct label *label = add (labels, _("Control plunger"), f, d->x + side * 0.4 * d->plunger_radius,
                             fmin (deck - 1.5, d->bottom - 5));
  char lift[MEASURE_MAX], factor[MEASURE_MAX], said[2 * MEASURE_MAX];

  if (side > 0)
    put (label, f, d->x + 8, deck - 2, 0, LEADER_LEFT);
  else
    put (label, f, screw_x (plan) - 7, deck - 0.5, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_LENGTH, scene->state->plunger_lift, lift);
  text_ratio (d->plunger_factor, factor);
  g_snprintf (said, sizeof said, _("lift %s"), lift);
  SAY (label, 0, "%s, %s", said, factor); /* short, so that the factor has room in any language */
}

static void
valve_label (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct cylinder_state *left = &scene->state->cylinder[valve_cylinder (scene, -1)];
  struct label *label = add (labels, _("Pressure-difference valve"), &plan->section,
                             d->x - d->chamber_x - 0.75 * d->chamber_radius, d->diaphragm + 8);
  char drop[MEASURE_MAX], open[MEASURE_MAX], factor[MEASURE_MAX];

  put (label, &plan->section, d->x - d->half_width - 5, d->top + 8, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_PRESSURE_DIFFERENCE, left->slot_drop, drop);
  text_micrometres (left->valve_opening, open);
  text_ratio (d->valve_factor, factor);
  SAY (label, 0, _("drop %s, open %s"), drop, open);
  SAY (label, 1, _("opening drawn %s"), factor);
}

static void
pressure_labels (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  struct label *label;

  label = add (labels, _("System pressure"), f, d->x - d->half_width - 6, d->ring);
  put (label, f, d->x - d->half_width - 5, d->ring + (plan->sensor.opening > 0 ? 23 : 21), 1, LEADER_RIGHT);
  measure (scene, label, 0, QUANTITY_PRESSURE, scene->state->system_pressure);
  label = add (labels, _("Control pressure"), f, d->x + d->union_x + 26, d->passage);
  put (label, f, d->x + d->union_x + 0.5, d->passage + 17, 0, LEADER_BELOW);
  measure (scene, label, 0, QUANTITY_PRESSURE, scene->state->control_pressure);
}

static void
circuit_labels (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  struct label *label;
  char text[MEASURE_MAX];

  label = add (labels, _("Control orifice"), f, d->x + d->riser_x + 1.8, d->diaphragm + 10);
  put (label, f, d->x + d->union_x + 5, d->diaphragm + 14, 0, LEADER_LEFT);
  measure (scene, label, 0, QUANTITY_VOLUME_FLOW, scene->state->control_flow);
  if (plan->stacked) {
    label = add (labels, _("Pressure regulator"), f, d->x + d->regulator_x + 8, d->ring - 6.5);
    put (label, f, fmax (plan->sensor.right + 2, d->x + d->regulator_x + 3), d->ring - 27, 0, LEADER_ABOVE);
  } else {
    label = add (labels, _("System pressure regulator"), f, d->x + d->regulator_end - 3, d->ring + 6.3);
    put (label, f, d->x + d->regulator_end + 6, d->ring + 14.5, 0, LEADER_LEFT);
  }
  text_measure (scene, QUANTITY_VOLUME_FLOW, scene->state->relief_flow, text);
  SAY (label, 0, _("returns %s"), text);
  label = add (labels, _("Damper"), f, d->x + d->corner + 8, d->passage + 5);
  put (label, f, d->x + d->corner + (plan->stacked ? 15.8 : 16.5), d->passage + 13.2, 1, LEADER_NONE);
  label = add (labels, _("Mixture screw"), f, screw_x (plan) - 2, plan->sensor.base + 0.8);
  put (label, f, screw_x (plan) - (plan->sensor.opening > 0 ? 4 : 8),
       plan->sensor.base + (plan->sensor.opening > 0 ? 19.6 : 6.5), 1, LEADER_RIGHT);
}

static void
bimetal_label (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  const struct warmup_plan *w = &plan->regulator;
  const struct state *state = scene->state;
  struct label *label = add (labels, _("Bimetal strip"), &plan->warmup, w->clamp_x - 0.06 * w->strip_length,
                             w->strip_y + w->strip_thickness / 2);
  char warm[MEASURE_MAX], push[MEASURE_MAX];

  put (label, &plan->warmup, w->width + 4, w->strip_y + 4, 1, LEADER_RIGHT);
  text_measure (scene, QUANTITY_TEMPERATURE, state->bimetal_temperature, warm);
  text_measure (scene, QUANTITY_FORCE, state->bimetal_force, push);
  if (state->bimetal_force > 0)
    SAY (label, 0, _("%s, presses %s"), warm, push);
  else
    SAY (label, 0, _("%s, released"), warm);
  text_ratio (w->strip_factor, push);
  if (w->strip_factor > 1)
    SAY (label, 1, _("bend drawn %s"), push);
}

static void
warmup_labels (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  const struct warmup_plan *w = &plan->regulator;
  const struct frame *f = &plan->warmup;
  struct label *label;
  char a[MEASURE_MAX], b[MEASURE_MAX];

  bimetal_label (scene, plan, labels);
  if (w->load_stage) {
    label = add (labels, _("Load diaphragm"), f, w->width - 9, w->rim);
    put (label, f, w->width + 4, w->rim + 4.8, 1, LEADER_RIGHT);
    text_measure (scene, QUANTITY_LENGTH, scene->state->load_position, a);
    text_ratio (w->load_factor, b);
    SAY (label, 0, _("up %s, drawn %s"), a, b);
    if (scene->conditions != NULL) {
      label = add (labels, _("Manifold vacuum"), f, w->width + 7, w->vacuum_y);
      put (label, f, w->width + 11, w->vacuum_y + 2.5, 1, LEADER_RIGHT);
      measure (scene, label, 0, QUANTITY_PRESSURE_DIFFERENCE, scene->conditions->vacuum);
    }
  }
  label = add (labels, _("Warm-up regulator"), f, w->width - 2.5, 3);
  put (label, f, w->width + 4, 5.8, 1, LEADER_RIGHT);
}

static void
nozzle_label (const struct scene *scene, const struct plan *plan, struct labels *labels)
{
  struct label *label = add (labels, _("Nozzles"), &plan->nozzles, nozzle_x (0, plan) - 2.6, -8.5);

  measure (scene, label, 0, QUANTITY_PRESSURE, scene->state->cylinder[0].line_pressure);
  if (plan->stacked) {
    label->inline_value = true;
    put (label, &plan->nozzles, nozzle_x (0, plan) + (scene->car->cylinders - 1) * plan->nozzle_pitch / 2, -41, 0.5,
         LEADER_NONE);
  } else {
    put (label, &plan->nozzles, -2, -1.2, 1, LEADER_RIGHT);
  }
}

void
labels_make (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels)
{
  labels->count = 0;
  plate_label (scene, plan, pose, labels);
  plunger_label (scene, plan, labels);
  pressure_labels (scene, plan, labels);
  warmup_labels (scene, plan, labels);
  valve_label (scene, plan, labels);
  air_label (scene, plan, labels);
  nozzle_label (scene, plan, labels);
  circuit_labels (scene, plan, labels);
  lever_labels (scene, plan, pose, labels);
}
