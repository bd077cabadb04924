/* What a machine shows of one moment. Private to the transient files. */
#ifndef METERING_TRANSIENT_REPORT_H
#define METERING_TRANSIENT_REPORT_H

#include "transient-equations.h"

/* Everything but steps. */
void model_report (const struct model *model, struct machine_state *state);

#endif
