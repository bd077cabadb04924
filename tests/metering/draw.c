#include "draw.h"
#include "cars.h"
#include "parameter.h"

#include <math.h>
#include <string.h>

/* SplitMix64 (Steele, Lea and Flood 2014) */
static uint64_t
next (struct draw *draw)
{
  uint64_t z = (draw->state += 0x9e3779b97f4a7c15u);

  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

struct draw
draw_start (uint64_t series, uint64_t index)
{
  struct draw draw = { series * 0xd1342543de82ef95u + index };

  draw.state = next (&draw);
  return draw;
}

double
draw_between (struct draw *draw, double least, double most)
{
  return least + (most - least) * ((double) (next (draw) >> 11) * 0x1p-53);
}

bool
draw_chance (struct draw *draw, double probability)
{
  return draw_between (draw, 0, 1) < probability;
}

static double
by_factor (struct draw *draw, double value, double spread)
{
  return value * exp (draw_between (draw, -spread, spread));
}

static double
log_between (struct draw *draw, double least, double most)
{
  return exp (draw_between (draw, log (least), log (most)));
}

static void
resize (struct car *car, int cylinders)
{
  for (int i = 0; i < parameter_count; i++)
    if (parameters[i].many == EACH_CYLINDER)
      for (int j = car->cylinders; j < cylinders; j++)
        *parameter_in (car, &parameters[i], j) = parameter_get (car, &parameters[i], 0);
  car->cylinders = cylinders;
}

static uint64_t
hash (const char *key)
{
  uint64_t h = 0xcbf29ce484222325u; /* FNV-1a */

  for (; *key; key++)
    h = (h ^ (unsigned char) *key) * 0x100000001b3u;
  return h;
}

/* Whether the steady unit reads it */
static bool
is_steady (const struct parameter *p)
{
  static const char *const groups[] = { "sensor", "distributor", "supply", "control", "fuel", "engine" };

  for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++)
    if (strcmp (p->group, groups[i]) == 0)
      return p->many != EACH_POINT;
  return false;
}

/* Every value but the profile by a factor of its own, which does not hang on what other rows the table has */
static void
scatter (struct draw *draw, struct car *car, double spread)
{
  uint64_t number = next (draw);

  for (int i = 0; i < parameter_count; i++) {
    const struct parameter *p = &parameters[i];
    struct draw own = draw_start (hash (p->key), number);
    for (int j = 0; is_steady (p) && j < parameter_values (car, p); j++) {
      double *value = parameter_in (car, p, j);
      *value = fmin (fmax (by_factor (&own, *value, spread), p->least), p->most);
    }
  }
}

static void
own_profile (struct draw *draw, struct air_sensor *s)
{
  bool land = true; /* cylindrical still: only there may the clearance stay */

  s->funnel_points = 2 + (int) draw_between (draw, 0, FUNNEL_POINTS_MAX - 1);
  for (int i = 0; i < s->funnel_points; i++) {
    s->funnel_depth[i] = i ? s->funnel_depth[i - 1] + log_between (draw, 1e-4, 4e-3) : 0;
    s->funnel_clearance[i]
      = i ? s->funnel_clearance[i - 1] + (land && draw_chance (draw, 0.15) ? 0 : log_between (draw, 1e-5, 2.5e-3))
          : log_between (draw, 2e-5, 1e-3);
    land = s->funnel_clearance[i] == s->funnel_clearance[0];
  }
}

static void
scaled_profile (struct draw *draw, struct air_sensor *s, double spread)
{
  double depth = by_factor (draw, 1, spread), clearance = by_factor (draw, 1, spread);

  for (int i = 0; i < s->funnel_points; i++) {
    s->funnel_depth[i] = fmin (s->funnel_depth[i] * depth, 0.1);
    s->funnel_clearance[i] *= clearance;
  }
}

