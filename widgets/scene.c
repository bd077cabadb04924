#include "scene.h"

#include "scene-parts.h"
#include "text.h"

#include <glib.h>

const struct scene_part scene_parts[SCENE_PARTS] = {
  [PART_FUNNEL] = { PART_FUNNEL, "funnel", N_("Funnel"),
                    N_("Its cones set how far the plate must move for a given air flow.") },
  [PART_PLATE] = { PART_PLATE, "plate", N_("Sensor plate"),
                   N_("The air moves it until the gap lets the flow through.") },
  [PART_LEVER] = { PART_LEVER, "lever", N_("Lever"), N_("Carries the plate's movement to the plunger.") },
  [PART_WEIGHT] = { PART_WEIGHT, "weight", N_("Balance weight"),
                    N_("Takes the weight of plate and lever off the plunger.") },
  [PART_ROLLER] = { PART_ROLLER, "roller", N_("Roller"), N_("Pushes the plunger up as the plate opens.") },
  [PART_PLUNGER] = { PART_PLUNGER, "plunger", N_("Control plunger"),
                     N_("Its control edge opens the slots; control pressure pushes it down.") },
  [PART_BARREL] = { PART_BARREL, "barrel", N_("Barrel"),
                    N_("Guides the plunger and carries one slot for each cylinder.") },
  [PART_VALVE] = { PART_VALVE, "valve", N_("Pressure-difference valve"),
                   N_("Holds the pressure drop at its slot nearly constant, so that only the slot's opening "
                      "meters.") },
  [PART_SYSTEM_REGULATOR] = { PART_SYSTEM_REGULATOR, "system-regulator", N_("System pressure regulator"),
                              N_("Returns to the tank what the pump delivers too much.") },
  [PART_ORIFICE] = { PART_ORIFICE, "orifice", N_("Control orifice"),
                     N_("Lets a small flow out of the system into the control circuit.") },
  [PART_WARMUP_REGULATOR] = { PART_WARMUP_REGULATOR, "warm-up-regulator", N_("Warm-up regulator"),
                              N_("Sets the control pressure: low while cold or under load, normal when warm.") },
  [PART_BIMETAL] = { PART_BIMETAL, "bimetal", N_("Bimetal strip"),
                     N_("Presses the valve spring down while it is cold.") },
  [PART_LOAD_DIAPHRAGM] = { PART_LOAD_DIAPHRAGM, "load-diaphragm", N_("Load diaphragm"),
                            N_("Manifold vacuum holds it up; at load it drops and the outer spring slackens.") },
  [PART_NOZZLE] = { PART_NOZZLE, "nozzle", N_("Nozzles"),
                    N_("Open at their pressure and atomise the metered fuel.") },
  [PART_SLOTS] = { PART_SLOTS, "slots", N_("Slots"), N_("The open height of each slot meters one cylinder's fuel.") },
};

static bool
drawable (const struct scene *scene)
{
  return scene->car != NULL && scene->state != NULL && scene->width > 1 && scene->height > 1;
}

void
scene_draw_still (cairo_t *cr, const struct scene *scene)
{
  struct plan plan;

  g_return_if_fail (drawable (scene));
  plan_make (scene, &plan);
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, scene->width, scene->height);
  cairo_clip (cr);
  pen_ink (cr, scene_palette (scene->theme)->paper);
  cairo_paint (cr);
  funnel_draw_still (cr, scene, &plan);
  stops_draw_still (cr, scene, &plan);
  distributor_draw_still (cr, scene, &plan);
  supply_draw_still (cr, scene, &plan);
  warmup_draw_still (cr, scene, &plan);
  lines_draw_still (cr, scene, &plan);
  nozzles_draw_still (cr, scene, &plan);
  axes_draw_still (cr, scene, &plan);
  slots_draw_still (cr, scene, &plan);
  if (scene->layers & LAYER_PRESSURES)
    pressure_scale_draw (cr, scene, &plan);
  if (scene->layers & LAYER_LABELS)
    labels_draw_still (cr, scene, &plan);
  if (scene->own_readout)
    readout_draw_still (cr, scene, &plan);
  cairo_restore (cr);
}

static void
layers_draw (MOVING_ARGUMENTS)
{
  if (scene->layers & LAYER_FLOW)
    fuel_marks_draw (cr, scene, plan, pose);
  if (scene->layers & LAYER_DIMENSIONS)
    dimensions_draw (cr, scene, plan, pose);
  if (scene->layers & LAYER_FORCES)
    forces_draw (cr, scene, plan, pose);
  if (scene->layers & LAYER_LABELS)
    labels_draw (cr, scene, plan, pose);
}

void
scene_draw_moving (cairo_t *cr, const struct scene *scene)
{
  struct plan plan;
  struct pose pose;

  g_return_if_fail (drawable (scene));
  plan_make (scene, &plan);
  pose_make (scene, &plan, &pose);
  cairo_save (cr);
  cairo_set_tolerance (cr, 0.2);
  cairo_rectangle (cr, 0, 0, scene->width, scene->height);
  cairo_clip (cr);
  if (scene->layers & LAYER_FLOW)
    air_draw (cr, scene, &plan, &pose);
  lever_draw (cr, scene, &plan, &pose);
  plate_draw (cr, scene, &plan, &pose);
  distributor_draw_fuel (cr, scene, &plan, &pose);
  valve_draw (cr, scene, &plan, &pose, -1);
  valve_draw (cr, scene, &plan, &pose, 1);
  plunger_draw (cr, scene, &plan, &pose);
  supply_draw (cr, scene, &plan, &pose);
  warmup_draw (cr, scene, &plan, &pose);
  lines_draw (cr, scene, &plan, &pose);
  nozzles_draw (cr, scene, &plan, &pose);
  slots_draw (cr, scene, &plan, &pose);
  if (scene->own_readout)
    readout_draw (cr, scene, &plan, &pose);
  layers_draw (cr, scene, &plan, &pose);
  cairo_restore (cr);
}

void
scene_draw (cairo_t *cr, const struct scene *scene)
{
  scene_draw_still (cr, scene);
  scene_draw_moving (cr, scene);
}
