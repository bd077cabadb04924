/* Text on the drawing, by Pango, and numbers in the chosen units. */
#ifndef WIDGETS_SCENE_TEXT_H
#define WIDGETS_SCENE_TEXT_H

#include "scene-pen.h"

enum style { STYLE_NAME, STYLE_VALUE, STYLE_SMALL, STYLE_LARGE };

/* Size of type in px. */
double text_size (const struct scene *scene, const struct plan *plan, enum style style);
/* Extents in px of a line; height is that of the style's line, whatever the letters. */
void text_extents (const struct scene *scene, const struct plan *plan, enum style style, const char *text,
                   double *width, double *height);
/* Draws a line with its left (align 0), middle (0.5) or right end (1) at x and its upper edge at y. */
void text_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, enum style style, struct ink ink,
                const char *text, double x, double y, double align);

/* A value in the person's units with its unit. */
#define MEASURE_MAX 64
void text_measure (const struct scene *scene, enum quantity quantity, double si, char text[MEASURE_MAX]);
void text_whole (const struct scene *scene, enum quantity quantity, double si,
                 char text[MEASURE_MAX]); /* no decimals */
const struct unit *text_unit (const struct scene *scene, enum quantity quantity);
/* A length too small for millimetres to show, in micrometres. */
void text_micrometres (double si, char text[MEASURE_MAX]);
void text_number (double value, int decimals, char text[MEASURE_MAX]);

/* Over the unrolled barrel. */
#define SLOTS_TITLE _("Barrel unrolled, one slot per cylinder")

/* A drawn measure without its unit: whole millimetres, or tenths where there are any. */
void text_millimetres (double millimetres, char text[MEASURE_MAX]);

/* A factor as "3 : 1". */
void text_ratio (double factor, char text[MEASURE_MAX]);

#endif
