/* Switch events of the system in time: where they lie, and what they change. Private to the transient files. */
#ifndef METERING_TRANSIENT_EVENTS_H
#define METERING_TRANSIENT_EVENTS_H

#include "transient-equations.h"

enum event {
  EVENT_REST,    /* the plate meets or leaves its rest */
  EVENT_BUFFER,  /* or its buffer */
  EVENT_CONTACT, /* the safety contact */
  EVENT_SHUTOFF, /* the shut-off valve of the control return */
  EVENT_SWITCH,  /* the thermo-time switch opens */
  EVENT_STARTER, /* the running engine is let go */
  EVENT_STALL,   /* the engine stops */
  EVENT_PULSE,   /* ignition pulses begin or end */
  EVENT_VENT,    /* the compensating valve: a corner of the rates, no switch */
  EVENT_VAPOUR,  /* fuel begins or ends to boil: the same */
  EVENT_CONTROL_VAPOUR, /* in the control circuit */
  EVENTS
};

/* In the solver's form: model is a struct model. */
void transient_roots (const void *model, double time, const double *unknown, double *root);

/* Applies events; passed: -1, 0 or +1 for each (solver_passed). Changes the model's switches and, at stops, unknowns. */
void model_switch (struct model *model, const int passed[EVENTS], double time, double unknown[UNKNOWNS]);

/* Switches as they stand at a moment under new inputs; now.inputs still holds the old ones. */
void model_take_inputs (struct model *model, const struct machine_inputs *inputs, double time, double unknown[UNKNOWNS]);

#endif
