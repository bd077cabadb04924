/* What must hold for every car and every condition, tried on many drawn at random with a fixed seed.
 *   properties [STATES [FROM]]   TAP, one line a property: how often tried, how often broken, the worst figure
 *   properties --state NUMBER    one state, told in full
 * A state is one drawn car in one drawn condition; each property solves some more beside it.
 * Needs the metering room and libm only. */
#include "draw.h"
#include "sensor.h"
#include "solve.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SERIES 20240611
#define FUEL_MATCH 1e-9
#define JUMP 1e-4 /* of lift or lambda */

enum property {
  ALWAYS_SOLVED,
  SANE_VALUES,
  FUEL_IN_IS_FUEL_OUT,
  LEVER_IN_BALANCE,
  LOWEST_ROOT,
  LOCKED_PLATE_AIR,
  LOCKED_PLATE_FUEL,
  FUEL_RISES_WITH_AIR,
  FUEL_FALLS_WITH_CONTROL_PRESSURE,
  LIFT_STEPS,
  NO_JUMPS,
  SYSTEM_PRESSURE_TAKEN_OUT,
  SYSTEM_PRESSURE_DROWNED,
  SYSTEM_PRESSURE_WHOLE,
  LINE_PRESSURE_OWN,
  LINE_PRESSURE_OTHERS,
  LINE_PRESSURE_WHOLE,
  SAME_AGAIN,
  PROPERTIES
};

static struct tally {
  const char *text;
  bool only_printed; /* a figure of interest, no promise */
  long tried, broken;
  double worst;
} tallies[PROPERTIES] = {
  [ALWAYS_SOLVED] = { "every valid state is solved, or is too much air for the plate" },
  [SANE_VALUES] = { "no value is negative that cannot be, none is infinite or no number, no valve or slot is past its "
                    "end, residuals under 1e-9" },
  [FUEL_IN_IS_FUEL_OUT] = { "fuel in = fuel out within 1e-9" },
  [LEVER_IN_BALANCE] = { "the moments about the pivot balance within 1e-9" },
  [LOWEST_ROOT] = { "no lower system pressure balances: start-up reaches this one" },
  [LOCKED_PLATE_AIR] = { "plate locked, pressures held: air goes with sqrt((p_control + F / A) x density) within 1e-9" },
  [LOCKED_PLATE_FUEL] = { "plate locked, pressures held: fuel does not move" },
  [FUEL_RISES_WITH_AIR] = { "fuel rises with air" },
  [FUEL_FALLS_WITH_CONTROL_PRESSURE] = { "fuel falls with control pressure" },
  [LIFT_STEPS] = { "0.1 % more air moves the plate by under 0.5 % of its lift or play (worst: in %)" },
  [NO_JUMPS] = { "lift and lambda have no jump in any input (worst: what is left of a step by halving)" },
  [SYSTEM_PRESSURE_TAKEN_OUT] = { "control pressure held, system pressure +-10 %, up to the fuel for the largest air: fuel moves under 1 % (worst: in %)" },
  [SYSTEM_PRESSURE_DROWNED] = { "for information: the same beyond that fuel (worst: in %)", true },
  [SYSTEM_PRESSURE_WHOLE] = { "for information: the whole system, regulator set +-10 %: fuel moves (worst: in %)", true },
  [LINE_PRESSURE_OWN] = { "a line's pressure +0.3 bar: its fuel moves under 1 % (worst: in %)" },
  [LINE_PRESSURE_OTHERS] = { "a line's pressure +0.3 bar, pressures held: no other's fuel moves" },
  [LINE_PRESSURE_WHOLE] = { "for information: the same in the whole system: another's fuel moves (worst: in %)", true },
  [SAME_AGAIN] = { "the same state solved again is the same to the last bit" },
};

/* States that were hard once: nearly balanced valves, stalled pumps, snapping returns, crests between scanned pressures.
 * Tried before any others. */
static const long hard[] = { 25578, 30591, 51371, 202222, 205352, 208412, 228200, 297807, 305756, 357486,
                             484281, 683076, 699690, 713060, 870385, 874409, 902019, 982114,
                             166981, 332661, 638882, 2380840 };

static long now; /* number of the state at hand */
static int told;
static bool finely; /* the hard ones: lower balances may hide in a narrow crest */

static void
judge (enum property property, bool kept, double figure)
{
  struct tally *t = &tallies[property];

  t->tried++;
  if (!(figure <= t->worst))
    t->worst = figure;
  if (kept || t->only_printed)
    return;
  t->broken++;
  if (told++ < 20)
    printf ("# state %ld: not \"%s\": %g\n", now, t->text, figure);
}

