/* Exhaust gases against published formulas and figures. Sources stand beside each check; "from memory" means that the
 * constants were not read in the source but recomputed from its formula. */
#include "cars.h"
#include "exhaust.h"
#include "fuel.h"
#include "near.h"

static double
dry (const struct exhaust_moles *m)
{
  return m->co2 + m->co + m->o2 + m->h2 + m->n2;
}

/* OIML R 99-1&2:2008 / ISO 3930, Brettschneider 1979 (structure and 3.5 read, constants from memory). */
static void
test_four_gas_lambda (void)
{
  static const struct {
    double co, co2, o2, hc, lambda;
  } rows[] = {
    { 0.2, 15.0, 0.3, 50, 1.00611 }, { 0.5, 14.7, 0.5, 100, 1.00468 },  { 1.0, 14.5, 0.5, 150, 0.98840 },
    { 2.5, 13.3, 0.4, 250, 0.93782 }, { 0, 15.2, 0, 0, 1.00000 },
  };

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    struct exhaust_gases gases = { .co2 = rows[i].co2, .co = rows[i].co, .o2 = rows[i].o2, .hc = rows[i].hc };
    assert_within (exhaust_lambda (&gases, 1.7261, 0.0176), rows[i].lambda, 1e-5);
  }
}

/* Heywood 1988, section 4.9: CH1.87, water-gas constant 3.5 (from memory, recomputed). Dry vol %. */
static void
test_composition (void)
{
  static const struct {
    double lambda, co2, co, o2, h2;
  } rows[] = {
    { 0.80, 10.2941, 7.5881, 0, 2.9087 }, { 0.90, 12.8389, 3.6792, 0, 1.1688 }, { 1.00, 15.2978, 0, 0, 0 },
    { 1.10, 13.8173, 0, 2.0277, 0 },      { 1.20, 12.5980, 0, 3.6975, 0 },
  };

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    struct exhaust_moles m;
    exhaust_composition (1.87, 0, 3.5, rows[i].lambda, &m);
    assert_within (100 * m.co2 / dry (&m), rows[i].co2, 1e-4);
    assert_within (100 * m.co / dry (&m), rows[i].co, 1e-4);
    assert_within (100 * m.o2 / dry (&m), rows[i].o2, 1e-4);
    assert_within (100 * m.h2 / dry (&m), rows[i].h2, 1e-4);
  }
}

/* The composition put into the four-gas formula gives the lambda back (own closed loop of both published formulas). */
static void
test_closed_loop (void)
{
  for (double lambda = 0.7; lambda < 1.2001; lambda += 0.01) {
    struct exhaust_moles m;
    struct exhaust_gases gases;
    exhaust_composition (1.87, 0, 3.5, lambda, &m);
    exhaust_shown (&m, 0, &gases);
    assert_near (exhaust_lambda (&gases, 1.87, 0), lambda, 1e-9);
  }
}

/* MIT OpenCourseWare 2.61, 2017, wet mole fractions at lambda 0.8, water-gas constant 3.7. */
static void
test_wet_fractions (void)
{
  struct exhaust_moles m;
  double wet;

  exhaust_composition (1.87, 0, 3.7, 0.8, &m);
  wet = dry (&m) + m.h2o;
  assert_within (m.co2 / wet, 0.0896973, 1e-7);
  assert_within (m.h2o / wet, 0.1221025, 1e-7);
  assert_within (m.co / wet, 0.0674242, 1e-7);
  assert_within (m.h2 / wet, 0.0248061, 1e-7);
  assert_within (m.n2 / wet, 0.6959699, 1e-7);
}

/* Spindt, SAE 650507 (from memory), on the compositions above. */
static void
test_spindt (void)
{
  static const double rows[][2] = { { 0.8, 11.6673 }, { 0.9, 13.1257 }, { 1.0, 14.5839 }, { 1.1, 16.0416 } };

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    struct exhaust_moles m;
    struct exhaust_gases gases;
    exhaust_composition (1.87, 0, 3.5, rows[i][0], &m);
    exhaust_shown (&m, 0, &gases);
    assert_within (exhaust_spindt (&gases, 1.87), rows[i][1], 1e-4);
    assert_near (exhaust_spindt (&gases, 1.87), rows[i][0] * fuel_stoichiometric (1.87, 0), 2e-3);
  }
}