static void
keep_rules (struct car *car)
{
  struct air_sensor *s = &car->sensor;
  struct control_circuit *c = &car->control;

  s->roller_arm = fmin (s->roller_arm, 0.8 * s->plate_arm);
  s->rest_height = fmin (s->rest_height, 0.5 * s->top_stop);
  s->play = fmin (s->play, 0.5 * s->top_stop);
  c->load_vacuum_high = fmax (c->load_vacuum_high, c->load_vacuum_low + 500);
  c->diaphragm_area = fmax (c->diaphragm_area, c->seat_area);
  car->supply.shutoff_closing = fmin (car->supply.shutoff_closing, 0.8 * car->supply.shutoff_opening);
  car->engine.full_air = fmax (car->engine.full_air, 2 * car->engine.idle_air);
}

static void
odd_metering (struct draw *draw, struct car *car)
{
  struct air_sensor *s = &car->sensor;
  struct fuel_distributor *d = &car->distributor;

  if (draw_chance (draw, 0.3))
    own_profile (draw, s);
  if (draw_chance (draw, 0.3))
    s->rest_height = draw_between (draw, -0.003, 0.003);
  if (draw_chance (draw, 0.2))
    s->unbalance = draw_between (draw, -0.3, 0.3);
  if (draw_chance (draw, 0.3))
    s->friction = draw_between (draw, 0, 2);
  if (draw_chance (draw, 0.3))
    d->counter_spring = draw_between (draw, 0, 40);
  if (draw_chance (draw, 0.4))
    d->mixture_offset = draw_between (draw, -2e-4, 3e-4);
  for (int i = 0; i < car->cylinders; i++) {
    if (draw_chance (draw, 0.3))
      d->slot_edge[i] = draw_between (draw, -5e-5, 1e-4);
    if (draw_chance (draw, 0.1))
      d->valve_rate[i] = log_between (draw, 300, 1.5e5);
    if (draw_chance (draw, 0.05))
      d->slot_width[i] = 2e-5;
    if (draw_chance (draw, 0.1))
      d->nozzle_opening[i] = draw_between (draw, 1e5, 6e5);
    if (draw_chance (draw, 0.05))
      d->nozzle_rate[i] = draw_chance (draw, 0.5) ? 0 : log_between (draw, 1e9, 5e11);
  }
}

static void
odd_supply (struct draw *draw, struct car *car)
{
  struct fuel_supply *s = &car->supply;

  if (draw_chance (draw, 0.25))
    s->pump_flow *= draw_chance (draw, 0.1) ? 0 : draw_between (draw, 0.05, 1);
  if (draw_chance (draw, 0.15))
    s->pump_slip = 0;
  if (draw_chance (draw, 0.15))
    s->pump_current_rate = 0;
  if (draw_chance (draw, 0.3))
    s->return_resistance = draw_chance (draw, 0.4) ? 0 : log_between (draw, 1e12, 1e16);
  if (draw_chance (draw, 0.2))
    s->regulator_rate = log_between (draw, 1e7, 3e9);
  if (draw_chance (draw, 0.2))
    s->filter_resistance *= draw_between (draw, 0, 40);
  if (draw_chance (draw, 0.2))
    s->regulator_opening = draw_between (draw, 2e5, 9e5);
}

static void
odd_control (struct draw *draw, struct car *car)
{
  struct control_circuit *c = &car->control;

  if (draw_chance (draw, 0.2))
    c->load_spring_rate = 0;
  if (draw_chance (draw, 0.2))
    c->load_tightness = draw_chance (draw, 0.5) ? 0 : draw_between (draw, 0, 1);
  if (draw_chance (draw, 0.1))
    c->heater_resistance = 1e9;
  if (draw_chance (draw, 0.1))
    c->heater_supply = 0;
  if (draw_chance (draw, 0.1))
    c->orifice_diameter = log_between (draw, 6e-5, 1.5e-3);
  if (draw_chance (draw, 0.1))
    c->flow_rate = draw_chance (draw, 0.5) ? 0 : log_between (draw, 1e8, 5e11);
  if (draw_chance (draw, 0.1))
    c->spring_force = draw_between (draw, 0, 40);
  if (draw_chance (draw, 0.2))
    car->engine.unmetered_area = draw_between (draw, 0, 1e-4);
}

