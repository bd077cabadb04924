/* Colour of a pressure: cividis, a map of even lightness that reads alike with and without red-green vision. */
#ifndef WIDGETS_SCENE_PRESSURE_H
#define WIDGETS_SCENE_PRESSURE_H

#include "scene-pen.h"

/* share 0..1 (clamped). Source: Nunez, Anderton and Renslow, PLOS ONE 13(7) e0199239 (2018), public domain data. */
struct ink cividis (double share);

/* Gauge pressure at the map's upper end for this car, Pa: a round number above anything the supply can do. */
double pressure_scale_end (const struct car *car);

/* The ink of fuel at a gauge pressure in Pa; the layer off, a plain fuel ink. */
struct ink pressure_ink (const struct scene *scene, double pressure);

/* The scale itself with its numbers. */
void pressure_scale_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan);

#endif
