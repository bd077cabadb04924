/* The draughtsman's tools: colours, line weights, hatching, paths in a frame's millimetres. */
#ifndef WIDGETS_SCENE_PEN_H
#define WIDGETS_SCENE_PEN_H

#include "scene-plan.h"

struct ink { double red, green, blue; };

struct palette {
  struct ink paper, line, faint, quiet; /* ground, outlines, hatching and leaders, second text */
  struct ink metal, moving, weight, air, accent, window; /* flat fills; window: usable mixture */
  bool black_lines;                     /* heavier thin lines: high contrast */
};

const struct palette *scene_palette (enum scene_theme theme);

void pen_ink (cairo_t *cr, struct ink ink);
void pen_fill (cairo_t *cr, struct ink ink);      /* fills and keeps the path */

/* Line weights in the ratio of ISO 128: outlines of cuts, visible edges, hatching and leaders. */
enum weight { WEIGHT_CUT, WEIGHT_EDGE, WEIGHT_THIN };
double pen_width (const struct scene *scene, const struct plan *plan, enum weight weight);
void pen_stroke (cairo_t *cr, const struct scene *scene, const struct plan *plan,
                 enum weight weight); /* keeps nothing */

/* Paths in millimetres of a frame. */
void pen_move (cairo_t *cr, const struct frame *frame, double x, double y);
void pen_line (cairo_t *cr, const struct frame *frame, double x, double y);
void pen_rectangle (cairo_t *cr, const struct frame *frame, double left, double bottom, double right, double top);
void pen_circle (cairo_t *cr, const struct frame *frame, double x, double y, double radius);
void pen_polygon (cairo_t *cr, const struct frame *frame, const double (*points)[2], int count);

/* Hatching of a cut (ISO 128): fills the present path with metal, hatches it and strokes its outline; the path is used
 * up. Neighbours take another direction or spacing. */
enum hatch { HATCH_RISING, HATCH_FALLING, HATCH_RISING_FINE, HATCH_FALLING_FINE };
void pen_cut (cairo_t *cr, const struct scene *scene, const struct plan *plan, enum hatch hatch);
/* The same without the outline. */
void pen_hatch (cairo_t *cr, const struct scene *scene, const struct plan *plan, enum hatch hatch);
/* Fills the present path with an ink and strokes it as a visible edge. */
void pen_body (cairo_t *cr, const struct scene *scene, const struct plan *plan, struct ink ink, enum weight weight);
/* Parts that touch, as one outline: strokes wide, then fills over what lies inside. */
void pen_union (cairo_t *cr, const struct scene *scene, const struct plan *plan, struct ink ink, enum weight weight);

/* A coil spring in section between two heights. */
void pen_spring (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct frame *frame, double x,
                 double bottom, double top, double radius, int coils);
/* The same lying, between two places along x. */
void pen_spring_lying (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct frame *frame,
                       double y, double left, double right, double radius, int coils);

/* A filled arrow head at x, y (px) that points along angle (rad, screen). */
void pen_arrow_head (cairo_t *cr, double x, double y, double angle, double length);

#endif
