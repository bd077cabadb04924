/* How what a workshop reads on the running, stopped or cold engine is taken from a run of the machine. */
#ifndef TESTS_FAULT_PROCEDURES_H
#define TESTS_FAULT_PROCEDURES_H

#include "car.h"

enum procedure {
  HOT_IDLE,   /* warm engine started, 90 s later */
  COLD_CRANK, /* everything at -10 degC, two seconds of cranking */
  FIRST_TURNS,/* the same, 0.3 s */
  HOT_CRANK,  /* engine at 50 degC, half a second of cranking */
  COLD_IDLE,  /* started at 10 degC, a minute later */
  AFTER_START,/* started at 10 degC, three seconds after the starter was let go */
  WARMED,     /* started at 10 degC, six minutes later */
  RESIDUAL,   /* engine still and cold, pump bridged and stopped ten minutes ago */
  OVERNIGHT,  /* warm engine stopped twelve hours ago, air at -5 degC */
  SOAKED,     /* warm engine stopped half an hour ago on a hot day */
  THROTTLE    /* throttle opened quickly at held speed; values over the second after it */
};

/* The value of that key: of a state, of a machine, "co", "o2", "hc", "gas_lambda", and of THROTTLE "overshoot" (of the
 * plate, share of its last lift), "late" (share of the way that is missing after 50 ms), "kick" (rise of the control
 * pressure in Pa). */
double procedure_value (enum procedure procedure, const struct car *car, const char *key);

#endif
