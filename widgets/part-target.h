/* One part of the drawing that can be pointed at: invisible itself, of the part's own outline, focusable. */
#ifndef WIDGETS_PART_TARGET_H
#define WIDGETS_PART_TARGET_H

#include "scene.h"

#include <gtk/gtk.h>

#define PART_TARGET_TYPE (part_target_get_type ())
G_DECLARE_FINAL_TYPE (PartTarget, part_target, PLATELIFT, PART_TARGET, GtkWidget)

/* scene is borrowed and must outlive the target; it is asked at every hit for the outline as drawn then. Signal
 * "pointed" with TRUE when the pointer or the focus comes, FALSE when both have gone. */
GtkWidget *part_target_new (const struct scene *scene, enum scene_part_id part);
enum scene_part_id part_target_part (PartTarget *self);

/* Where the target's origin lies in scene coordinates, set by the parent when it allocates. */
void part_target_set_origin (PartTarget *self, double x, double y);

#endif
