/* Built and linked with the metering room and libm alone, without GLib's or GTK's flags: if the room leaned on anything
 * else, this would not build. Solves one state. */
#include "solve.h"

#include "cars.h"

#include <math.h>
#include <stdio.h>

#if defined(__G_LIB_H__) || defined(__GTK_H__)
#error "the metering room must not include GLib or GTK"
#endif

int
main (void)
{
  struct conditions conditions;
  struct state state;
  int good;

  conditions_usual (&conditions);
  good = metering_solve (&hollin_six, &conditions, &state) == OUTCOME_SOLVED && fabs (state.lambda - 0.985) < 0.01;
  printf ("TAP version 13\n1..1\n%sok 1 - the metering room stands alone: lambda %.4f\n", good ? "" : "not ", state.lambda);
  return !good;
}
