#include "exhaust.h"

#include <math.h>

#define NITROGEN 3.773           /* with argon and the rest, by mole of oxygen */
#define SPREAD_POINTS 16         /* to either side of the mean */
#define SPREAD_REACH 3.0         /* standard deviations */
#define HC_LEAST 110e-6          /* of the dry gas as hexane: quench and crevice fuel at its least (published shape) */
#define HC_RISE 2830e-6
#define HC_BEST_LAMBDA 1.12
#define HEXANE_CARBON 6.0

static double
between (double value, double low, double high)
{
  return fmin (fmax (value, low), high);
}

void
exhaust_composition (double hydrogen_carbon, double oxygen_carbon, double water_gas, double lambda,
                     struct exhaust_moles *m)
{
  double needed = 1 + hydrogen_carbon / 4 - oxygen_carbon / 2;
  double oxygen = between (lambda, 0.5, 4) * needed;
  double short_by = 2 * (needed - oxygen); /* atoms of oxygen */

  *m = (struct exhaust_moles) { .co2 = 1, .h2o = hydrogen_carbon / 2, .n2 = NITROGEN * oxygen };
  if (short_by <= 0) {
    m->o2 = oxygen - needed;
  } else {
    /* CO = d, H2 = short - d, CO2 = 1 - d, H2O = y/2 - short + d in H2O CO = K CO2 H2 */
    double a = hydrogen_carbon / 2 - short_by, k = water_gas;
    double b = a + k * (1 + short_by);
    double d = 2 * k * short_by / (b + sqrt (b * b + 4 * (1 - k) * k * short_by));

    m->co = d;
    m->co2 = 1 - d;
    m->h2 = short_by - d;
    m->h2o = a + d;
  }
}

void
exhaust_add (struct exhaust_moles *to, const struct exhaust_moles *from, double weight)
{
  to->co2 += weight * from->co2;
  to->co += weight * from->co;
  to->o2 += weight * from->o2;
  to->h2 += weight * from->h2;
  to->h2o += weight * from->h2o;
  to->n2 += weight * from->n2;
  to->hexane += weight * from->hexane;
}

static double
dry_moles (const struct exhaust_moles *m)
{
  return m->co2 + m->co + m->o2 + m->h2 + m->n2 + m->hexane;
}

/* Charges are not all alike: a normal distribution about the mean, cut at three deviations. */
static void
burnt_with_spread (const struct fuel *fuel, double spread, double lambda, struct exhaust_moles *moles)
{
  const int reach = spread > 0 ? SPREAD_POINTS : 0;
  struct exhaust_moles sum = { 0 };
  double weights = 0;

  for (int i = -reach; i <= reach; i++) {
    double off = SPREAD_REACH * i / SPREAD_POINTS, weight = exp (-0.5 * off * off);
    struct exhaust_moles one;

    exhaust_composition (fuel->hydrogen_carbon, fuel->oxygen_carbon, EXHAUST_WATER_GAS, lambda + off * spread, &one);
    exhaust_add (&sum, &one, weight);
    weights += weight;
  }
  *moles = (struct exhaust_moles) { 0 };
  exhaust_add (moles, &sum, 1 / weights);
}

void
exhaust_of_cylinder (const struct fuel *fuel, double spread, double lambda, double ignites, struct exhaust_moles *moles)
{
  double oxygen = between (lambda, 0.5, 4) * (1 + fuel->hydrogen_carbon / 4 - fuel->oxygen_carbon / 2);
  struct exhaust_moles burnt, raw = { .o2 = oxygen, .n2 = NITROGEN * oxygen, .hexane = 1 / HEXANE_CARBON };
  double off = between (lambda, 0.5, 4) - HC_BEST_LAMBDA;

  burnt_with_spread (fuel, spread, lambda, &burnt);
  burnt.hexane = (HC_LEAST + HC_RISE * off * off) * dry_moles (&burnt);
  *moles = (struct exhaust_moles) { 0 };
  exhaust_add (moles, &burnt, ignites);
  exhaust_add (moles, &raw, 1 - ignites);
}

void
exhaust_shown (const struct exhaust_moles *moles, double leak_share, struct exhaust_gases *gases)
{
  double wet = dry_moles (moles) + moles->h2o;
  double air = wet * leak_share / (1 - leak_share);
  double oxygen = air / (1 + NITROGEN), dry = dry_moles (moles) + air;

  *gases = (struct exhaust_gases) { 0 };
  if (dry <= 0)
    return;
  gases->co2 = 100 * moles->co2 / dry;
  gases->co = 100 * moles->co / dry;
  gases->o2 = 100 * (moles->o2 + oxygen) / dry;
  gases->hc = 1e6 * moles->hexane / dry;
}

double
exhaust_lambda (const struct exhaust_gases *g, double hydrogen_carbon, double oxygen_carbon)
{
  double burnt = g->co2 + g->co, hydrogen;

  if (g->co2 <= 0)
    return 0;
  hydrogen = hydrogen_carbon / 4 * EXHAUST_WATER_GAS / (EXHAUST_WATER_GAS + g->co / g->co2);
  return (g->co2 + g->co / 2 + g->o2 + (hydrogen - oxygen_carbon / 2) * burnt)
         / ((1 + hydrogen_carbon / 4 - oxygen_carbon / 2) * (burnt + 6e-4 * g->hc));
}

double
exhaust_spindt (const struct exhaust_gases *g, double hydrogen_carbon)
{
  double carbon = 12.011 / (12.011 + 1.008 * hydrogen_carbon);
  double burnt = (g->co + g->co2) / (g->co + g->co2 + HEXANE_CARBON * 1e-4 * g->hc);
  double r, q;

  if (g->co2 <= 0)
    return 0;
  r = g->co / g->co2;
  q = g->o2 / g->co2;
  return burnt * (11.492 * carbon * (1 + r / 2 + q) / (1 + r) + 120 * (1 - carbon) / (3.5 + r));
}
