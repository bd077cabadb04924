#include "distributor.h"
#include "root.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

#define PI 3.14159265358979323846
#define FLOW_TOLERANCE 1e-13 /* relative */
#define SMALL_STEP 1e-8      /* of what bends the curve: the Newton step after one as small as this is below rounding */

/* One slot at a fixed opening, reduced to what its flow by the ideal speed u = sqrt(2 drop / rho) needs:
 * q = full u tanh(rate u). */
struct slot {
  double full; /* turbulent discharge x area, m2 */
  double rate; /* 2 D_h / (nu l_transition), s/m */
};

static inline struct slot
slot_at (const struct fuel_distributor *d, const struct distributor_fuel *fuel, int cylinder, double opening)
{
  double width = d->slot_width[cylinder];
  double area = width * opening;
  double hydraulic = 2 * area / (width + opening);

  return (struct slot) { d->slot_discharge * area, 2 * hydraulic / (fuel->viscosity * d->slot_transition) };
}

/* tanh for arguments >= 0 by one exponential */
static inline double
positive_tanh (double x)
{
  if (x > 19)
    return 1;
  if (x < 0.1)
    return tanh (x); /* the quotient would lose digits */
  return 1 - 2 / (exp (2 * x) + 1);
}

static inline double
slot_flow (const struct slot *slot, double speed, double *by_speed)
{
  double t = positive_tanh (slot->rate * speed);

  *by_speed = slot->full * (t + slot->rate * speed * (1 - t * t));
  return slot->full * speed * t;
}

double
distributor_slot_opening (const struct fuel_distributor *d, int cylinder, double plunger_lift)
{
  double opening = plunger_lift - d->slot_edge[cylinder];

  /* A plunger on its stop shuts every slot, wherever the slot's edge lies */
  if (plunger_lift <= 0 || opening <= 0)
    return 0;
  return fmin (opening, d->slot_height[cylinder]);
}

double
distributor_slot_flow (const struct fuel_distributor *d, const struct distributor_fuel *fuel, int cylinder,
                       double opening, double drop, double *discharge, double *by_drop)
{
  struct slot slot = slot_at (d, fuel, cylinder, opening);
  double speed = sqrt (2 * drop / fuel->density), by_speed;
  double flow = slot_flow (&slot, speed, &by_speed);

  if (discharge)
    *discharge = d->slot_discharge * positive_tanh (slot.rate * speed);
  if (by_drop)
    *by_drop = speed > 0 ? by_speed / (speed * fuel->density) : INFINITY;
  return flow;
}

static inline double
seat_coefficient (const struct fuel_distributor *d, const struct distributor_fuel *fuel)
{
  return d->valve_seat_discharge * PI * d->valve_seat_diameter * sqrt (2 / fuel->density);
}

double
distributor_outlet_flow (const struct fuel_distributor *d, const struct distributor_fuel *fuel, int cylinder,
                         double valve_opening, double upper_pressure)
{
  double head = upper_pressure - d->nozzle_opening[cylinder];
  double c = seat_coefficient (d, fuel) * valve_opening;
  double kc = d->nozzle_rate[cylinder] * c;

  /* q = c sqrt(head - k q), the positive root of q^2 + k c^2 q - c^2 head = 0 */
  return head > 0 && c > 0 ? c * 2 * head / (kc + sqrt (kc * kc + 4 * head)) : 0;
}

/* What one cylinder's two equations need. */
struct cylinder {
  struct slot slot;
  double seat;      /* flow by opening and root of pressure */
  double drop;      /* held at no flow */
  double softness;  /* fall of the drop by valve opening */
  double head;      /* system pressure above the nozzle's opening */
  double line;      /* rise of the line's pressure by flow */
  double travel;
  double twice_by_density;
};

/* Defect of the valve's flow over the slot's at a valve opening, rising with it. */
struct defect {
  double value, slope;
  double flow, flow_by_opening, root; /* of the pressure over the seat */
};

static inline struct defect
defect_at (const struct cylinder *c, double opening)
{
  struct defect r;
  double drop = c->drop - c->softness * opening;
  double speed = drop > 0 ? sqrt (c->twice_by_density * drop) : 0, by_speed, over;

  r.flow = slot_flow (&c->slot, speed, &by_speed);
  r.flow_by_opening = speed > 0 ? -by_speed * 0.5 * c->twice_by_density / speed * c->softness : 0;
  over = c->head - drop - c->line * r.flow;
  r.root = over > 0 ? sqrt (over) : 0;
  r.value = c->seat * opening * r.root - r.flow;
  r.slope = c->seat * r.root - r.flow_by_opening;
  if (over > 0)
    r.slope += c->seat * opening * (c->softness - c->line * r.flow_by_opening) / (2 * r.root);
  return r;
}