static bool
solved (const struct car *car, const struct conditions *conditions, struct state *state)
{
  enum outcome outcome = metering_solve (car, conditions, state);

  judge (ALWAYS_SOLVED, outcome == OUTCOME_SOLVED || outcome == OUTCOME_TOO_MUCH_AIR, outcome);
  return outcome == OUTCOME_SOLVED;
}

/* -- of any car in any condition --------------------------------------------------------------------------------------- */

static bool
sane (const struct car *car, const struct state *state)
{
  for (int i = 0; i < state_value_count; i++) {
    double value = state_value_get (state, &state_values[i]);
    bool may_be_negative = strcmp (state_values[i].key, "bimetal_temperature") == 0
                           || strcmp (state_values[i].key, "plate_lift") == 0
                           || strcmp (state_values[i].key, "suction_pressure") == 0;
    if (!isfinite (value) || (value < 0 && !may_be_negative))
      return false;
  }
  for (int i = 0; i < 5; i++) {
    double residual = (double[]) { state->residual.plate_moment, state->residual.air, state->residual.control,
                                   state->residual.cylinder, state->residual.fuel }[i];
    if (!(residual >= 0 && residual <= 1e-9))
      return false;
  }
  for (int k = 0; k < state->cylinders; k++) {
    for (int i = 0; i < cylinder_value_count; i++) {
      double value = cylinder_value_get (&state->cylinder[k], &cylinder_values[i]);
      if (!isfinite (value) || value < 0)
        return false;
    }
    if (state->cylinder[k].valve_opening > car->distributor.valve_travel
        || state->cylinder[k].slot_opening > car->distributor.slot_height[k])
      return false;
  }
  return true;
}

static void
try_fuel_balance (const struct car *car, const struct conditions *conditions, const struct state *state)
{
  /* A pump stalled against shut valves delivers what rounding leaves: 1e-2 of its free delivery is the floor */
  double free = car->supply.pump_flow + car->supply.pump_slip * car->supply.pump_pressure;
  double sum = 0, defect = 0, most = fmax (fmax (state->pump_flow, state->fuel_volume_flow), 1e-2 * free);

  for (int i = 0; i < state->cylinders; i++)
    sum += state->cylinder[i].flow;
  if (most > 0)
    defect = fabs (sum - state->fuel_volume_flow) / most;
  if (!(conditions->held & HOLD_SYSTEM_PRESSURE) && most > 0)
    defect = fmax (defect, fabs (state->pump_flow - sum - state->relief_flow - state->control_flow) / most);
  if (state->return_flow > 0)
    defect = fmax (defect, fabs (state->return_flow - state->relief_flow - state->control_flow) / state->return_flow);
  if (state->return_pressure > 0)
    defect = fmax (defect, 1e-3 * fabs (car->supply.return_resistance * state->return_flow * state->return_flow
                                        / state->return_pressure - 1)); /* within 1e-6 */
  judge (FUEL_IN_IS_FUEL_OUT, defect <= FUEL_MATCH, defect);
}

static void
try_lever (const struct car *car, const struct conditions *conditions, const struct state *state)
{
  const struct air_sensor *s = &car->sensor;
  double closing = state->plunger_force * s->roller_arm + s->unbalance - conditions->approach * s->friction * s->plate_arm;
  double opening = state->plate_drop * 3.14159265358979323846 * s->plate_radius * s->plate_radius * s->plate_arm;
  double area = car->distributor.plunger_diameter * car->distributor.plunger_diameter * 0.78539816339744831;
  double force = state->control_pressure * area + car->distributor.counter_spring;
  /* A balance weight may all but cancel the plunger: what the rounding of the two leaves is no defect */
  double rounding = 4 * DBL_EPSILON * (state->plunger_force * s->roller_arm + fabs (s->unbalance));

  if (state->regime & (REGIME_PLATE_AT_REST | REGIME_PLATE_AT_BUFFER) || closing <= 0)
    return;
  judge (LEVER_IN_BALANCE,
         fabs (opening - closing) <= 1e-9 * closing + rounding && fabs (force - state->plunger_force) <= 1e-9 * force,
         fabs (opening - closing) / closing);
}

/* What leaves less what is delivered, with the system pressure held there. */
static double
surplus (const struct car *car, struct conditions conditions, double pressure)
{
  struct state state;

  conditions.held |= HOLD_SYSTEM_PRESSURE;
  conditions.held_system_pressure = pressure;
  if (metering_solve_checked (car, &conditions, &state) != OUTCOME_SOLVED)
    return -INFINITY; /* too much air at that pressure says nothing */
  return state.fuel_volume_flow + state.return_flow - state.pump_flow;
}

