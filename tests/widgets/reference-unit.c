#include "reference-unit.h"

#include "parameter.h"
#include "solve.h"

#include <glib.h>
#include <string.h>

#define BAR 1e5
#define LITRES_PER_HOUR (1 / 3.6e6)

static void
sensor (struct air_sensor *sensor)
{
  static const double depth[] = { 0, 1, 1.5, 2, 3, 4.5, 7, 11, 16, 24, 34 };
  static const double clearance[] = { 0.05, 0.05, 0.52, 1.15, 2.17, 3.67, 5.87, 8.86, 11.81, 15.98, 19.77 };

  *sensor = (struct air_sensor) { .plate_radius = 0.04, .plate_thickness = 0.0012, .plate_arm = 0.15,
                                  .roller_arm = 0.02, .discharge = 0.76, .play = 0.001, .top_stop = 0.036 };
  sensor->funnel_points = G_N_ELEMENTS (depth);
  for (int i = 0; i < sensor->funnel_points; i++) {
    sensor->funnel_depth[i] = depth[i] * 1e-3;
    sensor->funnel_clearance[i] = clearance[i] * 1e-3;
  }
}

static void
distributor (struct fuel_distributor *distributor, int cylinders)
{
  *distributor = (struct fuel_distributor) {
    .plunger_diameter = 0.01, .mixture_screw_pitch = 2e-5, .slot_discharge = 0.67, .slot_transition = 10,
    .valve_area = 4e-4, .valve_travel = 1e-4, .valve_seat_diameter = 3e-3, .valve_seat_discharge = 0.7 };
  for (int i = 0; i < CYLINDERS_MAX; i++) {
    distributor->slot_width[i] = 2e-4 * 6 / cylinders;
    distributor->slot_height[i] = 5e-3;
    distributor->valve_drop[i] = 0.105 * BAR;
    distributor->valve_rate[i] = 1e4;
    distributor->nozzle_opening[i] = 3.4 * BAR;
    distributor->nozzle_rate[i] = 0.2 * BAR / (8 * LITRES_PER_HOUR);
  }
}

static void
control (struct control_circuit *control)
{
  *control = (struct control_circuit) {
    .orifice_diameter = 4e-4, .orifice_discharge = 0.72, .seat_area = 25.6e-6, .diaphragm_area = 50e-6,
    .spring_force = 9.34, .flow_rate = 0.1 * BAR / (6 * LITRES_PER_HOUR), .floor_pressure = 0.4 * BAR,
    .release_temperature = 70, .bimetal_length = 0.036, .bimetal_width = 0.008, .bimetal_thickness = 0.001,
    .bimetal_expansion = 13e-6, .bimetal_modulus = 170e9, .load_vacuum_low = 0.15 * BAR,
    .load_vacuum_high = 0.30 * BAR, .load_travel = 0.002, .load_spring_rate = 896, .load_tightness = 1,
    .heater_resistance = 21, .heater_coefficient = 1e-3, .heater_supply = 1, .bimetal_capacity = 20,
    .housing_capacity = 260, .bimetal_housing = 0.1, .housing_block = 0.3, .housing_air = 0.07 };
}

/* What only a run in time needs stays at the least that a car may have. */
static void
fill_the_rest (struct car *car)
{
  for (int i = 0; i < parameter_count; i++)
    for (int j = 0; j < parameter_values (car, &parameters[i]); j++)
      if (parameter_get (car, &parameters[i], j) == 0 && parameters[i].least > 0)
        *parameter_in (car, &parameters[i], j) = parameters[i].least;
}

void
reference_unit (struct car *car, int cylinders, enum plate_direction direction)
{
  memset (car, 0, sizeof *car);
  car->cylinders = cylinders;
  car->direction = direction;
  sensor (&car->sensor);
  distributor (&car->distributor, cylinders);
  control (&car->control);
  car->supply = (struct fuel_supply) {
    .pump_flow = 115 * LITRES_PER_HOUR, .pump_voltage = 12, .pump_pressure = 5 * BAR,
    .pump_slip = 6 * LITRES_PER_HOUR / BAR, .pump_resistance = 0.1, .pump_current = 6, .pump_current_rate = 1e-5,
    .pump_relief = 7.5 * BAR, .pump_relief_slope = 1e-9, .filter_resistance = 0.15 * BAR / (130 * LITRES_PER_HOUR),
    .regulator_opening = 4.85 * BAR, .regulator_rate = 0.12 * BAR / (120 * LITRES_PER_HOUR),
    .return_resistance = 1e12 };
  car->fuel = (struct fuel) { .density = 745, .hydrogen_carbon = 1.85, .viscosity = 7e-7, .viscosity_slope = 0.01 };
  car->engine = (struct engine_air) { .displacement = 2.8e-3, .idle_air = 18 / 3600.0, .full_air = 500 / 3600.0,
                                      .lambda_rich = 0.86, .lambda_lean = 1.08 };
  fill_the_rest (car);
}

void
reference_state (const struct car *car, double air, double coolant, double vacuum, struct conditions *conditions,
                 struct state *state)
{
  conditions_usual (conditions);
  conditions->air_flow = air / 3600;
  conditions->block_temperature = coolant;
  conditions->vacuum = vacuum * 100;
  g_assert_cmpint (metering_solve (car, conditions, state), ==, OUTCOME_SOLVED);
}
