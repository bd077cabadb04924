/* Built and linked with the metering and the diagnosis room and libm alone: if the room leaned on anything else, this
 * would not build. Adds one reading and asks for causes. */
#include "posterior.h"

#include "cars.h"

#include <stdio.h>

#if defined(__G_LIB_H__) || defined(__GTK_H__)
#error "the diagnosis room must not include GLib or GTK"
#endif

int
main (void)
{
  struct fault fault = { .key = "regulator-low", .odds = 1, .effects = 1 };
  struct signature_source source = { &hollin_six, &fault, 1, NULL, NULL };
  struct signatures *signatures;
  struct posterior *posterior = NULL;
  struct observation o;
  struct conditions c;
  double probability = 0;
  int good;

  fault.effect[0]
      = (struct fault_effect) { parameter_find ("regulator_opening"), FAULT_ADD, FAULT_LINEAR, -90e3 };
  signatures = signatures_new (&source);
  reading_reference (&reading_kinds[READING_SYSTEM_PRESSURE], &hollin_six, &c);
  observation_usual (&reading_kinds[READING_SYSTEM_PRESSURE], &hollin_six, &c, &o);
  o.value[0] = 430e3;
  good = signatures && signatures_add (signatures, &o, NULL, NULL) == 0
         && posterior_make (signatures, &o, 1, NULL, 0, NULL, NULL, NULL, &posterior, NULL) == POSTERIOR_SOUND;
  if (good)
    probability = posterior_fault (posterior, &fault);
  good = good && probability > 0.8;
  printf ("TAP version 13\n1..1\n%sok 1 - the diagnosis room stands alone: probability %.3f\n", good ? "" : "not ",
          probability);
  posterior_free (posterior);
  signatures_free (signatures);
  return !good;
}