/* The diaphragm lies on its stop: slot, open seat and nozzle in series. Finds the slot's drop, and how the flow goes with
 * the pressure. */
static double
drop_at_stop (const struct cylinder *c, double *flow_by_pressure)
{
  double most = fmin (c->drop - c->softness * c->travel, c->head);
  struct bracket bracket = { .high = most };
  double drop = 0.5 * most;

  while (bracket.steps < ROOT_STEPS_MAX) {
    double speed = sqrt (c->twice_by_density * drop), by_speed, flow, by_drop, over, root, seat, f, slope, next;

    flow = slot_flow (&c->slot, speed, &by_speed);
    over = c->head - drop - c->line * flow;
    root = over > 0 ? sqrt (over) : 0;
    seat = c->seat * c->travel;
    f = flow - seat * root;
    slope = by_drop = by_speed * 0.5 * c->twice_by_density / speed;
    if (over > 0) {
      slope += seat * (1 + c->line * by_drop) / (2 * root);
      *flow_by_pressure = by_drop * seat / (2 * root * slope);
    }
    if (fabs (f) <= FLOW_TOLERANCE * flow)
      break;
    next = bracket_next (&bracket, drop, f, slope);
    if (fabs (next - drop) <= 1e-16 * most)
      return next;
    drop = next;
  }
  return drop;
}

static double
opening_in_balance (const struct cylinder *c, double most, double guess, struct defect *r)
{
  struct bracket bracket = { .high = most };
  double opening = guess > 0 && guess < most ? guess : 0;

  if (opening == 0) { /* the drop at no flow is nearly the drop at any */
    *r = defect_at (c, 0);
    opening = r->root > 0 ? r->flow / (c->seat * r->root) : most;
    if (!(opening < most))
      opening = 0.5 * most;
  }
  while (bracket.steps < ROOT_STEPS_MAX) {
    double next, bend;

    *r = defect_at (c, opening);
    if (fabs (r->value) <= FLOW_TOLERANCE * r->flow)
      break;
    /* The curve bends over the opening and over what uses up the pressures that are left at slot and seat */
    bend = fmin (opening, fmin (r->root * r->root / (c->softness - c->line * r->flow_by_opening),
                                c->drop / c->softness - opening));
    if (fabs (r->value / r->slope) <= fmax (SMALL_STEP * bend, 1e-16 * opening))
      return fmin (fmax (opening - r->value / r->slope, bracket.low), bracket.high);
    next = bracket_next (&bracket, opening, r->value, r->slope);
    if (next == opening)
      break;
    opening = next;
  }
  return opening;
}

static void
set_still (const struct fuel_distributor *d, int i, double system_pressure, bool slot_open,
           struct cylinder_state *state)
{
  /* No flow. Behind an open slot both chambers are at system pressure and the spring holds the valve open; a shut slot
   * leaves the drop that the spring holds, the valve just shut. */
  double drop = slot_open ? 0 : fmin (d->valve_drop[i], system_pressure);

  state->slot_drop = drop;
  state->slot_discharge = 0;
  state->valve_opening = slot_open ? fmin (d->valve_travel, d->valve_drop[i] * d->valve_area / d->valve_rate[i]) : 0;
  state->upper_pressure = system_pressure - drop;
  state->line_pressure = fmin (d->nozzle_opening[i], state->upper_pressure);
  state->flow = 0;
}

double
distributor_seat (const struct fuel_distributor *d, const struct distributor_fuel *fuel)
{
  return seat_coefficient (d, fuel);
}