void
draw_car (struct draw *draw, bool wild, struct car *car)
{
  double spread = wild ? (double[]) { 0.03, 0.2, 0.7 }[(int) draw_between (draw, 0, 3)] : 0.025;

  *car = *demo_cars[(int) draw_between (draw, 0, DEMO_CARS)].car;
  if (wild)
    resize (car, 1 + (int) draw_between (draw, 0, CYLINDERS_MAX));
  scatter (draw, car, spread);
  scaled_profile (draw, &car->sensor, spread);
  if (wild) {
    odd_metering (draw, car);
    odd_supply (draw, car);
    odd_control (draw, car);
  }
  keep_rules (car);
}

static void
whole_limits (struct draw *draw, struct conditions *c)
{
  for (int i = 0; i < condition_count; i++)
    *condition_in (c, &condition_table[i]) = draw_between (draw, condition_table[i].least, condition_table[i].most);
  c->air_flow = draw_chance (draw, 0.03) ? 0 : draw_chance (draw, 0.2) ? c->air_flow : log_between (draw, 1e-5, 0.4);
  c->heater_time = draw_chance (draw, 0.5) ? 0 : draw_chance (draw, 0.2) ? c->heater_time : log_between (draw, 1, 2000);
}

static void
running (struct draw *draw, const struct car *car, struct conditions *c)
{
  conditions_usual (c);
  c->air_flow = log_between (draw, car->engine.idle_air, car->engine.full_air);
  c->block_temperature = draw_between (draw, -20, 95);
  c->heater_time = draw_chance (draw, 0.5) ? 0 : draw_between (draw, 0, 600);
  c->vacuum = draw_between (draw, 0, 70000);
  c->altitude = draw_between (draw, 0, 3000);
  c->ambient_temperature = draw_between (draw, -20, 40);
  c->humidity = draw_between (draw, 0, 1);
  c->fuel_temperature = draw_between (draw, -20, 50);
  c->voltage = draw_between (draw, 11, 14.5);
}

static void
hold_some (struct draw *draw, const struct car *car, struct conditions *c)
{
  c->tap_shut = draw_chance (draw, 0.1);
  c->heater_unplugged = draw_chance (draw, 0.1);
  c->approach = draw_chance (draw, 0.3) ? -1 : draw_chance (draw, 0.5) ? 1 : 0;
  if (draw_chance (draw, 0.1))
    c->held |= HOLD_PLATE;
  if (draw_chance (draw, 0.1))
    c->held |= HOLD_CONTROL_PRESSURE;
  if (draw_chance (draw, 0.1))
    c->held |= HOLD_SYSTEM_PRESSURE;
  if (draw_chance (draw, 0.1))
    c->held |= HOLD_BIMETAL;
  c->held_lift = draw_chance (draw, 0.2) ? draw_between (draw, -0.01, 0.1)
                                         : draw_between (draw, car->sensor.rest_height, car->sensor.top_stop);
  c->held_control_pressure = draw_between (draw, 0, draw_chance (draw, 0.2) ? 1.5e6 : 5e5);
  c->held_system_pressure = draw_between (draw, 0, draw_chance (draw, 0.2) ? 1.5e6 : 8e5);
  c->held_bimetal_temperature = draw_between (draw, -60, 300);
}

void
draw_conditions (struct draw *draw, bool wild, const struct car *car, struct conditions *conditions)
{
  memset (conditions, 0, sizeof *conditions);
  if (wild && draw_chance (draw, 0.5))
    whole_limits (draw, conditions);
  else
    running (draw, car, conditions);
  if (wild)
    hold_some (draw, car, conditions);
}
