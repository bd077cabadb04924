/* The drawing of the metering unit: one function for screen, print, PDF, SVG, PNG and tests. It takes values and knows
 * neither GTK nor a page. */
#ifndef WIDGETS_SCENE_H
#define WIDGETS_SCENE_H

#include "car.h"
#include "conditions.h"
#include "state.h"
#include "units.h"

#include <cairo.h>
#include <stdbool.h>

enum scene_layer { LAYER_PRESSURES = 1, LAYER_FLOW = 2, LAYER_LABELS = 4, LAYER_FORCES = 8, LAYER_DIMENSIONS = 16 };
enum scene_theme { SCENE_LIGHT, SCENE_DARK, SCENE_LIGHT_CONTRAST, SCENE_DARK_CONTRAST, SCENE_PRINT };

struct scene {
  const struct car *car;
  const struct conditions *conditions;
  const struct state *state;
  const struct unit_choices *units;
  double width, height;     /* of the area to draw in, in logical pixels or points */
  double type_scale;        /* 1 = normal; projection is larger */
  double magnifier;         /* of the plunger's movement, at most what has room; the drawing says it. 0 = its choice */
  double phase;             /* 0..1, of the flow marks; 0 when nothing moves */
  unsigned layers;          /* bits of enum scene_layer */
  enum scene_theme theme;
  bool own_readout;         /* also draw the mixture, its scale and the conditions (pictures without a window round them) */
};

enum scene_part_id {
  PART_FUNNEL, PART_PLATE, PART_LEVER, PART_WEIGHT, PART_ROLLER, PART_PLUNGER, PART_BARREL,
  PART_VALVE, /* one drawn for each side */
  PART_SYSTEM_REGULATOR, PART_ORIFICE, PART_WARMUP_REGULATOR, PART_BIMETAL, PART_LOAD_DIAPHRAGM, PART_NOZZLE, PART_SLOTS,
  SCENE_PARTS
};

struct scene_box { double x, y, width, height; };

struct scene_part {
  enum scene_part_id id;
  const char *key;
  const char *name;    /* marked for translation */
  const char *purpose; /* what it does, one sentence, marked for translation */
};

extern const struct scene_part scene_parts[SCENE_PARTS];

/* Everything: still and moving. Neither keeps anything in the car or state. */
void scene_draw (cairo_t *cr, const struct scene *scene);
/* The part that depends on size, car, theme and units only (cacheable), and the rest. */
void scene_draw_still (cairo_t *cr, const struct scene *scene);
void scene_draw_moving (cairo_t *cr, const struct scene *scene);

/* The outline of a part as drawn now, appended to cr's current path in scene coordinates; and its bounding box. */
void scene_part_outline (cairo_t *cr, const struct scene *scene, enum scene_part_id part);
void scene_part_box (const struct scene *scene, enum scene_part_id part, struct scene_box *box);

/* Where geometry lands in the drawing, for tests and for pointing: plate centre, plate edge gap, plunger's control edge,
 * roller centre, valve diaphragm of a cylinder (its magnified opening), bimetal tip, load diaphragm. */
enum scene_mark {
  MARK_PLATE_CENTRE, MARK_ROLLER, MARK_PIVOT, MARK_CONTROL_EDGE, MARK_VALVE_DIAPHRAGM, MARK_BIMETAL_TIP,
  MARK_LOAD_DIAPHRAGM, MARK_SLOT_EDGE
};
void scene_mark (const struct scene *scene, enum scene_mark mark, double *x, double *y);
/* Scale of the true-to-scale section in drawing units a metre, and the movement factor applied to the fuel side. */
double scene_scale (const struct scene *scene);
double scene_movement_factor (const struct scene *scene);

#endif