static void
try_lowest_root (const struct car *car, const struct conditions *conditions, const struct state *state)
{
  const int points = finely ? 6000 : 24;
  double worst = 0;

  if (conditions->held & (HOLD_SYSTEM_PRESSURE | HOLD_CONTROL_PRESSURE) || state->pump_flow <= 0)
    return;
  if (!(state->regime & REGIME_RELIEF_SHUT) && now % 20 != 0 && !finely)
    return;
  if (fabs (surplus (car, *conditions, state->system_pressure)) > 1e-6 * state->pump_flow)
    return; /* a return that snaps: its other branch answers here */
  for (int i = 1; i < points; i++)
    worst = fmax (worst, surplus (car, *conditions, state->system_pressure * i / points) / state->pump_flow);
  judge (LOWEST_ROOT, worst <= 1e-9, worst);
}

/* -- laws ------------------------------------------------------------------------------------------------------------------ */

static void
try_locked_plate (struct draw *draw, struct car car, struct conditions c)
{
  double area = car.distributor.plunger_diameter * car.distributor.plunger_diameter * 0.78539816339744831;
  double most = car.sensor.top_stop, land = sensor_land (&car.sensor), expected;
  struct state one, other;

  if (land >= most)
    return;
  car.sensor.unbalance = car.sensor.friction = 0;
  c.held = HOLD_PLATE | HOLD_CONTROL_PRESSURE | HOLD_SYSTEM_PRESSURE;
  c.held_lift = draw_between (draw, land, most);
  c.held_system_pressure = draw_between (draw, 2e5, 7e5);
  c.held_control_pressure = draw_between (draw, 0.3e5, 4e5);
  if (!solved (&car, &c, &one))
    return;
  c.held_control_pressure = draw_between (draw, 0.3e5, 4e5);
  c.altitude = draw_between (draw, -400, 5000);
  c.ambient_temperature = draw_between (draw, -40, 60);
  c.humidity = draw_between (draw, 0, 1);
  if (!solved (&car, &c, &other))
    return;
  expected = sqrt ((other.control_pressure + car.distributor.counter_spring / area) * other.air_density
                   / ((one.control_pressure + car.distributor.counter_spring / area) * one.air_density));
  judge (LOCKED_PLATE_AIR, fabs (other.air_flow / one.air_flow / expected - 1) <= 1e-9,
         fabs (other.air_flow / one.air_flow / expected - 1));
  judge (LOCKED_PLATE_FUEL, other.fuel_flow == one.fuel_flow, fabs (other.fuel_flow - one.fuel_flow));
}

/* Whether the plate floats and every slot is open, but not over its whole height. */
static bool
meters (const struct car *car, const struct state *s)
{
  for (int i = 0; i < s->cylinders; i++)
    if (s->cylinder[i].slot_opening <= 0 || s->cylinder[i].slot_opening >= car->distributor.slot_height[i])
      return false;
  return !(s->regime & (REGIME_PLATE_AT_REST | REGIME_PLATE_AT_BUFFER));
}

/* Pressures held at those of the state: the law itself, without what the pump can do. */
static void
try_directions (const struct car *car, struct conditions c, const struct state *state)
{
  struct state other;
  bool strict;

  if (state->system_pressure > 1.5e6 || state->control_pressure > 1.3e6) /* more than can be held */
    return;
  c.held = (c.held & HOLD_BIMETAL) | HOLD_SYSTEM_PRESSURE | HOLD_CONTROL_PRESSURE;
  c.held_system_pressure = state->system_pressure;
  c.held_control_pressure = state->control_pressure;
  c.air_flow = fmin (state->air_flow * 1.01, 0.5);
  if (state->air_flow > 0 && c.air_flow > state->air_flow && solved (car, &c, &other)) {
    strict = meters (car, state) && meters (car, &other) && state->fuel_flow > 0;
    judge (FUEL_RISES_WITH_AIR,
           strict ? other.fuel_flow > state->fuel_flow : other.fuel_flow >= state->fuel_flow * (1 - 1e-9),
           strict ? 1 - other.fuel_flow / state->fuel_flow : 0);
  }
  c.air_flow = fmin (state->air_flow, 0.5);
  c.held_control_pressure *= 1.1;
  if (solved (car, &c, &other)) {
    strict = meters (car, state) && meters (car, &other) && state->fuel_flow > 0 && state->control_pressure > 0;
    judge (FUEL_FALLS_WITH_CONTROL_PRESSURE,
           strict ? other.fuel_flow < state->fuel_flow : other.fuel_flow <= state->fuel_flow * (1 + 1e-9),
           strict ? other.fuel_flow / state->fuel_flow - 1 : 0);
  }
}

