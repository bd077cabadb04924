/* What a part of the drawing answers when it is pointed at: its present values out of the model's state. */
#ifndef WIDGETS_PART_ANSWER_H
#define WIDGETS_PART_ANSWER_H

#include "scene.h"

/* "Plate lift\t1.82 mm" a line each, translated; at most a handful of lines. Caller frees. */
char *part_answer_values (const struct scene *scene, enum scene_part_id part);

/* Name, purpose and values in one paragraph, for a screen reader. Caller frees. */
char *part_answer_sentence (const struct scene *scene, enum scene_part_id part);

#endif
