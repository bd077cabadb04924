/* Air, fuel and bimetal: limits, signs and shapes of each function. Their figures are held against published ones in
 * tests/checks. */
#include "air.h"
#include "bimetal.h"
#include "fuel.h"
#include "near.h"

static void
test_density (void)
{
  /* Humid air is lighter, warm air is lighter, density goes very nearly with pressure */
  g_assert_cmpfloat (air_density (101325, 25, 1), <, air_density (101325, 25, 0));
  g_assert_cmpfloat (air_density (101325, 30, 0.5), <, air_density (101325, 20, 0.5));
  assert_near (air_density (50000, 15, 0) * 2, air_density (100000, 15, 0), 1e-3);
  /* Perfect gas without compressibility and vapour, 0.1 % */
  assert_near (air_density (90000, -10, 0), 90000 / (287.05 * 263.15), 1e-3);
  /* Humidity is continuous where the vapour term is left out */
  assert_near (air_density (101325, 25, 1e-12), air_density (101325, 25, 0), 1e-12);
}

static void
test_standard_atmosphere (void)
{
  g_assert_cmpfloat (air_standard_pressure (0), ==, 101325);
  g_assert_cmpfloat (air_standard_pressure (-400), >, 101325);
  assert_near (air_standard_temperature (0), 15, 1e-12);
  assert_near (air_standard_temperature (1000), 8.5, 1e-12);
  /* Hydrostatic balance: dp = -rho g dh */
  for (double h = 0; h <= 5000; h += 1000) {
    double fall = (air_standard_pressure (h - 1) - air_standard_pressure (h + 1)) / 2;
    double rho = air_standard_pressure (h) / (AIR_GAS_CONSTANT * (air_standard_temperature (h) + ZERO_CELSIUS));
    assert_near (fall, rho * 9.80665, 1e-6);
  }
}

static void
test_viscosity (void)
{
  assert_near (air_viscosity (15), 1.7894e-5, 1e-4); /* ISO 2533 at sea level, from memory */
  g_assert_cmpfloat (air_viscosity (40), >, air_viscosity (0));
}

static void
test_isentropic (void)
{
  double critical = pow (2 / 2.4, 3.5);
  double choked = air_isentropic_flow (1e-4, 1e5, 20, 1e5 * critical);

  g_assert_cmpfloat (air_isentropic_flow (1e-4, 1e5, 20, 1e5), ==, 0);
  g_assert_cmpfloat (air_isentropic_flow (1e-4, 1e5, 20, 1.1e5), ==, 0); /* never backwards */
  g_assert_cmpfloat (air_isentropic_flow (1e-4, 1e5, 20, 0), ==, choked);
  assert_near (air_isentropic_flow (2e-4, 1e5, 20, 0), 2 * choked, 1e-12);
  assert_near (air_isentropic_flow (1e-4, 2e5, 20, 0), 2 * choked, 1e-12);
  g_assert_cmpfloat (air_isentropic_flow (1e-4, 1e5, 20, 1e5 * (critical + 0.01)), <, choked);
  /* Incompressible at small drops: A sqrt(2 rho dp) */
  assert_near (air_isentropic_flow (1e-4, 1e5, 20, 1e5 - 10),
               1e-4 * sqrt (2 * 1e5 / (AIR_GAS_CONSTANT * 293.15) * 10), 1e-4);
}

static const struct fuel petrol = { 745, 1.87, 0, 6e-7, 0.011 };

static void
test_fuel (void)
{
  g_assert_cmpfloat (fuel_volume_correction (745, 15), ==, 1);
  g_assert_cmpfloat (fuel_density_at (&petrol, 15), ==, 745);
  g_assert_cmpfloat (fuel_density_at (&petrol, 40), <, 745);
  g_assert_cmpfloat (fuel_density_at (&petrol, -20), >, 745);
  /* The expansion is the fall of the density's logarithm */
  for (double t = -30; t <= 90; t += 15)
    assert_near (fuel_expansion (745, t), log (fuel_density_at (&petrol, t - 0.01) / fuel_density_at (&petrol, t + 0.01)) / 0.02,
                 1e-6);
  assert_near (fuel_viscosity_at (&petrol, 20), 6e-7, 1e-15);
  assert_near (fuel_viscosity_at (&petrol, 30) / fuel_viscosity_at (&petrol, 20), exp (-0.11), 1e-12);
  /* Carbon and hydrogen alone: C + O2, H2 + O2/2 with 4.3196 kg of air by kg of oxygen (34.56 / 8) */
  assert_near (fuel_stoichiometric (0, 0), 34.56 / 8 * 32 / 12.011, 1e-3);
  /* Oxygen in the fuel takes less air */
  g_assert_cmpfloat (fuel_stoichiometric (1.87, 0.05), <, fuel_stoichiometric (1.87, 0));
  g_assert_cmpfloat (fuel_stoichiometric (2.2, 0), >, fuel_stoichiometric (1.87, 0));
}

static void
test_bimetal (void)
{
  double curvature = bimetal_curvature (18e-6, 50, 1e-3, 1, 1);

  assert_near (curvature, 1.5 * 18e-6 * 50 / 1e-3, 1e-12); /* equal layers: 3/2 of alpha dT / h */
  assert_near (bimetal_curvature (18e-6, 50, 1e-3, 2, 3), bimetal_curvature (18e-6, 50, 1e-3, 0.5, 1 / 3.0), 1e-12);
  assert_near (bimetal_deflection (curvature, 0.03), curvature * 0.03 * 0.03 / 2, 1e-12);
  assert_near (bimetal_deflection (curvature, 0.06), 4 * bimetal_deflection (curvature, 0.03), 1e-12);
  /* Cantilever 30 x 10 x 1 mm of 200 GPa: 3 E I / L^3 = 18 518.5 N/m */
  assert_near (bimetal_blocked_force (1e-3, 0.03, 0.01, 1e-3, 200e9), 18.5185185185, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/air/density", test_density);
  g_test_add_func ("/air/standard-atmosphere", test_standard_atmosphere);
  g_test_add_func ("/air/viscosity", test_viscosity);
  g_test_add_func ("/air/isentropic-flow", test_isentropic);
  g_test_add_func ("/fuel", test_fuel);
  g_test_add_func ("/bimetal", test_bimetal);
  return g_test_run ();
}
