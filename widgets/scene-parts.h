/* The parts that are drawn, one file each. still: what depends on size, car and theme only; moving: what follows from
 * the state. Outlines append to the current path. */
#ifndef WIDGETS_SCENE_PARTS_H
#define WIDGETS_SCENE_PARTS_H

#include "scene-pen.h"
#include "scene-pressure.h"
#include "scene-text.h"

#define STILL_ARGUMENTS cairo_t *cr, const struct scene *scene, const struct plan *plan
#define MOVING_ARGUMENTS cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct pose *pose

/* Sensor housing with its funnel; the plate. */
void funnel_draw_still (STILL_ARGUMENTS);
void funnel_outline (STILL_ARGUMENTS);
void plate_draw (MOVING_ARGUMENTS);
void plate_outline (MOVING_ARGUMENTS);

/* Lever, roller, pivot and balance weight. */
void lever_draw (MOVING_ARGUMENTS);
void lever_outline (MOVING_ARGUMENTS);        /* the lever itself */
void lever_whole_outline (MOVING_ARGUMENTS);  /* with the mixture screw, its arm and the plate's bolt */
void roller_outline (MOVING_ARGUMENTS);
void weight_outline (MOVING_ARGUMENTS);

#define LEVER_HUB 8.0      /* mm from the plate to the lever's near face */
#define LEVER_HEIGHT 7.0

/* Stops, mixture screw and its plug; screw and its arm as they lie on the lever at lift 0. */
void stops_draw_still (STILL_ARGUMENTS);
double screw_x (const struct plan *plan);
void screw_points (const struct plan *plan, double arm[4][2], double screw[8][2]);

void axes_draw_still (STILL_ARGUMENTS);

/* Casting of the fuel distributor with barrel and control passages. */
void distributor_draw_still (STILL_ARGUMENTS);
void distributor_draw_fuel (MOVING_ARGUMENTS);
void barrel_outline (STILL_ARGUMENTS);
void orifice_outline (STILL_ARGUMENTS);
void plunger_draw (MOVING_ARGUMENTS);
void plunger_outline (MOVING_ARGUMENTS);

/* The two pressure-difference valves that the section cuts; side +1 right, -1 left. */
void valve_draw (MOVING_ARGUMENTS, int side);
void valve_outline (STILL_ARGUMENTS, int side);
int valve_cylinder (const struct scene *scene, int side);

/* System pressure regulator with the shut-off valve of the control return. */
void supply_draw_still (STILL_ARGUMENTS);
void supply_draw (MOVING_ARGUMENTS);
void supply_outline (STILL_ARGUMENTS);

/* Lines outside the castings: to the nozzles, control, return, feed; the damper. */
enum line { LINE_FEED, LINE_NOZZLE_LEFT, LINE_NOZZLE_RIGHT, LINE_CONTROL, LINE_CONTROL_RETURN, LINE_RETURN, LINES };
struct route { double point[8][2]; int count; };           /* px, in the direction of flow */
void line_route (const struct scene *scene, const struct plan *plan, enum line line, struct route *route);
double line_pressure (const struct scene *scene, enum line line);
void lines_draw_still (STILL_ARGUMENTS);
void lines_draw (MOVING_ARGUMENTS);

void warmup_draw_still (STILL_ARGUMENTS);
void warmup_draw (MOVING_ARGUMENTS);
void warmup_outline (STILL_ARGUMENTS);
void bimetal_outline (MOVING_ARGUMENTS);
void load_outline (MOVING_ARGUMENTS);

void nozzles_draw_still (STILL_ARGUMENTS);
void nozzles_draw (MOVING_ARGUMENTS);
void nozzles_outline (STILL_ARGUMENTS);
double nozzle_x (int cylinder, const struct plan *plan);

/* The unrolled barrel. */
void slots_draw_still (STILL_ARGUMENTS);
void slots_draw (MOVING_ARGUMENTS);
double slots_scale (const struct scene *scene, const struct plan *plan);  /* px a millimetre of height */
double slots_edge_y (const struct scene *scene, const struct plan *plan); /* px */

void air_draw (MOVING_ARGUMENTS);
void fuel_marks_draw (MOVING_ARGUMENTS);
void forces_draw (MOVING_ARGUMENTS);
void dimensions_draw (MOVING_ARGUMENTS);
void readout_draw_still (STILL_ARGUMENTS);
void readout_draw (MOVING_ARGUMENTS);
void labels_draw_still (STILL_ARGUMENTS);
void labels_draw (MOVING_ARGUMENTS);

#endif
