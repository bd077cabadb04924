#include "equations.h"
#include "air.h"
#include "control.h"
#include "fuel.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846
#define PRESSURE 1e5 /* scales of the unknowns and of their equations */
#define LIFT 1e-3
#define FLOW 1e-5
#define OPENING 1e-6

void
equations_set (struct equations *e, const struct car *car, const struct conditions *conditions)
{
  const struct air_sensor *s = &car->sensor;
  double pressure = air_standard_pressure (conditions->altitude);
  double bimetal = control_bimetal_temperature (&car->control, conditions->block_temperature,
                                                conditions->ambient_temperature, conditions->voltage,
                                                conditions->heater_time);

  e->car = car;
  e->unknowns = 4 + car->cylinders;
  e->air = (struct sensor_air) { air_density (pressure, conditions->ambient_temperature, conditions->humidity),
                                 air_viscosity (conditions->ambient_temperature) };
  e->fuel = (struct distributor_fuel) { fuel_density_at (&car->fuel, conditions->fuel_temperature),
                                       fuel_viscosity_at (&car->fuel, conditions->fuel_temperature) };
  e->pump = supply_pump_line (&car->supply, conditions->voltage);
  e->orifice = control_orifice (&car->control, e->fuel.density);
  e->seat = distributor_seat (&car->distributor, &e->fuel);
  e->bimetal_force = control_bimetal_force (&car->control, bimetal);
  e->load_force = control_load_force (&car->control, control_load_position (&car->control, conditions->vacuum));
  e->air_flow = conditions->air_flow;
  e->approach = conditions->approach;
  e->plunger_area = 0.25 * PI * car->distributor.plunger_diameter * car->distributor.plunger_diameter;
  e->lever = s->roller_arm / s->plate_arm;
  e->drop_by_control = e->plunger_area * e->lever / (PI * s->plate_radius * s->plate_radius);
}

void
equations_solution (const struct equations *e, const struct state *state, double *x)
{
  x[0] = state->system_pressure / PRESSURE;
  x[1] = state->control_pressure / PRESSURE;
  x[2] = state->plate_lift / LIFT;
  x[3] = state->return_flow / FLOW;
  for (int i = 0; i + 4 < e->unknowns; i++)
    x[4 + i] = state->cylinder[i].valve_opening / OPENING;
}

static double
odd_root (double x)
{
  return x >= 0 ? sqrt (x) : -sqrt (-x);
}

/* What every row needs, at one set of unknowns. */
struct common {
  double system, control, lift, returned;
  double back, relief, base, drop, root, control_flow, plunger;
};

static struct common
common_at (const struct equations *e, const double *x)
{
  const struct car *car = e->car;
  struct common c = { x[0] * PRESSURE, x[1] * PRESSURE, x[2] * LIFT, x[3] * FLOW };

  c.back = car->supply.return_resistance * c.returned * c.returned;
  c.relief = supply_relief_flow (&car->supply, c.system, c.back);
  c.base = control_base_pressure (&car->control, e->bimetal_force, e->load_force, c.back);
  c.root = odd_root (c.system - c.control);
  c.control_flow = e->orifice * c.root;
  c.drop = fmax (sensor_balance_drop (&car->sensor, c.control * e->plunger_area + car->distributor.counter_spring,
                                      e->approach), 1);
  c.plunger = sensor_plunger_lift (&car->sensor, c.lift, car->distributor.mixture_offset);
  return c;
}

struct row {
  double opening, drop, flow, root; /* root of the pressure over the seat */
  double by_drop, by_opening;       /* of the slot's flow */
};

