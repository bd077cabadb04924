#include "agreement.h"
#include "text.h"

enum agreement
agreement_judge (double value, double low, double high, double u)
{
  double guard = GUARD_FACTOR * u;

  if (value < low - guard)
    return AGREEMENT_OUT_LOW;
  if (value > high + guard)
    return AGREEMENT_OUT_HIGH;
  if (value > low + guard && value < high - guard)
    return AGREEMENT_IN;
  return AGREEMENT_UNDECIDED;
}

const char *
agreement_word (enum agreement agreement)
{
  switch (agreement) {
  case AGREEMENT_IN:
    return N_("in");
  case AGREEMENT_OUT_LOW:
    return N_("out, low");
  case AGREEMENT_OUT_HIGH:
    return N_("out, high");
  case AGREEMENT_UNDECIDED:
  default:
    return N_("undecided");
  }
}
