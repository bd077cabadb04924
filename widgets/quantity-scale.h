/* One input: its name, a slider and an entry for the exact value with its unit. Values are SI. */
#ifndef WIDGETS_QUANTITY_SCALE_H
#define WIDGETS_QUANTITY_SCALE_H

#include "units.h"

#include <gtk/gtk.h>

#define QUANTITY_SCALE_TYPE (quantity_scale_get_type ())
G_DECLARE_FINAL_TYPE (QuantityScale, quantity_scale, PLATELIFT, QUANTITY_SCALE, GtkWidget)

/* name is translated. power bends the slider: value = least + (most - least) x position^power; 1 is even, 2 gives the
 * small values more of the travel. Signal "moved": the person set another value. Compact rows put the name beside the
 * slider instead of above it. */
GtkWidget *quantity_scale_new (const char *name, enum quantity quantity, double power, gboolean compact);

/* step is what an arrow key moves, in SI at an even scale. */
void quantity_scale_set_range (QuantityScale *self, double least, double most, double step);
void quantity_scale_set_units (QuantityScale *self, const struct unit_choices *choices);
/* A unit that the choices do not change. */
void quantity_scale_set_unit (QuantityScale *self, const struct unit *unit);
void quantity_scale_set_value (QuantityScale *self, double value); /* emits nothing */
double quantity_scale_get_value (QuantityScale *self);

/* Numbered ticks; count may be 0. Kept in the unit shown. */
void quantity_scale_set_marks (QuantityScale *self, const double *marks, int count);

/* For tests and focus. Neither is given away. */
GtkWidget *quantity_scale_get_slider (QuantityScale *self);
GtkWidget *quantity_scale_get_entry (QuantityScale *self);

#endif