/* Atoms in, atoms out, at any mixture, fuel and misfire. */
static void
test_atoms (void)
{
  struct fuel fuels[] = { { .hydrogen_carbon = 1.87 }, { .hydrogen_carbon = 1.93, .oxygen_carbon = 0.033 },
                          { .hydrogen_carbon = 3, .oxygen_carbon = 0.5 } };

  for (unsigned f = 0; f < G_N_ELEMENTS (fuels); f++)
    for (double lambda = 0.55; lambda < 3; lambda += 0.05) {
      double y = fuels[f].hydrogen_carbon, z = fuels[f].oxygen_carbon;
      struct exhaust_moles m;
      exhaust_composition (y, z, 3.5, lambda, &m);
      assert_near (m.co2 + m.co, 1.0, 1e-12);
      assert_near (2 * (m.h2 + m.h2o), y, 1e-12);
      assert_near (m.co + 2 * m.co2 + m.h2o + 2 * m.o2, z + 2 * lambda * (1 + y / 4 - z / 2), 1e-12);
      g_assert_cmpfloat (fmin (fmin (m.co, m.h2), fmin (m.h2o, m.o2)), >=, 0);
    }
}

static void
show_mixed (double lambda, double ignites, double leak, struct exhaust_gases *gases)
{
  struct exhaust_moles m;

  exhaust_of_cylinder (&hollin_six.fuel, hollin_six.exhaust.mixture_spread, lambda, ignites, &m);
  exhaust_shown (&m, leak, gases);
}

/* Common practice, no source: at idle CO tells how rich, oxygen how lean; a leak at the probe and a misfire both show as
 * oxygen, the misfire as HC besides; a leak makes the four gases read lean. */
static void
test_what_an_analyser_tells (void)
{
  struct exhaust_gases rich, right, lean, leaking, missing;

  show_mixed (0.90, 1, 0, &rich);
  show_mixed (1.00, 1, 0, &right);
  show_mixed (1.10, 1, 0, &lean);
  g_assert_true (rich.co > 3 && rich.co < 4.5 && rich.o2 < 0.1 && rich.hc > right.hc);
  g_assert_true (right.co > 0.2 && right.co < 0.8 && right.co2 > 14 && right.o2 < 0.5);
  g_assert_true (lean.co < 0.1 && lean.o2 > 1.5 && lean.co2 < right.co2);
  show_mixed (0.97, 1, 0.10, &leaking);
  show_mixed (0.97, 5.0 / 6, 0, &missing);
  g_assert_true (leaking.o2 > 2 && leaking.hc < 300);
  g_assert_true (missing.o2 > 3 && missing.hc > 3000);
  assert_within (exhaust_lambda (&leaking, 1.87, 0), 0.97 + 0.11, 0.02);
  assert_within (exhaust_lambda (&missing, 1.87, 0), 0.97, 0.02);
}

/* SR 2006/251: an analyser shows lambda to 0.001; over the legal range the gases of a healthy engine must read its
 * mixture no worse than the class I errors of OIML R 99 allow (CO 0.06, CO2 0.5, O2 0.1 vol %, HC 12 ppm, from memory). */
static void
test_read_back (void)
{
  for (double lambda = 0.85; lambda < 1.1; lambda += 0.01) {
    struct exhaust_gases gases;
    show_mixed (lambda, 1, 0, &gases);
    assert_within (exhaust_lambda (&gases, 1.87, 0), lambda, 0.015);
  }
}

