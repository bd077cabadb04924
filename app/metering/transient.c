#include "transient.h"
#include "parameter.h"
#include "store.h"
#include "text.h"
#include "transient-events.h"
#include "transient-report.h"
#include "transient-solver.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define RELATIVE_TOLERANCE 1e-6
#define STEPS_MOST 4000       /* of one call */
#define START_PRESSURE_MOST 1e6

/* Each in the unknown's unit: what nobody could measure. */
static const double absolute_tolerance[UNKNOWNS] = {
  [PLATE_LIFT] = 1e-7,
  [PLATE_SPEED] = 1e-4,
  [CHAMBER_PRESSURE] = 0.5,
  [MANIFOLD_PRESSURE] = 0.5,
  [ENGINE_SPEED] = 1e-4,
  [FUEL_FILM] = 1e-10,
  [BIMETAL_TEMPERATURE] = 2e-4,
  [HOUSING_TEMPERATURE] = 2e-4,
  [COOLANT_TEMPERATURE] = 2e-4,
  [AUXILIARY_TEMPERATURE] = 2e-4,
  [SWITCH_TEMPERATURE] = 1e-3,
  [FUEL_EXCESS] = 1e-11,
  [CONTROL_PRESSURE] = 5,
  [HOT_FUEL_TEMPERATURE] = 1e-4, /* a hundredth of a kelvin is a millibar of shut-in pressure */
  [WALL_TEMPERATURE] = 2e-4,
};

struct machine {
  struct model model;          /* model.now: the moment the caller sees */
  struct solver *solver;
  double reached;              /* to where the solver has gone: at or beyond that moment */
  double unknown[UNKNOWNS];    /* there */
  double stop;                 /* the throttle's next corner */
  int passed[EVENTS];
  bool event_waits;            /* at reached */
  bool failed;
  long steps;
};

_Static_assert (UNKNOWNS == MACHINE_UNKNOWNS, "the snapshot holds every unknown");

void
machine_start_usual (struct machine_start *start)
{
  memset (start, 0, sizeof *start);
  conditions_usual (&start->weather);
  start->weather.block_temperature = start->weather.ambient_temperature;
}

/* -- the solver's side ---------------------------------------------------------------------------------------------------- */

/* Begins anew at reached, after anything that changed the equations. */
static void
begin_anew (struct machine *m)
{
  const struct machine_snapshot *now = &m->model.now;

  m->stop = now->ramp_end > m->reached ? now->ramp_end : INFINITY;
  m->event_waits = false;
  if (!solver_start (m->solver, m->reached, m->unknown))
    m->failed = true;
}

/* The valves' openings at a step's end are the first guess of all solves up to the next. */
static void
keep_guess (struct machine *m)
{
  struct flows f;

  model_flows (&m->model, m->reached, m->unknown, &f);
  for (int i = 0; i < m->model.car.cylinders; i++)
    m->model.now.valve_guess[i] = f.cylinder[i].valve_opening;
}

static void
go_on (struct machine *m)
{
  enum solver_step step;

  if (m->event_waits) {
    model_switch (&m->model, m->passed, m->reached, m->unknown);
    begin_anew (m);
  } else if (m->reached >= m->stop) {
    begin_anew (m);
  }
  if (m->failed)
    return;
  step = solver_step (m->solver, m->stop, &m->reached, m->unknown);
  m->steps++;
  m->failed = step == SOLVER_FAILED;
  if (m->failed)
    return;
  m->event_waits = step == SOLVER_ROOT;
  for (int i = 0; i < EVENTS && m->event_waits; i++)
    m->passed[i] = solver_passed (m->solver, i);
  keep_guess (m);
}

/* -- in and out ----------------------------------------------------------------------------------------------------------- */

static bool
start_is_sound (const struct machine_start *start)
{
  return conditions_check (&start->weather, NULL) && start->system_pressure >= 0
         && start->system_pressure <= START_PRESSURE_MOST;
}

static void
rest_at_start (struct machine *m)
{
  struct model *model = &m->model;
  const struct car *car = &model->car;
  double block = model->start.weather.block_temperature, *y = m->unknown;

  y[PLATE_LIFT] = car->sensor.rest_height;
  y[CHAMBER_PRESSURE] = y[MANIFOLD_PRESSURE] = model->ambient_pressure;
  y[BIMETAL_TEMPERATURE] = y[HOUSING_TEMPERATURE] = y[COOLANT_TEMPERATURE] = block;
  y[AUXILIARY_TEMPERATURE] = y[SWITCH_TEMPERATURE] = y[HOT_FUEL_TEMPERATURE] = y[WALL_TEMPERATURE] = block;
  y[FUEL_EXCESS] = store_excess (&car->store, car->fuel.density, store_filling (&car->store, model->start.system_pressure),
                                 model->air_temperature, block);
  y[CONTROL_PRESSURE] = model->start.system_pressure;
  model->now.plate = PLATE_ON_REST;
  model->now.shutoff_open = model->start.system_pressure >= car->supply.shutoff_opening;
  memcpy (model->now.unknown, y, sizeof model->now.unknown);
  begin_anew (m);
}

