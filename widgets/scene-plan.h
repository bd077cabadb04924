/* Where things lie in the drawing. The metering unit is drawn to one true scale: the section's frame has its origin in
 * the lever's pivot, x to the right, y up, in millimetres; the warm-up regulator and the nozzles have frames of their
 * own with the same scale. What the vehicle data do not say (walls, bosses, unions) is a proportion of our own. */
#ifndef WIDGETS_SCENE_PLAN_H
#define WIDGETS_SCENE_PLAN_H

#include "scene.h"

/* Pixel position of the origin and pixels a millimetre; y up; side -1 mirrors. */
struct frame { double x, y, scale, side; };

#define PX(frame, millimetres) ((frame)->x + (millimetres) * (frame)->scale * (frame)->side)
#define PY(frame, millimetres) ((frame)->y - (millimetres) * (frame)->scale)

/* Air sensor: pivot at 0, 0; the plate's upstream face at lift 0 lies at the pivot's height, so that its arc starts
 * square to the funnel's axis. */
struct sensor_plan {
  int opening;               /* +1: the plate opens upwards (lifted), -1: downwards */
  double plate_radius, plate_thickness, plate_arm, roller_arm;
  double roller_x;           /* at lift 0: +arm beyond the pivot, -arm between pivot and plate */
  double roller_radius, boss_radius;
  double funnel_x;           /* axis */
  int points;
  double depth[FUNNEL_POINTS_MAX], radius[FUNNEL_POINTS_MAX]; /* profile from the land downstream */
  double outlet_depth, outlet_radius;  /* where the duct behind the funnel ends */
  double inlet_height, inlet_radius;   /* where the air comes in, before the land */
  double wall;               /* least thickness of the casting */
  double window_depth;       /* from here downstream the wall on the lever's side is open */
  double left, right, deck, base, floor; /* casting: outer edges, underside of the deck, its top, the floor's top */
  double weight_x, weight_y, weight_width, weight_height;  /* centre of the balance weight at lift 0 */
  double top_stop;
};

struct distributor_plan {
  double x;                  /* axis of the barrel */
  double bottom, diaphragm, top;
  double plunger_radius, barrel_radius, chamber_radius, chamber_x; /* chamber_x: axis of a chamber from the barrel's */
  double lower_depth, upper_depth;
  double slot_bottom, slot_height;  /* as drawn, magnified */
  double land;               /* length of the plunger's upper land */
  double plunger_foot;       /* lower end of the plunger on its stop */
  double bore_top, cap_top;
  double half_width;
  double ring;               /* height of the bore that joins the lower chambers */
  double passage;            /* height of the control passage */
  double riser_x, union_x;   /* of the control circuit, from the axis */
  double regulator_x, regulator_end; /* system pressure regulator, from the axis */
  double corner;             /* where the control line turns down, from the axis */
  double plunger_factor, valve_factor;
  double seat_radius;
};

struct warmup_plan {
  double width, height;
  double seat_x, seat_y;     /* of the flat seat */
  double retainer_y;         /* upper face of the spring retainer's flange */
  double clamp_x, strip_y;   /* where the bimetal is clamped */
  double strip_length, strip_thickness;
  double strip_factor;
  double lower_stop, load_travel; /* load diaphragm */
  double rim;                /* where it is clamped, half way of its travel; the cover is split there */
  double load_factor;
  double inner_seat_y;       /* fixed seat of the inner spring */
  double return_x;           /* bore of the return, up to the top */
  double vacuum_y;           /* connection of the manifold's vacuum, on the far side from the seat */
  bool load_stage;
};

struct plan {
  struct frame section, warmup, nozzles;
  struct sensor_plan sensor;
  struct distributor_plan distributor;
  struct warmup_plan regulator;
  struct scene_box slots;    /* inset of the unrolled barrel, px */
  struct scene_box readout;  /* px; no width without it */
  struct scene_box legend;   /* scale of pressures, px */
  double nozzle_pitch;       /* mm */
  bool stacked;              /* regulator and nozzles stand under the section instead of beside it */
  double under;              /* height of the section's lower end, mm */
  double unit;               /* of type and line weights: 1 in an area of 1240 x 500 */
};

/* What moves: everything that follows from the state, in the frames' millimetres. */
struct pose {
  double angle;              /* of the lever, counter-clockwise */
  double plate_x, plate_y, roller_x, roller_y;
  double control_edge;       /* height of the plunger's control edge, magnified */
  double plunger_foot;       /* true */
  double valve[CYLINDERS_MAX]; /* drawn opening */
  double strip_tip, strip_free; /* height of the bimetal's end, and where it would be unhindered */
  double load;               /* height of the load diaphragm */
  double relief;             /* 0..1 how far the system pressure regulator is drawn open */
};

/* Proportions of our own, mm. */
#define PLAN_WALL 5.0        /* of the castings */
#define PLAN_SLOT_ROOM 15.0  /* largest drawn height of a slot */
#define PLAN_VALVE_ROOM 10.0 /* largest drawn opening of a diaphragm */

void plan_make (const struct scene *scene, struct plan *plan);
void pose_make (const struct scene *scene, const struct plan *plan, struct pose *pose);

/* The second half of plan_make: frames, insets and boxes on the area, once the parts' own measures are known. */
void plan_arrange (const struct scene *scene, struct plan *plan);

/* Radius of the funnel at a depth downstream of the land's upper edge. */
double plan_funnel_radius (const struct sensor_plan *sensor, double depth);
/* Index of the cylinder whose valve is cut on the right (0) and on the left of the section. */
int plan_left_cylinder (const struct scene *scene);

#endif
