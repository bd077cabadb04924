/* In which order to repair: by probability over cost, which has the least expected cost where repairs are tried one
 * after the other and exactly one of them is needed (Heckerman, Breese and Rommelse 1995, "Decision-theoretic
 * troubleshooting"). */
#ifndef DIAGNOSIS_REPAIR_ORDER_H
#define DIAGNOSIS_REPAIR_ORDER_H

struct repair {
  int what;           /* the caller's own number, kept */
  double probability; /* that this repair mends it */
  double minutes;     /* > 0 */
};

/* Sorts by probability / minutes, the best first; equal ones by `what`. */
void repair_order (struct repair *repairs, int count);

/* Expected minutes of the sequence as it stands: each repair is paid while none before it has mended. With the rest of
 * the probability all of them were in vain and `otherwise` is paid besides. */
double repair_expected_minutes (const struct repair *repairs, int count, double otherwise);

#endif
