/* The room's formulas against figures that others published. Each check names its source; "memory": constants or clause
 * from memory. Same formula: 1e-6 relative or the figure's own digits; textbook answers: half a unit of the last printed
 * digit. */
#include "air.h"
#include "bimetal.h"
#include "control.h"
#include "distributor.h"
#include "fuel.h"
#include "near.h"
#include "sensor.h"

#define GRAVITY 9.80665

/* -- fuel to burn ---------------------------------------------------------------------------------------------------- */

/* Heywood, Internal Combustion Engine Fundamentals (1988), eq. 3.6; memory */
static void
test_stoichiometric (void)
{
  static const struct { double y, z, ratio; } rows[] = {
    { 1.87, 0, 14.599 }, { 18 / 8.0, 0, 15.127 }, { 8 / 7.0, 0, 13.503 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_within (fuel_stoichiometric (rows[i].y, rows[i].z), rows[i].ratio, 0.0005);
  assert_within (fuel_stoichiometric (3, 0.5), 9.00, 0.005); /* ethanol, the same book's table D.4; memory */
  /* Moran and Shapiro, example 13.1, octane: 15.09 printed, with air of 28.97 g/mol and 3.76 of nitrogen: 0.3 % */
  assert_near (fuel_stoichiometric (18 / 8.0, 0), 15.09, 3e-3);
}

/* 10 % of ethanol by volume (745 and 789.3 kg/m3): the masses weigh the two ratios; the mean molecule gives the same. */
static void
test_ethanol_blend (void)
{
  double petrol = 0.9 * 745, ethanol = 0.1 * 789.3;
  double carbon_petrol = petrol / (12.011 + 1.008 * 1.87), carbon_ethanol = ethanol / (12.011 + 3 * 1.008 + 0.5 * 15.999);
  double carbon = carbon_petrol + carbon_ethanol;
  double by_mass = (petrol * fuel_stoichiometric (1.87, 0) + ethanol * fuel_stoichiometric (3, 0.5)) / (petrol + ethanol);

  assert_near (by_mass, 14.008, 2e-4); /* with 9.001 for ethanol: rounding of its oxygen */
  assert_near (fuel_stoichiometric ((carbon_petrol * 1.87 + carbon_ethanol * 3) / carbon, carbon_ethanol * 0.5 / carbon),
               by_mass, 1e-9);
}

/* API MPMS 11.1 / ASTM D1250 table 54B, 740 kg/m3 at 15 degC; constants read in a text */
static void
test_volume_correction (void)
{
  static const struct { double temperature, factor; } rows[] = {
    { -20, 1.04229 }, { 0, 1.01828 }, { 20, 0.99386 }, { 40, 0.96910 }, { 60, 0.94404 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_within (fuel_volume_correction (740, rows[i].temperature), rows[i].factor, 5e-6);
}

/* -- air ---------------------------------------------------------------------------------------------------------------- */

/* Picard, Davis, Glaeser and Fujii, Metrologia 45 (2008) 149: CIPM-2007 */
static void
test_moist_air (void)
{
  static const struct { double pressure, temperature, humidity, density; } rows[] = {
    { 101325, 20, 0.5, 1.199314 }, { 101325, 15, 0, 1.225521 }, { 100000, 25, 0.6, 1.160430 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_within (air_density (rows[i].pressure, rows[i].temperature, rows[i].humidity), rows[i].density, 1e-6);
}

/* The same formula far outside its range, recomputed elsewhere from the published constants: every term counts here. */
static void
test_moist_air_terms (void)
{
  static const struct { double pressure, temperature, humidity, density; } rows[] = {
    { 101325, 60, 1, 0.98125856 }, { 80000, 45, 0.9, 0.84054454 }, { 105000, -20, 0, 1.44628671 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_near (air_density (rows[i].pressure, rows[i].temperature, rows[i].humidity), rows[i].density, 2e-8);
}

/* IAPWS-IF97, table 35: saturation pressure 3536.58941 Pa at 300 K. It is not handed out: it is taken back out of the
 * density of saturated air, with the compressibility that the vapour adds (0.1 %). */
static void
test_water_vapour (void)
{
  double p = 101325, t = 300 - ZERO_CELSIUS, fraction = 0;
  double ratio = air_density (p, t, 1) / air_density (p, t, 0), enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;

  for (int i = 0; i < 20; i++) {
    double added = -p / 300 * ((5.707e-6 - 2.051e-8 * t) * fraction + (1.9898e-4 - 2.376e-6 * t) * fraction * fraction);
    fraction = (1 - ratio * (1 + added)) / (1 - 18.01528 / 28.96546);
  }
  assert_near (fraction * p / enhancement, 3536.58941, 1e-3);
}

/* ISO 2533:1975; memory (agrees with stdatmP of GNU units) */
static void
test_standard_atmosphere (void)
{
  static const struct { double altitude, pressure, density; } rows[] = {
    { 0, 101325, 1.225 }, { 1000, 89874.56, 1.111643 }, { 2000, 79495.20, 1.006490 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    double p = air_standard_pressure (rows[i].altitude), t = air_standard_temperature (rows[i].altitude);
    assert_near (p, rows[i].pressure, 1e-6);
    assert_near (p / (AIR_GAS_CONSTANT * (t + ZERO_CELSIUS)), rows[i].density, 1e-6);
    assert_near (air_density (p, t, 0), rows[i].density, 5e-4); /* a real gas, with carbon dioxide */
  }
}

/* Rajput, Thermal Engineering, example 11.11: 14 at sea level is 11.26 at 4500 m (his own atmosphere) */
static void
test_altitude_by_density (void)
{
  double low = air_density (1.013e5, 25, 0), high = air_density (1.013e5 / pow (10, 4500 / 19300.0), 25 - 0.0064 * 4500, 0);

  assert_within (14 * sqrt (high / low), 11.26, 0.005);
}

/* Fox and McDonald, Introduction to Fluid Mechanics, example 12.2: 2.20 kg/s (2.19562) from 1 MPa, 333 K to 591 kPa
 * through 0.001 m2 */
static void
test_isentropic_flow (void)
{
  double t = 333 - ZERO_CELSIUS, choked = air_isentropic_flow (1e-3, 1e6, t, 528282);

  assert_within (air_isentropic_flow (1e-3, 1e6, t, 591e3), 2.20, 0.005);
  assert_near (air_isentropic_flow (1e-3, 1e6, t, 591e3), 2.19562, 3e-4); /* another last digit of R there */
  assert_near (air_isentropic_flow (1e-3, 1e6, t, 528e3), choked, 1e-9);
  assert_near (air_isentropic_flow (1e-3, 1e6, t, 1e5), choked, 1e-9);
  /* Saint-Venant and Wantzel's largest flow: A p0 sqrt(k / (R T0)) (2 / (k + 1))^((k + 1) / (2 (k - 1))); memory */
  assert_near (choked, 1e-3 * 1e6 * sqrt (1.4 / (AIR_GAS_CONSTANT * 333)) * pow (2 / 2.4, 3), 1e-9);
}

/* -- the plate as a variable-area meter -------------------------------------------------------------------------------- */

static const struct sensor_air still_air = { 1.2, 0 }; /* no viscosity: the land costs nothing */

/* Coulson and Richardson, Chemical Engineering vol. 1, example 6.4: float 20 mm, 6e-6 m3, 4800 kg/m3, tube 22.5 mm, Cd 0.7,
 * water: 0.071 kg/s (0.071292). The approach velocity that the book counts goes into the coefficient here. */
static void
test_rotameter (void)
{
  double float_area = G_PI * 1e-4, gap = G_PI / 4 * (0.0225 * 0.0225 - 4e-4), tube = G_PI / 4 * 0.0225 * 0.0225;
  struct air_sensor s = { .plate_radius = 0.01, .discharge = 0.7 / sqrt (1 - gap * gap / (tube * tube)),
                          .funnel_points = 2, .funnel_depth = { 0, 0.1 }, .funnel_clearance = { 0.00125, 0.00125 } };
  double drop = 6e-6 * (4800 - 1000) * 9.81 / float_area;
  const struct sensor_air water = { 1000, 0 };

  assert_within (sensor_flow (&s, &water, 0.05, drop, NULL, NULL), 0.071, 0.0005);
  assert_near (sensor_flow (&s, &water, 0.05, drop, NULL, NULL), 0.071292, 1e-5);
}

/* Doebelin and Manik, Measurement Systems, example 7.8: taper a = 2 Q / [pi D y sqrt(2 g Vb / Af)] = 0.08491 (0.085 printed)
 * for 0.1 l/min... at y 0.5 m. The formula is that of a thin gap: held here at a hundredth of lift and flow, 1 %. */
static void
test_taper (void)
{
  double taper = 2 * (0.1 / 60) / (G_PI * 0.03 * 0.5 * sqrt (2 * 9.81 * 25e-6 / 7.068e-4)), y = 0.005;
  struct air_sensor s = { .plate_radius = 0.015, .discharge = 1, .funnel_points = 2, .funnel_depth = { 0, 1 },
                          .funnel_clearance = { 0, taper / 2 } };
  double drop = 1.2 * 9.81 * 25e-6 / 7.068e-4; /* float twice as dense as the stream: (rho_b - rho) = rho */

  assert_within (taper, 0.08491, 5e-6);
  assert_near (sensor_flow (&s, &still_air, y, drop, NULL, NULL) / 1.2, 0.1 / 60 * y / 0.5, 1e-2);
}

/* De Nevers, Fluid Mechanics for Chemical Engineers, example 5.11: at one reading a rotameter's volume flow goes with
 * rho^-1/2: 100 of nitrogen are 264.575 of helium */
static void
test_other_gas (void)
{
  struct air_sensor s = { .plate_radius = 0.04, .discharge = 0.76, .funnel_points = 2, .funnel_depth = { 0, 0.03 },
                          .funnel_clearance = { 0.0001, 0.02 } };
  const struct sensor_air nitrogen = { 28.0 / 24, 0 }, helium = { 4.0 / 24, 0 };
  double n = sensor_flow (&s, &nitrogen, 0.01, 800, NULL, NULL) / nitrogen.density;
  double he = sensor_flow (&s, &helium, 0.01, 800, NULL, NULL) / helium.density;

  assert_within (100 * he / n, 264.575, 0.0005);
}

/* Gap between a plate of 40 mm and a cone of half-angle phi at a lift h: pi l (2r + l cos phi), l = h sin phi, the frustum
 * square on the cone (geometry): 438.43 and 2785.34 mm2. The least frustum leans a little upstream, where it is narrower:
 * less by up to 0.1 % at the first, 2 % at the second. */
static void
test_cone_gap (void)
{
  static const struct { double degrees, lift, area, less; } rows[] = {
    { 20, 0.005, 438.43e-6, 1e-3 }, { 30, 0.020, 2785.34e-6, 2e-2 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    double phi = rows[i].degrees * G_PI / 180;
    struct air_sensor s = { .plate_radius = 0.04, .funnel_points = 2, .funnel_depth = { 0, 0.1 },
                            .funnel_clearance = { 0, 0.1 * tan (phi) } };
    double area = sensor_area (&s, rows[i].lift, NULL), l = rows[i].lift * sin (phi);

    assert_near (G_PI * l * (0.08 + l * cos (phi)), rows[i].area, 1e-5);
    g_assert_cmpfloat (area, <=, rows[i].area * (1 + 1e-5));
    g_assert_cmpfloat (area, >, rows[i].area * (1 - rows[i].less));
  }
}

/* -- slots and orifices -------------------------------------------------------------------------------------------------- */

/* Smooth transition Cd = 0.61 tanh(2 l / lc), lc = 1000, l the flow number: figures read in a text on hydraulic orifices */
static void
test_smooth_transition (void)
{
  static const struct { double number, discharge; } rows[] = { { 100, 0.12040 }, { 500, 0.46457 }, { 2000, 0.60959 } };
  const struct fuel_distributor d = { .slot_discharge = 0.61, .slot_transition = 1000, .slot_width = { 0.0002 } };
  const struct distributor_fuel fuel = { 742, 6e-7 };
  double opening = 0.001, hydraulic = 2 * 0.0002 * opening / (0.0002 + opening), discharge;

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    double speed = rows[i].number * fuel.viscosity / hydraulic;
    distributor_slot_flow (&d, &fuel, 0, opening, 0.5 * fuel.density * speed * speed, &discharge, NULL);
    assert_within (discharge, rows[i].discharge, 5e-6);
  }
}

/* Creeping flow: Cd = delta sqrt(Re), for a slit delta = sqrt(pi / 128) = 0.156664 (Merritt, Hydraulic Control Systems,
 * 1967, prints 0.157; memory). A transition of 256 C / pi with C = pi / (pi + 2) makes the smooth law run into it. */
static void
test_creeping (void)
{
  double limit = G_PI / (G_PI + 2);
  const struct fuel_distributor d = { .slot_discharge = limit, .slot_transition = 256 * limit / G_PI, .slot_width = { 0.0002 } };
  const struct distributor_fuel fuel = { 742, 6e-7 };
  double opening = 0.001, hydraulic = 2 * 0.0002 * opening / (0.0002 + opening), drop = 1e-6, discharge;
  double flow = distributor_slot_flow (&d, &fuel, 0, opening, drop, &discharge, NULL);
  double reynolds = hydraulic * flow / (0.0002 * opening) / fuel.viscosity;

  assert_within (limit, 0.611015, 5e-7);
  assert_near (discharge / sqrt (reynolds), 0.156664, 5e-6);
}

/* Esposito, Fluid Power with Applications, example 8.4: 1 in, C 0.8, 100 psi, specific gravity 0.9: 252 gpm */
static void
test_orifice (void)
{
  const struct control_circuit c = { .orifice_diameter = 0.0254, .orifice_discharge = 0.8 };
  double gallon = 3.785411784e-3, psi = 6894.757293168;

  assert_within (control_orifice (&c, 0.9 * 998.2) * sqrt (100 * psi) / gallon * 60, 252, 0.5);
}

/* Cengel and Cimbala, Fluid Mechanics, example 5-7: 4 l of petrol siphoned through 5 mm under 0.75 m: 53.1 s */
static void
test_siphon (void)
{
  const struct control_circuit c = { .orifice_diameter = 0.005, .orifice_discharge = 1 };

  assert_within (4e-3 / (control_orifice (&c, 745) * sqrt (745 * 9.81 * 0.75)), 53.1, 0.05);
}

/* -- bimetal and heat ---------------------------------------------------------------------------------------------------- */

/* Timoshenko, J. Opt. Soc. Am. 11 (1925) 233; memory */
static void
test_bimetal (void)
{
  assert_near (bimetal_curvature (18.8e-6, 100, 1e-3, 1, 1), 2.820000, 1e-6);
  assert_near (bimetal_curvature (7e-6, 100, 1e-3, 1, 2), 1.018182, 1e-6);
}

/* Heated body T = Ta + P / (hA) (1 - exp(-t / tau)): 10 W, 0.12 W/K, 6 J/K at 20 degC */
static void
test_heated_body (void)
{
  static const struct { double time, temperature; } rows[] = { { 50, 72.67671 }, { 100, 92.05539 }, { 150, 99.18441 } };
  const struct control_circuit c = { .heater_resistance = 14.4, .heater_supply = 1, .bimetal_capacity = 6,
                                     .housing_capacity = 1, .bimetal_housing = 0.12, .housing_block = 1e8 };

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_within (control_bimetal_temperature (&c, 20, 20, 12, rows[i].time), rows[i].temperature, 1e-5);
}

/* A lump that cools: bimetal and housing as one body, the block cut off. */
static struct control_circuit
lump (double capacity, double conductance)
{
  return (struct control_circuit) { .heater_resistance = 1e9, .bimetal_capacity = capacity / 2,
                                    .housing_capacity = capacity / 2, .bimetal_housing = 1e6 * conductance,
                                    .housing_air = conductance };
}

static void
test_cooling (void)
{
  /* Holman, Heat Transfer, example 4.1: steel ball 50 mm, 7800 kg/m3, 460 J/(kg K), h 10, from 450 to 150 in 100 degC: 5818 s */
  double volume = G_PI / 6 * 0.05 * 0.05 * 0.05, area = G_PI * 0.05 * 0.05;
  struct control_circuit ball = lump (7800 * 460 * volume, 10 * area);

  assert_within (control_bimetal_temperature (&ball, 450, 100, 0, 5818), 150, 0.02); /* half a second */
  /* Cengel, Heat and Mass Transfer, example 4-1: bead of 1 mm, 8500 kg/m3, 320 J/(kg K), h 210: 99 % in 10 s (9.9413) */
  volume = G_PI / 6 * 1e-9;
  area = G_PI * 1e-6;
  ball = lump (8500 * 320 * volume, 210 * area);
  assert_within (control_bimetal_temperature (&ball, 100, 0, 0, 9.9413), 1, 1e-4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/published/stoichiometric", test_stoichiometric);
  g_test_add_func ("/published/ethanol-blend", test_ethanol_blend);
  g_test_add_func ("/published/volume-correction", test_volume_correction);
  g_test_add_func ("/published/moist-air", test_moist_air);
  g_test_add_func ("/published/moist-air-terms", test_moist_air_terms);
  g_test_add_func ("/published/water-vapour", test_water_vapour);
  g_test_add_func ("/published/standard-atmosphere", test_standard_atmosphere);
  g_test_add_func ("/published/altitude-by-density", test_altitude_by_density);
  g_test_add_func ("/published/isentropic-flow", test_isentropic_flow);
  g_test_add_func ("/published/rotameter", test_rotameter);
  g_test_add_func ("/published/taper", test_taper);
  g_test_add_func ("/published/other-gas", test_other_gas);
  g_test_add_func ("/published/cone-gap", test_cone_gap);
  g_test_add_func ("/published/smooth-transition", test_smooth_transition);
  g_test_add_func ("/published/creeping", test_creeping);
  g_test_add_func ("/published/orifice", test_orifice);
  g_test_add_func ("/published/siphon", test_siphon);
  g_test_add_func ("/published/bimetal", test_bimetal);
  g_test_add_func ("/published/heated-body", test_heated_body);
  g_test_add_func ("/published/cooling", test_cooling);
  return g_test_run ();
}
