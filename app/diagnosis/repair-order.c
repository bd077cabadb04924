#include "repair-order.h"

#include <math.h>
#include <stdlib.h>

static int
compare (const void *a, const void *b)
{
  const struct repair *x = a, *y = b;
  double left = x->probability * y->minutes, right = y->probability * x->minutes;

  if (left != right)
    return left < right ? 1 : -1;
  return x->what - y->what;
}

void
repair_order (struct repair *repairs, int count)
{
  qsort (repairs, (size_t) count, sizeof *repairs, compare);
}

double
repair_expected_minutes (const struct repair *repairs, int count, double otherwise)
{
  double minutes = 0, left = 1;

  for (int i = 0; i < count; i++) {
    minutes += left * repairs[i].minutes;
    left = fmax (left - repairs[i].probability, 0);
  }
  return minutes + left * otherwise;
}
