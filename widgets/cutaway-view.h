/* The drawing on the screen: a widget round scene_draw. Each part of the drawing is a child that takes focus and the
 * pointer and answers with a card. The still parts are kept as an image per size; flow marks move on the frame clock
 * for some seconds after a change and then rest, so that an idle window draws nothing. */
#ifndef WIDGETS_CUTAWAY_VIEW_H
#define WIDGETS_CUTAWAY_VIEW_H

#include "scene.h"

#include <gtk/gtk.h>

#define CUTAWAY_VIEW_TYPE (cutaway_view_get_type ())
G_DECLARE_FINAL_TYPE (CutawayView, cutaway_view, PLATELIFT, CUTAWAY_VIEW, GtkWidget)

/* Signal "laid-out": the drawing has another size, so its scale and movement factor may be others. */
GtkWidget *cutaway_view_new (void);

/* The values to draw, copied. A change of the state sets the flow marks moving. */
void cutaway_view_show (CutawayView *self, const struct car *car, const struct conditions *conditions,
                        const struct state *state);
void cutaway_view_set_units (CutawayView *self, const struct unit_choices *choices);
void cutaway_view_set_theme (CutawayView *self, enum scene_theme theme);
void cutaway_view_set_layers (CutawayView *self, unsigned layers);
void cutaway_view_set_magnifier (CutawayView *self, double magnifier); /* 0 = chosen by the drawing */
void cutaway_view_set_type_scale (CutawayView *self, double type_scale);
/* Flow marks never move where motion is not allowed; they keep moving where keep is set. */
void cutaway_view_set_motion (CutawayView *self, gboolean allowed, gboolean keep);

/* What is drawn now, for pictures, tests and words; valid until the next change. */
const struct scene *cutaway_view_scene (CutawayView *self);
gboolean cutaway_view_moving (CutawayView *self);

#endif