struct machine *
machine_new (const struct car *car, const struct machine_start *start)
{
  struct machine *m;

  if (!car_check (car, NULL) || !start_is_sound (start))
    return NULL;
  m = calloc (1, sizeof *m);
  if (m == NULL)
    return NULL;
  model_set_up (&m->model, car, start);
  m->solver = solver_new (UNKNOWNS, EVENTS, transient_rates, transient_roots, &m->model, RELATIVE_TOLERANCE,
                          absolute_tolerance);
  if (m->solver)
    rest_at_start (m);
  if (m->solver == NULL || m->failed) {
    machine_free (m);
    return NULL;
  }
  return m;
}

void
machine_free (struct machine *m)
{
  if (m == NULL)
    return;
  solver_free (m->solver);
  free (m);
}

double
machine_time (const struct machine *m)
{
  return m->model.now.time;
}

const struct car *
machine_car (const struct machine *m)
{
  return &m->model.car;
}

void
machine_get_inputs (const struct machine *m, struct machine_inputs *inputs)
{
  *inputs = m->model.now.inputs;
}

static bool
inputs_are_sound (const struct machine_inputs *in)
{
  return in->throttle >= 0 && in->throttle <= 1 && in->throttle_time >= 0 && in->throttle_time <= 3600 && in->load >= 0
         && in->load <= 2000 && in->hand_vacuum >= 0 && in->hand_vacuum <= 95000 && (unsigned) in->hose <= HOSE_HAND_PUMP;
}

static bool
inputs_are_equal (const struct machine_inputs *a, const struct machine_inputs *b)
{
  return a->key == b->key && a->crank == b->crank && a->throttle == b->throttle && a->throttle_time == b->throttle_time
         && a->load == b->load && a->hold_speed == b->hold_speed && a->hose == b->hose
         && a->hand_vacuum == b->hand_vacuum && a->pump_bridged == b->pump_bridged
         && a->heater_unplugged == b->heater_unplugged && a->auxiliary_unplugged == b->auxiliary_unplugged
         && a->cold_start_unplugged == b->cold_start_unplugged && a->tap_shut == b->tap_shut && a->clamps == b->clamps;
}

enum machine_outcome
machine_set_inputs (struct machine *m, const struct machine_inputs *inputs)
{
  struct machine_snapshot *now = &m->model.now;

  if (!inputs_are_sound (inputs))
    return MACHINE_BAD_INPUT;
  if (m->failed)
    return MACHINE_FAILED;
  if (inputs_are_equal (inputs, &now->inputs))
    return MACHINE_DONE;
  if (m->event_waits && now->time == m->reached)
    model_switch (&m->model, m->passed, now->time, now->unknown);
  model_take_inputs (&m->model, inputs, now->time, now->unknown);
  m->reached = now->time;
  memcpy (m->unknown, now->unknown, sizeof m->unknown);
  begin_anew (m);
  return m->failed ? MACHINE_FAILED : MACHINE_DONE;
}

/* Lets the caller see a moment inside the last step, or its end. */
static void
show (struct machine *m, double time)
{
  struct machine_snapshot *now = &m->model.now;

  if (time >= m->reached || !solver_interpolate (m->solver, time, now->unknown)) {
    memcpy (now->unknown, m->unknown, sizeof now->unknown);
    time = m->reached;
  }
  now->time = time;
  if (now->plate != PLATE_FREE) { /* interpolation leaves the last digits uncertain */
    const struct air_sensor *sensor = &m->model.car.sensor;
    now->unknown[PLATE_LIFT] = now->plate == PLATE_ON_REST ? sensor->rest_height : sensor->top_stop;
    now->unknown[PLATE_SPEED] = 0;
  }
}

enum machine_outcome
machine_advance (struct machine *m, double time)
{
  long most = m->steps + STEPS_MOST;

  if (!(time >= m->model.now.time && isfinite (time)))
    return MACHINE_BAD_INPUT;
  while (!m->failed && (time > m->reached || (time == m->reached && m->event_waits))) {
    if (m->steps >= most) {
      show (m, m->reached);
      return MACHINE_SLOW;
    }
    go_on (m);
  }
  if (m->failed)
    return MACHINE_FAILED;
  show (m, time);
  return MACHINE_DONE;
}

void
machine_get_state (const struct machine *m, struct machine_state *state)
{
  model_report (&m->model, state);
  state->steps = m->steps;
}

void
machine_take_snapshot (const struct machine *m, struct machine_snapshot *snapshot)
{
  *snapshot = m->model.now;
}

enum machine_outcome
machine_restore (struct machine *m, const struct machine_snapshot *snapshot)
{
  if (!inputs_are_sound (&snapshot->inputs) || !isfinite (snapshot->time))
    return MACHINE_BAD_INPUT;
  for (int i = 0; i < UNKNOWNS; i++)
    if (!isfinite (snapshot->unknown[i]))
      return MACHINE_BAD_INPUT;
  m->model.now = *snapshot;
  m->reached = snapshot->time;
  memcpy (m->unknown, snapshot->unknown, sizeof m->unknown);
  m->failed = false;
  begin_anew (m);
  return m->failed ? MACHINE_FAILED : MACHINE_DONE;
}

const char *
machine_outcome_text (enum machine_outcome outcome)
{
  static const char *const texts[] = {
    [MACHINE_DONE] = N_("The run went on"),
    [MACHINE_BAD_INPUT] = N_("A number of the inputs is out of its range"),
    [MACHINE_SLOW] = N_("The run switches so often that it goes slower than asked"),
    [MACHINE_FAILED] = N_("The run could not be continued from here"),
  };

  return texts[outcome];
}
