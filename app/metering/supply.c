#include "supply.h"

#include <math.h>
#include <stddef.h>

struct supply_line
supply_pump_line (const struct fuel_supply *s, double voltage)
{
  /* Displacement flow goes with speed, speed with the voltage left after the windings; pressure costs current and slip.
   * At rated voltage and pressure what remains is pump_flow. */
  double rated_volts = s->pump_voltage - s->pump_resistance * s->pump_current;
  double displaced = (s->pump_flow + s->pump_slip * s->pump_pressure) / rated_volts; /* by volt at the windings */
  double arriving = voltage * (1 - s->pump_supply_loss);
  double volts_at_zero = arriving - s->pump_resistance * (s->pump_current - s->pump_current_rate * s->pump_pressure);
  double at_zero = displaced * volts_at_zero;
  double slope = displaced * s->pump_resistance * s->pump_current_rate + s->pump_slip;
  double relieved_at_zero = at_zero + s->pump_relief_slope * s->pump_relief;
  double relieved_slope = slope + s->pump_relief_slope;
  double filter = 1 + slope * s->filter_resistance, relieved_filter = 1 + relieved_slope * s->filter_resistance;

  double drawn = fmax (0, s->suction_limit + s->tank_pressure);

  return (struct supply_line) {
    { at_zero / filter, relieved_at_zero / relieved_filter,
      s->strainer_resistance > 0 ? drawn / s->strainer_resistance : INFINITY },
    { slope / filter, relieved_slope / relieved_filter, 0 },
  };
}

double
supply_pump_flow (const struct supply_line *line, double system_pressure, double *slope, int *relief_open)
{
  double free = line->at_zero[0] - line->slope[0] * system_pressure;
  double relieved = line->at_zero[1] - line->slope[1] * system_pressure;
  int which = relieved < free;
  double flow = which ? relieved : free;

  if (line->at_zero[2] < flow) {
    which = 2;
    flow = line->at_zero[2];
  }
  if (relief_open)
    *relief_open = which == 1;
  *slope = flow > 0 ? line->slope[which] : 0;
  return flow > 0 ? flow : 0;
}

double
supply_suction (const struct fuel_supply *s, double pump_flow)
{
  return s->tank_pressure - s->strainer_resistance * pump_flow;
}

double
supply_pump_current (const struct fuel_supply *s, double voltage, double pump_pressure)
{
  double current = s->pump_current + s->pump_current_rate * (pump_pressure - s->pump_pressure);
  double arriving = voltage * (1 - s->pump_supply_loss);
  double stalled = s->pump_resistance > 0 ? arriving / s->pump_resistance : INFINITY;

  return arriving > 0 ? fmin (fmax (current, 0), stalled) : 0;
}

double
supply_relief_flow (const struct fuel_supply *s, double system_pressure, double return_pressure)
{
  double over = system_pressure - s->regulator_opening - return_pressure;

  return over > 0 ? over / s->regulator_rate : 0;
}