/* -- continuity -------------------------------------------------------------------------------------------------------------- */

static void
try_lift_step (const struct car *car, struct conditions c, const struct state *state)
{
  struct state other;
  double scale = fmax (state->plate_lift, car->sensor.play), moved;

  c.air_flow = state->air_flow * 1.001;
  if (!solved (car, &c, &other))
    return;
  moved = fabs (other.plate_lift - state->plate_lift) / scale;
  judge (LIFT_STEPS, moved < 0.005, 100 * moved);
}

static double
difference (const struct state *a, const struct state *b)
{
  return fmax (fabs (a->plate_lift - b->plate_lift) / fmax (fabs (a->plate_lift), 1e-3),
               fabs (a->lambda - b->lambda) / fmax (a->lambda, 0.1));
}

/* A step of one input: where it moves much, halving goes on with the half that moves more. A slope melts away, a jump
 * stays. */
static void
try_jump (const struct car *car, struct conditions c, const struct state *state, int input)
{
  const struct condition *row = &condition_table[input];
  double *value = condition_in (&c, row), low = *value, high;
  double step = 0.002 * (row->offset == offsetof (struct conditions, air_flow) ? low : row->most - row->least), moved;
  struct state at_low = *state, at_high, at_middle;

  high = *value = fmin (low + step, row->most);
  if (!solved (car, &c, &at_high))
    return;
  moved = difference (&at_low, &at_high);
  for (int i = 0; i < 24 && moved > JUMP; i++) {
    double first, second, middle = 0.5 * (low + high);

    *value = middle;
    if (!solved (car, &c, &at_middle))
      return;
    first = difference (&at_low, &at_middle);
    second = difference (&at_middle, &at_high);
    if (first > second) {
      high = middle;
      at_high = at_middle;
    } else {
      low = middle;
      at_low = at_middle;
    }
    moved = fmax (first, second);
  }
  judge (NO_JUMPS, moved <= JUMP, moved);
}

/* -- the pressure-difference valves ---------------------------------------------------------------------------------------- */

static bool
valves_work (const struct car *car, const struct state *state)
{
  for (int i = 0; i < state->cylinders; i++)
    if (state->cylinder[i].flow <= 0 || state->cylinder[i].valve_opening >= car->distributor.valve_travel)
      return false;
  return true;
}

static void
try_system_pressure (struct car car, struct conditions c, const struct state *state)
{
  double opening = car.supply.regulator_opening;
  struct state other;

  for (int sign = -1; sign <= 1; sign += 2) {
    struct conditions held = c;
    double moved;

    held.held = HOLD_SYSTEM_PRESSURE | HOLD_CONTROL_PRESSURE;
    held.held_system_pressure = state->system_pressure * (1 + 0.1 * sign);
    held.held_control_pressure = state->control_pressure;
    if (solved (&car, &held, &other) && valves_work (&car, &other)) {
      moved = fabs (other.fuel_flow / state->fuel_flow - 1);
      judge (state->fuel_flow * state->stoichiometric <= car.engine.full_air ? SYSTEM_PRESSURE_TAKEN_OUT : SYSTEM_PRESSURE_DROWNED, moved < 0.01,
             100 * moved);
    }
    car.supply.regulator_opening = opening * (1 + 0.1 * sign);
    if (solved (&car, &c, &other) && valves_work (&car, &other))
      judge (SYSTEM_PRESSURE_WHOLE, true, 100 * fabs (other.fuel_flow / state->fuel_flow - 1));
    car.supply.regulator_opening = opening;
  }
}

