/* Labels with their leaders, laid out; for drawing and for the test that nothing overlaps. */
#ifndef WIDGETS_SCENE_LABELS_H
#define WIDGETS_SCENE_LABELS_H

#include "scene-parts.h"

enum leader { LEADER_NONE, LEADER_LEFT, LEADER_RIGHT, LEADER_ABOVE, LEADER_BELOW };

#define LABELS_MAX 24
#define LABEL_LINES 3

struct label {
  const char *name;
  char line[LABEL_LINES - 1][3 * MEASURE_MAX]; /* under the name; "" for none */
  bool inline_value;           /* the first of them stands behind the name instead */
  double dot_x, dot_y;         /* px: end of the leader */
  double x, y, align;          /* px: left end (align 0), middle or right end; upper edge */
  enum leader leader;
  /* settled: */
  int lines;                   /* shown; 0 where there is no room at all */
  double start_x, start_y;     /* of the leader */
  struct scene_box box;        /* of the text shown */
};

struct labels { struct label label[LABELS_MAX]; int count; };

/* Boxes (px) that no label may touch: parts, lines, insets, numbers of other layers. */
#define OBSTACLES_MAX 64
struct obstacles { struct scene_box box[OBSTACLES_MAX]; int count; };
void obstacles_find (const struct scene *scene, const struct plan *plan, struct obstacles *obstacles);

/* Every label wanted, the most important first, unsettled. */
void labels_make (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels);
/* The labels as shown: how much of each is decided once for widest values, so that nothing jumps while values run.
 * Less, or nothing, is shown where text would meet text, a part or a leader. */
void labels_now (const struct scene *scene, const struct plan *plan, const struct pose *pose, struct labels *labels);

#endif