static struct row
row_at (const struct equations *e, const struct common *c, int i, double valve, int with_slopes)
{
  const struct fuel_distributor *d = &e->car->distributor;
  struct row r = { distributor_slot_opening (d, i, c->plunger),
                   fmax (d->valve_drop[i] - d->valve_rate[i] / d->valve_area * valve, 1) };
  double discharge = 0;

  r.flow = distributor_slot_flow (d, &e->fuel, i, r.opening, r.drop, &discharge, with_slopes ? &r.by_drop : NULL);
  r.root = odd_root (c->system - r.drop - d->nozzle_opening[i] - d->nozzle_rate[i] * r.flow);
  if (with_slopes && r.opening > 0 && r.opening < d->slot_height[i]) {
    double t = discharge / d->slot_discharge, w = d->slot_width[i], speed = sqrt (2 * r.drop / e->fuel.density);
    double a = 2 * 2 * w * r.opening / (w + r.opening) * speed / (e->fuel.viscosity * d->slot_transition);
    r.by_opening = r.flow / r.opening + d->slot_discharge * w * speed * (1 - t * t) * a * w / (w + r.opening);
  }
  return r;
}

void
equations_residual (const struct equations *e, const double *x, double *f)
{
  const struct car *car = e->car;
  struct common c = common_at (e, x);
  double slope, out = c.relief + c.control_flow;

  for (int i = 0; i < car->cylinders; i++) {
    double valve = x[4 + i] * OPENING;
    struct row r = row_at (e, &c, i, valve, 0);
    out += r.flow;
    f[4 + i] = (e->seat * valve * r.root - r.flow) / FLOW;
  }
  f[0] = (out - supply_pump_flow (&e->pump, c.system, &slope, NULL)) / FLOW;
  f[1] = (c.control - c.base - car->control.flow_rate * c.control_flow) / PRESSURE;
  f[2] = sensor_flow (&car->sensor, &e->air, c.lift, c.drop, NULL, NULL) / e->air_flow - 1;
  f[3] = (c.returned - c.relief - c.control_flow) / FLOW;
}

void
equations_jacobian (const struct equations *e, const double *x, double *j)
{
  const struct car *car = e->car;
  const struct control_circuit *control = &car->control;
  const int n = e->unknowns;
  struct common c = common_at (e, x);
  double pump_slope, by_lift, by_drop, relief = c.relief > 0 ? 1 / car->supply.regulator_rate : 0;
  double through = e->orifice / (2 * fmax (fabs (c.root), 1e-3)), back = 2 * car->supply.return_resistance * c.returned;
  double base = c.base > control->floor_pressure && c.base > c.back
                  ? -(control->diaphragm_area - control->seat_area) / control->seat_area : 0;

  memset (j, 0, (size_t) (n * n) * sizeof *j);
  supply_pump_flow (&e->pump, c.system, &pump_slope, NULL);
  sensor_flow (&car->sensor, &e->air, c.lift, c.drop, &by_lift, &by_drop);
  j[0] = (relief + through + pump_slope) * PRESSURE / FLOW;
  j[1] = -through * PRESSURE / FLOW;
  j[3] = -relief * back;
  j[n + 0] = -control->flow_rate * through;
  j[n + 1] = 1 + control->flow_rate * through;
  j[n + 3] = -base * back * FLOW / PRESSURE;
  j[2 * n + 1] = by_drop * e->drop_by_control * PRESSURE / e->air_flow;
  j[2 * n + 2] = by_lift * LIFT / e->air_flow;
  j[3 * n + 0] = -(relief + through) * PRESSURE / FLOW;
  j[3 * n + 1] = through * PRESSURE / FLOW;
  j[3 * n + 3] = 1 + relief * back;
  for (int i = 0; i < car->cylinders; i++) {
    double valve = x[4 + i] * OPENING, soft = car->distributor.valve_rate[i] / car->distributor.valve_area;
    double rate = car->distributor.nozzle_rate[i], half;
    struct row r = row_at (e, &c, i, valve, 1);
    double *row = &j[(4 + i) * n];

    half = e->seat * valve / (2 * fmax (fabs (r.root), 1e-3));
    j[2] += r.by_opening * e->lever * LIFT / FLOW;
    j[4 + i] = -r.by_drop * soft * OPENING / FLOW;
    row[0] = half * PRESSURE / FLOW;
    row[2] = -(half * rate + 1) * r.by_opening * e->lever * LIFT / FLOW;
    row[4 + i] = (e->seat * r.root + half * soft * (1 + rate * r.by_drop) + r.by_drop * soft) * OPENING / FLOW;
  }
}
