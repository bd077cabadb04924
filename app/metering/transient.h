/* The whole system in time: cranking, warm-up, driving, stop, hot soak, restart. A machine is one car under one weather
 * with what driver and workshop do to it; it is advanced, asked, copied out and back in as plain values.
 *
 * The same start and the same inputs at the same times give the same run, bit for bit, however the time between is cut
 * into calls. Not for two threads at once; machines do not know each other. */
#ifndef METERING_TRANSIENT_H
#define METERING_TRANSIENT_H

#include "car.h"
#include "conditions.h"
#include "exhaust.h"
#include "quantity.h"
#include "state.h"

#include <stdbool.h>

enum vacuum_hose {
  HOSE_ENGINE,   /* the warm-up regulator feels the manifold */
  HOSE_OFF,      /* it feels the surrounding air */
  HOSE_HAND_PUMP /* it feels inputs.hand_vacuum */
};

/* Hoses clamped and openings plugged in the workshop (bits). */
enum clamp {
  CLAMP_RETURN = 1,      /* the regulator returns nothing: neither relief, nor control flow, nor their leaks */
  CLAMP_PUMP_INLET = 2,  /* the pump delivers nothing, its check valve leaks nothing */
  CLAMP_ACCUMULATOR = 4, /* the accumulator's leak-off is shut */
  CLAMP_COLD_START = 8   /* the cold-start valve is plugged */
};

/* What driver and workshop do. Changes take effect at the moment of machine_set_inputs. */
struct machine_inputs {
  bool key;                 /* ignition on */
  bool crank;               /* starter, while held; let go by itself once the engine runs */
  double throttle;          /* 0..1 of the quarter turn, reached at an even rate in throttle_time */
  double throttle_time;     /* s, 0 = at once */
  double load;              /* N m, brakes the turning engine */
  bool hold_speed;          /* an engine brake holds the present speed whatever the torque */
  enum vacuum_hose hose;
  double hand_vacuum;       /* Pa under ambient */
  bool pump_bridged;        /* the pump relay closed by hand: pump and heaters run while the key is on */
  bool heater_unplugged;    /* warm-up regulator */
  bool auxiliary_unplugged; /* auxiliary air valve */
  bool cold_start_unplugged;
  bool tap_shut;            /* gauge tap between distributor and warm-up regulator */
  unsigned clamps;          /* bits of enum clamp */
};

/* Where a run starts. weather: altitude, ambient_temperature, humidity, fuel_temperature (in the tank) and
 * block_temperature (of all that is hot) are used, the rest is not. */
struct machine_start {
  struct conditions weather;
  double system_pressure; /* Pa left in the fuel system; 0 empty */
};

enum machine_outcome {
  MACHINE_DONE,
  MACHINE_BAD_INPUT, /* nothing was changed */
  MACHINE_SLOW,      /* the bound on steps of one call was reached before the time; call again or give up */
  MACHINE_FAILED     /* the integration broke down: the state is the last good one and stays */
};

/* Everything worth showing at one moment. metering is in the sense of the steady solve (residuals not filled); ratios 0
 * where not defined. */
struct machine_state {
  double time;                  /* s since the start */
  struct state metering;
  double engine_speed;          /* rad/s */
  double manifold_pressure;     /* absolute */
  double vacuum;                /* of the manifold under ambient */
  double chamber_pressure;      /* between plate and throttle, absolute */
  double throttle;              /* opening 0..1 */
  double throttle_air, cylinder_air;
  double plate_speed;
  double plunger_pressure;      /* in the chamber over the plunger */
  double voltage;
  double indicated_torque;
  double burnt_lambda;          /* of what has evaporated in the cylinders; metering.lambda is as metered */
  double needed_lambda;         /* as metered, for a burnt lambda of 1 with the film in balance */
  double film;                  /* kg of fuel on the inlet walls */
  double cold_start_flow;       /* m3/s */
  double coolant_temperature, housing_temperature, auxiliary_temperature, switch_temperature, hot_fuel_temperature,
    wall_temperature;
  double auxiliary_area;
  double accumulator_filling;   /* m3 between its stops */
  double vapour_volume;         /* m3 that liquid does not fill, in store and control circuit */
  double vapour_pressure;       /* gauge, of the hot fuel */
  struct exhaust_gases gases;   /* all 0 while nothing burns */
  double gas_lambda;            /* what the gases tell by the four-gas formula */
  bool turning, running, starter_engaged, contact_open, relay_on, switch_closed, cold_start_open, shutoff_open,
    injecting, plunger_raised;  /* plunger sucked up by a vacuum over it; running: turning without the starter */
  int events;                   /* switch events since the start */
  long steps;                   /* of integration since the start */
};

struct machine_value {
  const char *key;
  size_t offset; /* of a double in struct machine_state */
  enum quantity quantity;
  const char *name; /* marked for translation */
};

extern const struct machine_value machine_values[];
extern const int machine_value_count;

const struct machine_value *machine_value_find (const char *key); /* or NULL */
double machine_value_get (const struct machine_state *state, const struct machine_value *value);

#define MACHINE_UNKNOWNS 15

/* A moment as plain values: copied by assignment, comparable, no pointers. A machine restored from it goes on alike every
 * time; against the run it was taken from it differs by the integration's tolerance only. */
struct machine_snapshot {
  double time;
  double unknown[MACHINE_UNKNOWNS];
  struct machine_inputs inputs;
  double throttle_from, ramp_start, ramp_end;
  int plate, turning, starter_engaged, starter_spent, contact_open, pulses, shutoff_open, switch_closed, venting,
    boiling, control_boiling;
  int events;
  double valve_guess[CYLINDERS_MAX];
};

struct machine;

/* The start that conditions_usual gives with everything at one temperature and an empty system. */
void machine_start_usual (struct machine_start *start);

/* A machine at rest, key off, throttle shut. NULL where car or weather do not pass their checks, or without memory. Free
 * with machine_free (NULL allowed). */
struct machine *machine_new (const struct car *car, const struct machine_start *start);
void machine_free (struct machine *machine);

double machine_time (const struct machine *machine);
const struct car *machine_car (const struct machine *machine);
void machine_get_inputs (const struct machine *machine, struct machine_inputs *inputs);

/* MACHINE_BAD_INPUT for a number out of its range. Equal inputs change nothing. */
enum machine_outcome machine_set_inputs (struct machine *machine, const struct machine_inputs *inputs);

/* On by a time in s >= 0. Bounded in steps: some 40 ms of computing in the worst case. */
enum machine_outcome machine_advance (struct machine *machine, double time);

void machine_get_state (const struct machine *machine, struct machine_state *state);
void machine_take_snapshot (const struct machine *machine, struct machine_snapshot *snapshot);

/* Of a machine with the same car and start. */
enum machine_outcome machine_restore (struct machine *machine, const struct machine_snapshot *snapshot);

/* A sentence for an outcome, marked for translation. */
const char *machine_outcome_text (enum machine_outcome outcome);

#endif
