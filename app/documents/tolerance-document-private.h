/* What the reader of build tolerances and its schema share. */
#ifndef DOCUMENTS_TOLERANCE_DOCUMENT_PRIVATE_H
#define DOCUMENTS_TOLERANCE_DOCUMENT_PRIVATE_H

#include "tolerance-document.h"

#define TOLERANCE_SHARE_MAX 1.0 /* of "relative" and "log" */
#define TOLERANCE_MAX 1e18      /* of "absolute" */
#define IDLE_SETTING_MAX 0.2

extern const char *const tolerance_form_words[]; /* by enum tolerance_form, NULL at the end */
extern const char *const tolerance_part_words[];

#endif
