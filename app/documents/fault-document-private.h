/* What the reader of a fault catalogue and its schema share. */
#ifndef DOCUMENTS_FAULT_DOCUMENT_PRIVATE_H
#define DOCUMENTS_FAULT_DOCUMENT_PRIVATE_H

#include "fault-document.h"

#define FAULT_KEY_CHARACTERS "abcdefghijklmnopqrstuvwxyz0123456789-"
#define FAULT_SCALE_MAX 1e12
#define FAULT_ADD_MAX 1e18
#define FAULT_ODDS_MAX 1000.0

extern const char *const fault_system_words[];  /* by enum fault_system, NULL at the end */
extern const char *const fault_scale_courses[]; /* courses that go with "scale" and with "add", the usual one first */
extern const char *const fault_add_courses[];
extern const char *const fault_members[];
extern const char *const fault_effect_members[];

/* Whether a fault may change this parameter. */
gboolean fault_may_change (const struct parameter *parameter);

#endif
