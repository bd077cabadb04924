/* The first page: the metering unit in section, moved by sliders; the mixture; the chain of effects. */
#ifndef PAGES_CUTAWAY_PAGE_H
#define PAGES_CUTAWAY_PAGE_H

#include "operating-point.h"
#include "scene.h"

#include <gtk/gtk.h>

#define CUTAWAY_PAGE_TYPE (cutaway_page_get_type ())
G_DECLARE_FINAL_TYPE (CutawayPage, cutaway_page, PLATELIFT, CUTAWAY_PAGE, GtkWidget)

void cutaway_page_set_units (CutawayPage *self, const struct unit_choices *choices);
void cutaway_page_set_theme (CutawayPage *self, enum scene_theme theme);
void cutaway_page_set_type_scale (CutawayPage *self, double type_scale);
void cutaway_page_set_reduced_motion (CutawayPage *self, gboolean reduced);

/* The model behind the page, for tests and for showing another car. Not given away. */
OperatingPoint *cutaway_page_point (CutawayPage *self);

#endif