/* What is not exhaust gives no lambda, only zeroes; an engine without any spread is the plain composition. */
static void
test_no_gases (void)
{
  struct exhaust_gases gases = { 0 }, plain, spread;
  struct exhaust_moles none = { 0 }, moles;
  const struct fuel *fuel = &hollin_six.fuel;

  g_assert_cmpfloat (exhaust_lambda (&gases, 1.87, 0), ==, 0);
  g_assert_cmpfloat (exhaust_spindt (&gases, 1.87), ==, 0);
  exhaust_shown (&none, 0.1, &gases);
  g_assert_true (gases.co2 == 0 && gases.co == 0 && gases.o2 == 0 && gases.hc == 0);
  exhaust_of_cylinder (fuel, 0, 0.9, 1, &moles);
  exhaust_shown (&moles, 0, &plain);
  exhaust_composition (1.87, 0, EXHAUST_WATER_GAS, 0.9, &moles);
  exhaust_shown (&moles, 0, &spread);
  assert_near (plain.co, spread.co, 1e-3);
  assert_near (plain.hc, 110 + 2830 * 0.22 * 0.22, 1e-3);
}

/* A cylinder that does not fire lets the charge pass: by mole of carbon lambda times the oxygen that CHyOz takes,
 * 1 + y/4 - z/2, the nitrogen of air with it, and all the carbon still in the fuel. */
static void
test_unburnt (void)
{
  const struct fuel blend = { .hydrogen_carbon = 1.9, .oxygen_carbon = 0.1 };
  struct exhaust_moles moles;

  exhaust_of_cylinder (&blend, 0.02, 1.2, 0, &moles);
  assert_near (moles.o2, 1.2 * (1 + 1.9 / 4 - 0.1 / 2), 1e-12);
  assert_near (moles.n2 / moles.o2, 3.773, 1e-3); /* Heywood 1988, section 3.2, from memory */
  assert_near (moles.hexane * 6, 1, 1e-12);
  assert_within (moles.co2 + moles.co + moles.h2o + moles.h2, 0, 1e-15);
}

/* EPA AP-42 chapter 7.1 (from memory): RVP 10 psi, slope 3, at 40, 60, 80, 100 degF. */
static void
test_vapour_pressure (void)
{
  static const double rows[][2] = { { 40, 3.464 }, { 60, 5.186 }, { 80, 7.534 }, { 100, 10.657 } };
  const double psi = 6894.757;

  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_near (fuel_vapour_pressure (10 * psi, (rows[i][0] - 32) / 1.8) / psi, rows[i][1], 0.002);
  /* The same chapter's nomograph equation, in common logarithms and with all in one (from memory) */
  for (double reid = 6; reid <= 15; reid += 1.5)
    for (double fahrenheit = 0; fahrenheit <= 140; fahrenheit += 20) {
      double rankine = fahrenheit + 459.6, root = sqrt (3), decades = log10 (reid);
      double exponent = (0.7553 - 413.0 / rankine) * root * decades - (1.854 - 1042 / rankine) * root
                        + (2416 / rankine - 2.013) * decades - 8742 / rankine + 15.64;
      assert_near (fuel_vapour_pressure (reid * psi, (fahrenheit - 32) / 1.8) / psi, exp (exponent), 0.003);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/exhaust/four-gas-lambda", test_four_gas_lambda);
  g_test_add_func ("/checks/exhaust/composition", test_composition);
  g_test_add_func ("/checks/exhaust/closed-loop", test_closed_loop);
  g_test_add_func ("/checks/exhaust/wet-fractions", test_wet_fractions);
  g_test_add_func ("/checks/exhaust/spindt", test_spindt);
  g_test_add_func ("/checks/exhaust/atoms", test_atoms);
  g_test_add_func ("/checks/exhaust/what-an-analyser-tells", test_what_an_analyser_tells);
  g_test_add_func ("/checks/exhaust/read-back", test_read_back);
  g_test_add_func ("/checks/exhaust/no-gases", test_no_gases);
  g_test_add_func ("/checks/exhaust/unburnt", test_unburnt);
  g_test_add_func ("/checks/exhaust/vapour-pressure", test_vapour_pressure);
  return g_test_run ();
}