static void
try_line_pressure (struct car car, struct conditions c, const struct state *state, int cylinder)
{
  struct state other;
  double own, others = 0;
  struct conditions held = c;

  held.held = HOLD_SYSTEM_PRESSURE | HOLD_CONTROL_PRESSURE;
  held.held_system_pressure = state->system_pressure;
  held.held_control_pressure = state->control_pressure;
  car.distributor.nozzle_opening[cylinder] += 0.3e5;
  if (solved (&car, &held, &other) && valves_work (&car, &other)) {
    own = fabs (other.cylinder[cylinder].flow / state->cylinder[cylinder].flow - 1);
    judge (LINE_PRESSURE_OWN, own < 0.01, 100 * own);
    for (int i = 0; i < state->cylinders; i++)
      if (i != cylinder)
        others = fmax (others, fabs (other.cylinder[i].flow / state->cylinder[i].flow - 1));
    judge (LINE_PRESSURE_OTHERS, others <= 1e-11, others);
  }
  if (!solved (&car, &c, &other) || !valves_work (&car, &other))
    return;
  others = 0;
  for (int i = 0; i < state->cylinders; i++)
    if (i != cylinder)
      others = fmax (others, fabs (other.cylinder[i].flow / state->cylinder[i].flow - 1));
  judge (LINE_PRESSURE_WHOLE, true, 100 * others);
}

/* -- one number of the series ---------------------------------------------------------------------------------------------- */

static void
try_wild (uint64_t number)
{
  struct draw draw = draw_start (SERIES, number);
  struct car car;
  struct conditions conditions;
  struct state state, again;

  draw_car (&draw, true, &car);
  draw_conditions (&draw, true, &car, &conditions);
  if (solved (&car, &conditions, &state)) {
    judge (SANE_VALUES, sane (&car, &state), 0);
    try_fuel_balance (&car, &conditions, &state);
    try_lever (&car, &conditions, &state);
    try_lowest_root (&car, &conditions, &state);
    if (number % 16 == 0) {
      metering_solve (&car, &conditions, &again);
      judge (SAME_AGAIN, memcmp (&state, &again, sizeof state) == 0, 0);
    }
    if (!(conditions.held & HOLD_PLATE))
      try_directions (&car, conditions, &state);
  }
  try_locked_plate (&draw, car, conditions);
}

static void
try_tame (uint64_t number)
{
  struct draw draw = draw_start (SERIES + 1, number);
  struct car car;
  struct conditions conditions;
  struct state state;

  draw_car (&draw, false, &car);
  draw_conditions (&draw, false, &car, &conditions);
  if (!solved (&car, &conditions, &state))
    return;
  try_lift_step (&car, conditions, &state);
  try_jump (&car, conditions, &state, (int) (number % (uint64_t) condition_count));
  if (valves_work (&car, &state)) {
    try_system_pressure (car, conditions, &state);
    try_line_pressure (car, conditions, &state, (int) (number % (uint64_t) car.cylinders));
  }
}

static void
tell_state (uint64_t number)
{
  struct draw draw = draw_start (SERIES, number);
  struct car car;
  struct conditions c;
  struct state state;

  draw_car (&draw, true, &car);
  draw_conditions (&draw, true, &car, &c);
  printf ("outcome %d\n", (int) metering_solve (&car, &c, &state));
  for (int i = 0; i < condition_count; i++)
    printf ("%s %.17g\n", condition_table[i].key, *condition_in (&c, &condition_table[i]));
  printf ("held %u: lift %g control %g system %g; tap %d\n", c.held, c.held_lift, c.held_control_pressure,
          c.held_system_pressure, c.tap_shut);
  for (int i = 0; i < state_value_count; i++)
    printf ("  %s %.17g\n", state_values[i].key, state_value_get (&state, &state_values[i]));
}

int
main (int argc, char **argv)
{
  long states = 1000000, from = 0;
  bool good = true;

  if (argc == 3 && strcmp (argv[1], "--state") == 0) {
    tell_state (strtoull (argv[2], NULL, 10));
    return 0;
  }
  if (argc > 1)
    states = strtol (argv[1], NULL, 10);
  if (argc > 2)
    from = strtol (argv[2], NULL, 10);
  if (states < 1 || from < 0 || argc > 3) {
    fprintf (stderr, "usage: properties [STATES [FROM] | --state NUMBER]\n");
    return 2;
  }
  printf ("TAP version 13\n1..%d\n", PROPERTIES);
  for (size_t i = 0; i < sizeof hard / sizeof hard[0]; i++) {
    now = hard[i];
    finely = true;
    try_wild ((uint64_t) now);
  }
  finely = false;
  for (now = from; now < from + states; now++) {
    try_wild ((uint64_t) now);
    try_tame ((uint64_t) now);
  }
  for (int i = 0; i < PROPERTIES; i++) {
    const struct tally *t = &tallies[i];
    bool kept = t->broken == 0 && t->tried > 0;
    printf ("%sok %d - %s: %ld tried, %ld broken, worst %.3g\n", kept ? "" : "not ", i + 1, t->text, t->tried, t->broken,
            t->worst);
    good = good && kept;
  }
  return !good;
}
