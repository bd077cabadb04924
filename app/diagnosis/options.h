/* What the diagnosis takes for granted. Every number is a judgement that can be changed; the calibration study measures
 * what becomes of it. */
#ifndef DIAGNOSIS_OPTIONS_H
#define DIAGNOSIS_OPTIONS_H

#include <stdbool.h>

struct diagnosis_options {
  /* Prior probabilities; sum 1. Shared out among the faults by their odds. */
  double healthy, one, two, none_of_these;
  double wrong;        /* probability that one reading is plain wrong: misread, mistyped; 0 = never */
  double effect_error; /* the model is not the car: standard error of a fault's effect, as a share of it */
  bool spread;         /* healthy units differ by their build, gauges have a bias; false: noise only */
  bool severity_within;/* a fault may lie anywhere within its severity class; false: at its middle */
  double sign_least;   /* a complaint or check never says less than this, nor more than 1 - this */
  double temperature;  /* > 0: the likelihood is raised to 1 / temperature; fitted by the calibration study */
};

extern const struct diagnosis_options diagnosis_usual;

#endif
