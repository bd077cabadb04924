/* Labels with their leaders, laid out; for drawing and for the test that nothing overlaps. */
#ifndef WIDGETS_SCENE_LABELS_H
#define WIDGETS_SCENE_LABELS_H

#include "scene-parts.h"

enum leader { LEADER_NONE, LEADER_LEFT, LEADER_RIGHT, LEADER_ABOVE, LEADER_ABOVE_START, LEADER_BELOW };

#define LABELS_MAX 24

struct label {
  const char *name;
  char value[3 * MEASURE_MAX], note[2 * MEASURE_MAX];
  double dot_x, dot_y;   /* px */
  double x, y, align;
  enum leader leader;
  struct scene_box box;  /* of the text */
};

struct labels { struct label label[LABELS_MAX]; int count; };

void labels_make (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels);

#endif
