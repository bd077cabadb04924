#include "control.h"
#include "bimetal.h"

#include <math.h>

#define PI 3.14159265358979323846
#define PIECE 30.0     /* s: the heater's resistance changes by about 1 % in this time */
#define PIECES_MAX 24

/* Resistance of the heater at a temperature by the one at 20 degC. */
static double
heater_warmth (const struct control_circuit *c, double temperature)
{
  return 1 + c->heater_coefficient * (temperature - 20);
}

static double
heater_power (const struct control_circuit *c, double volts, double temperature)
{
  return volts * volts / (c->heater_resistance * heater_warmth (c, temperature));
}

/* Bimetal and housing as a linear system over one piece of time: the heater's power is linearised about the bimetal's
 * temperature at its start, then the system is solved exactly by its two eigenvalues. */
static void
heat_piece (const struct control_circuit *c, double block, double air, double volts, double time, double temperature[2])
{
  double power = heater_power (c, volts, temperature[0]);
  double fade = power * c->heater_coefficient / heater_warmth (c, temperature[0]); /* -dP/dT */
  double a = -(c->bimetal_housing + fade) / c->bimetal_capacity, b = c->bimetal_housing / c->bimetal_capacity;
  double p = c->bimetal_housing / c->housing_capacity;
  double q = -(c->bimetal_housing + c->housing_block + c->housing_air) / c->housing_capacity;
  double force0 = (power + fade * temperature[0]) / c->bimetal_capacity;
  double force1 = (c->housing_block * block + c->housing_air * air) / c->housing_capacity;
  double determinant = a * q - b * p;
  double end0 = (b * force1 - q * force0) / determinant, end1 = (p * force0 - a * force1) / determinant;
  double half = 0.5 * (a + q), spread = sqrt (0.25 * (a - q) * (a - q) + b * p);
  double slow = exp ((half + spread) * time), fast = exp ((half - spread) * time);
  double mean = (slow + fast) / 2, difference = (slow - fast) / (2 * spread);
  double d0 = temperature[0] - end0, d1 = temperature[1] - end1;

  temperature[0] = end0 + (mean + difference * (a - half)) * d0 + difference * b * d1;
  temperature[1] = end1 + (mean + difference * (q - half)) * d1 + difference * p * d0;
}

double
control_bimetal_temperature (const struct control_circuit *control, double block_temperature, double air_temperature,
                             double voltage, double time)
{
  double temperature[2] = { block_temperature, block_temperature };
  int pieces = time < PIECE * PIECES_MAX ? (int) ceil (time / PIECE) : PIECES_MAX;

  for (int i = 0; i < pieces; i++)
    heat_piece (control, block_temperature, air_temperature, voltage * control->heater_supply, time / pieces,
                temperature);
  return temperature[0];
}

double
control_heater_power (const struct control_circuit *control, double voltage, double temperature)
{
  return heater_power (control, voltage * control->heater_supply, temperature);
}

double
control_bimetal_deflection (const struct control_circuit *control, double temperature)
{
  double below = control->release_temperature - temperature;
  double curvature;

  if (below <= 0)
    return 0;
  curvature = bimetal_curvature (control->bimetal_expansion, below, control->bimetal_thickness, 1, 1);
  return bimetal_deflection (curvature, control->bimetal_length);
}

double
control_bimetal_force (const struct control_circuit *control, double temperature)
{
  return bimetal_blocked_force (control_bimetal_deflection (control, temperature), control->bimetal_length,
                                control->bimetal_width, control->bimetal_thickness, control->bimetal_modulus);
}

double
control_load_position (const struct control_circuit *control, double vacuum)
{
  double felt = vacuum * control->load_tightness;
  double share = (felt - control->load_vacuum_low) / (control->load_vacuum_high - control->load_vacuum_low);

  return control->load_travel * fmin (fmax (share, 0), 1);
}

double
control_load_force (const struct control_circuit *control, double load_position)
{
  return control->load_spring_rate * (control->load_travel - load_position);
}

double
control_base_pressure (const struct control_circuit *control, double bimetal_force, double load_force,
                       double return_pressure)
{
  double regulated = (control->spring_force - bimetal_force - load_force
                      - return_pressure * (control->diaphragm_area - control->seat_area))
                     / control->seat_area;

  return fmax (fmax (regulated, control->floor_pressure), return_pressure);
}

double
control_orifice (const struct control_circuit *control, double fuel_density)
{
  double area = 0.25 * PI * control->orifice_diameter * control->orifice_diameter;

  return control->orifice_discharge * area * sqrt (2 / fuel_density);
}

double
control_pressure_at (double system_pressure, double base_pressure, double orifice, double flow_rate, bool shut,
                     double *flow, double *by_system)
{
  double over = system_pressure - base_pressure;
  double rate = flow_rate * orifice, root;

  if (shut || over <= 0) {
    *flow = 0;
    *by_system = 1;
    return system_pressure;
  }
  root = 2 * over / (rate + sqrt (rate * rate + 4 * over)); /* sqrt(p_s - p_c) */
  *flow = orifice * root;
  *by_system = rate / (2 * root + rate);
  return base_pressure + flow_rate * *flow;
}
