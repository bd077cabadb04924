/* Outlines, boxes and marks: where the drawing has put things. */
#include "scene-parts.h"

#include <glib.h>

static void
outline_of (MOVING_ARGUMENTS, enum scene_part_id part)
{
  struct scene_box slots = plan->slots;

  switch (part) {
  case PART_FUNNEL: funnel_outline (cr, scene, plan); break;
  case PART_PLATE: plate_outline (cr, scene, plan, pose); break;
  case PART_LEVER: lever_whole_outline (cr, scene, plan, pose); break;
  case PART_WEIGHT: weight_outline (cr, scene, plan, pose); break;
  case PART_ROLLER: roller_outline (cr, scene, plan, pose); break;
  case PART_PLUNGER: plunger_outline (cr, scene, plan, pose); break;
  case PART_BARREL: barrel_outline (cr, scene, plan); break;
  case PART_VALVE:
    valve_outline (cr, scene, plan, 1);
    valve_outline (cr, scene, plan, -1);
    break;
  case PART_SYSTEM_REGULATOR: supply_outline (cr, scene, plan); break;
  case PART_ORIFICE: orifice_outline (cr, scene, plan); break;
  case PART_WARMUP_REGULATOR: warmup_outline (cr, scene, plan); break;
  case PART_BIMETAL: bimetal_outline (cr, scene, plan, pose); break;
  case PART_LOAD_DIAPHRAGM: load_outline (cr, scene, plan, pose); break;
  case PART_NOZZLE: nozzles_outline (cr, scene, plan); break;
  case PART_SLOTS: cairo_rectangle (cr, slots.x, slots.y, slots.width, slots.height); break;
  case SCENE_PARTS:
  default: break;
  }
}

void
scene_part_outline (cairo_t *cr, const struct scene *scene, enum scene_part_id part)
{
  struct plan plan;
  struct pose pose;

  plan_make (scene, &plan);
  pose_make (scene, &plan, &pose);
  outline_of (cr, scene, &plan, &pose, part);
}

void
scene_part_box (const struct scene *scene, enum scene_part_id part, struct scene_box *box)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  double x1, y1, x2, y2;

  scene_part_outline (cr, scene, part);
  cairo_path_extents (cr, &x1, &y1, &x2, &y2);
  *box = (struct scene_box) { x1, y1, x2 - x1, y2 - y1 };
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

void
scene_mark (const struct scene *scene, enum scene_mark mark, double *x, double *y)
{
  struct plan plan;
  struct pose pose;
  const struct frame *f = &plan.section, *w = &plan.warmup;

  plan_make (scene, &plan);
  pose_make (scene, &plan, &pose);
  switch (mark) {
  case MARK_PLATE_CENTRE: *x = PX (f, pose.plate_x); *y = PY (f, pose.plate_y); break;
  case MARK_ROLLER: *x = PX (f, pose.roller_x); *y = PY (f, pose.roller_y); break;
  case MARK_CONTROL_EDGE: *x = PX (f, plan.distributor.x); *y = PY (f, pose.control_edge); break;
  case MARK_VALVE_DIAPHRAGM:
    *x = PX (f, plan.distributor.x + plan.distributor.chamber_x);
    *y = PY (f, plan.distributor.diaphragm - pose.valve[0]);
    break;
  case MARK_BIMETAL_TIP:
    *x = PX (w, plan.regulator.clamp_x - plan.regulator.strip_length);
    *y = PY (w, pose.strip_tip);
    break;
  case MARK_LOAD_DIAPHRAGM: *x = PX (w, plan.regulator.seat_x); *y = PY (w, pose.load); break;
  case MARK_SLOT_EDGE: *x = plan.slots.x + plan.slots.width; *y = slots_edge_y (scene, &plan); break;
  case MARK_PIVOT:
  default: *x = f->x; *y = f->y; break;
  }
}

double
scene_scale (const struct scene *scene)
{
  struct plan plan;

  plan_make (scene, &plan);
  return plan.section.scale * 1e3;
}

double
scene_movement_factor (const struct scene *scene)
{
  struct plan plan;

  plan_make (scene, &plan);
  return plan.distributor.plunger_factor;
}