bool
distributor_step (const struct fuel_distributor *d, const struct distributor_fuel *fuel, int i, double seat,
                  double slot_opening, double system_pressure, double valve_opening, struct distributor_step *step)
{
  struct cylinder c = {
    .slot = slot_at (d, fuel, i, slot_opening),
    .seat = seat,
    .drop = d->valve_drop[i],
    .softness = d->valve_rate[i] / d->valve_area,
    .head = system_pressure - d->nozzle_opening[i],
    .line = d->nozzle_rate[i],
    .twice_by_density = 2 / fuel->density,
  };
  struct defect r = defect_at (&c, valve_opening);

  if (!(r.root > 0))
    return false;
  if (valve_opening <= 0) { /* a first guess: the slot's flow at the drop held at no flow */
    step->valve_opening = r.flow / (c.seat * r.root);
    step->valve_by_pressure = step->valve_by_opening = step->by_pressure = step->by_opening = 0;
    step->flow = r.flow;
  } else {
    double change = -r.value / r.slope;
    step->valve_opening = valve_opening + change;
    step->flow = r.flow + r.flow_by_opening * change;
    step->valve_by_pressure = -c.seat * valve_opening / (2 * r.root * r.slope);
    step->valve_by_opening = valve_opening / slot_opening;
    step->by_pressure = r.flow_by_opening * step->valve_by_pressure;
    step->by_opening = r.flow / slot_opening;
  }
  return step->valve_opening > 0 && step->valve_opening < d->valve_travel
         && c.drop > c.softness * step->valve_opening;
}

void
distributor_finish (const struct fuel_distributor *d, const struct distributor_fuel *fuel, int i, double slot_opening,
                    double system_pressure, double valve_opening, struct cylinder_state *state)
{
  state->slot_opening = slot_opening;
  if (slot_opening <= 0) {
    set_still (d, i, system_pressure, false, state);
    return;
  }
  state->valve_opening = valve_opening;
  state->slot_drop = d->valve_drop[i] - d->valve_rate[i] / d->valve_area * valve_opening;
  state->flow = distributor_slot_flow (d, fuel, i, slot_opening, state->slot_drop, &state->slot_discharge, NULL);
  state->upper_pressure = system_pressure - state->slot_drop;
  state->line_pressure = d->nozzle_opening[i] + d->nozzle_rate[i] * state->flow;
}

void
distributor_cylinder (const struct fuel_distributor *d, const struct distributor_fuel *fuel, int i,
                      double slot_opening, double system_pressure, struct cylinder_state *state, double *by_pressure,
                      double *by_opening)
{
  struct cylinder c = {
    .seat = seat_coefficient (d, fuel),
    .drop = d->valve_drop[i],
    .softness = d->valve_rate[i] / d->valve_area,
    .head = system_pressure - d->nozzle_opening[i],
    .line = d->nozzle_rate[i],
    .twice_by_density = 2 / fuel->density,
  };
  struct defect r;
  double guess = state->valve_opening, most = c.drop / c.softness;
  bool at_stop;

  if (by_pressure)
    *by_pressure = 0;
  if (by_opening)
    *by_opening = 0;
  state->slot_opening = slot_opening;
  if (slot_opening <= 0 || c.head <= 0) {
    set_still (d, i, system_pressure, slot_opening > 0, state);
    return;
  }
  c.slot = slot_at (d, fuel, i, slot_opening);
  c.travel = fmin (d->valve_travel, most);
  at_stop = d->valve_travel < most && defect_at (&c, d->valve_travel).value < 0;
  if (at_stop) {
    state->valve_opening = d->valve_travel;
    double flow_by_pressure = 0;
    state->slot_drop = drop_at_stop (&c, &flow_by_pressure);
    if (by_pressure)
      *by_pressure = flow_by_pressure;
  } else {
    state->valve_opening = opening_in_balance (&c, c.travel, guess, &r);
    state->slot_drop = c.drop - c.softness * state->valve_opening;
    if (by_pressure && r.root > 0)
      *by_pressure = -r.flow_by_opening * c.seat * state->valve_opening / (2 * r.root * r.slope);
  }
  state->flow = distributor_slot_flow (d, fuel, i, slot_opening, state->slot_drop, &state->slot_discharge, NULL);
  if (by_opening)
    *by_opening = state->flow / slot_opening; /* the valve holds the drop: flow goes with the area */
  state->upper_pressure = system_pressure - state->slot_drop;
  state->line_pressure = d->nozzle_opening[i] + c.line * state->flow;
}

double
distributor_cylinder_defect (const struct fuel_distributor *d, const struct distributor_fuel *fuel, int i,
                             const struct cylinder_state *state)
{
  double root, over, lack;

  if (state->flow <= 0)
    return 0;
  root = state->flow / (seat_coefficient (d, fuel) * state->valve_opening);
  over = root * root;
  /* The pressure over the seat is a small difference of large ones: what their rounding leaves is no defect */
  lack = fabs (state->upper_pressure - state->line_pressure - over) - 4 * DBL_EPSILON * state->upper_pressure;
  return lack > 0 ? lack / (2 * over + d->nozzle_rate[i] * state->flow) : 0;
}
