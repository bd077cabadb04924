/* What the cutaway page explores: one car under conditions that a person moves, solved at every change; and the chain of
 * effects since the person's present gesture began. */
#ifndef PAGES_OPERATING_POINT_H
#define PAGES_OPERATING_POINT_H

#include "chain.h"
#include "conditions.h"
#include "state.h"
#include "vehicle-document.h"

#include <glib-object.h>

#define OPERATING_POINT_TYPE (operating_point_get_type ())
G_DECLARE_FINAL_TYPE (OperatingPoint, operating_point, PLATELIFT, OPERATING_POINT, GObject)

/* Signals: "changed" after every new state; "settled" once nothing has changed for a moment. */
OperatingPoint *operating_point_new (void);

/* Back to this car's start: warm idle with the screw untouched. The vehicle is copied. */
void operating_point_set_vehicle (OperatingPoint *self, const struct vehicle *vehicle);
void operating_point_back_to_start (OperatingPoint *self);
gboolean operating_point_at_start (OperatingPoint *self);

/* Sets one input, in SI and inside its limits. */
void operating_point_set (OperatingPoint *self, const struct condition *condition, double value);
double operating_point_get (OperatingPoint *self, const struct condition *condition);
/* Turns of the mixture screw from where the vehicle data leave it, positive richer. */
void operating_point_set_screw (OperatingPoint *self, double turns);
double operating_point_get_screw (OperatingPoint *self);

/* The person has let go: the next change begins a new chain. */
void operating_point_end_gesture (OperatingPoint *self);

const struct vehicle *operating_point_vehicle (OperatingPoint *self);
const struct car *operating_point_car (OperatingPoint *self);
const struct conditions *operating_point_conditions (OperatingPoint *self);
const struct state *operating_point_state (OperatingPoint *self);

/* The chain since the gesture began, main line; 0 before the first. */
int operating_point_chain (OperatingPoint *self, struct chain_link links[CHAIN_LINKS_MAX]);

#endif
