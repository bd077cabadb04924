/* How long one steady state takes, and how often it is not found, against general solvers on the same equations as one
 * system: same states, same residual tolerance, scaled unknowns. Both sides' times begin with car and conditions, so they
 * include the constants (air, fuel, bimetal), computed once a state by the same functions. The references start close by,
 * every unknown within 5 % of the solution, and have the Jacobian by formulas; the room's solver starts from nothing and
 * also hands out every value. Of each library's two methods the faster counts.
 *   steady [--json] [STATES] */
#include "draw.h"
#include "references.h"
#include "solve.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define SERIES 77
#define START_WITHIN 0.05
#define SAME 1e-6 /* relative: a reference that ends elsewhere has found no state */
#define TURNS 5   /* the least time of so many counts */
#define WILD_STATES 200000

struct sample {
  struct car car;
  struct conditions conditions;
  struct equations equations;
  double solution[UNKNOWNS_MAX], start[UNKNOWNS_MAX];
  double own;                          /* s */
  double checked;                      /* s, with the border checks */
  double constants;                    /* s, what both sides compute before they begin to solve */
  double reference[4];                 /* s, negative: not solved */
};

static const struct reference *const references[4] = { &gsl_hybrids, &gsl_hybridsj, &kinsol_newton, &kinsol_line_search };

static double
now (void)
{
  struct timespec t;

  clock_gettime (CLOCK_MONOTONIC, &t);
  return (double) t.tv_sec + 1e-9 * (double) t.tv_nsec;
}

/* A running engine's state with unequal cylinders, every equation in force: floating plate, open relief. */
static bool
draw_sample (uint64_t number, struct sample *s)
{
  struct draw draw = draw_start (SERIES, number);
  struct state state;

  draw_car (&draw, false, &s->car);
  draw_conditions (&draw, false, &s->car, &s->conditions);
  if (metering_solve (&s->car, &s->conditions, &state) != OUTCOME_SOLVED || state.regime != 0)
    return false;
  equations_set (&s->equations, &s->car, &s->conditions);
  equations_solution (&s->equations, &state, s->solution);
  for (int i = 0; i < s->equations.unknowns; i++)
    s->start[i] = s->solution[i] * draw_between (&draw, 1 - START_WITHIN, 1 + START_WITHIN);
  return true;
}

static void
time_own (struct sample *s)
{
  struct state state;

  s->own = s->checked = s->constants = INFINITY;
  for (int turn = 0; turn < TURNS; turn++) {
    double start = now (), middle, end;
    for (int i = 0; i < 8; i++)
      metering_solve_checked (&s->car, &s->conditions, &state);
    middle = now ();
    for (int i = 0; i < 8; i++)
      metering_solve (&s->car, &s->conditions, &state);
    s->own = fmin (s->own, (middle - start) / 8);
    end = now ();
    for (int i = 0; i < 8; i++)
      equations_set (&s->equations, &s->car, &s->conditions);
    s->constants = fmin (s->constants, (now () - end) / 8);
    s->checked = fmin (s->checked, (end - middle) / 8);
  }
}

static void
time_reference (struct sample *s, int which)
{
  const size_t bytes = (size_t) s->equations.unknowns * sizeof (double);
  double x[UNKNOWNS_MAX], least = INFINITY;

  for (int turn = 0; turn < TURNS; turn++) {
    double start = now ();
    bool solved = true;

    for (int i = 0; i < 2 && solved; i++) {
      equations_set (&s->equations, &s->car, &s->conditions);
      memcpy (x, s->start, bytes);
      solved = references[which]->solve (&s->equations, x);
    }
    least = fmin (least, (now () - start) / 2);
    for (int i = 0; i < s->equations.unknowns && solved; i++)
      solved = fabs (x[i] / s->solution[i] - 1) <= SAME;
    if (!solved) {
      s->reference[which] = -1;
      return;
    }
  }
  s->reference[which] = least;
}

struct totals { /* us, means over the states */
  double own, checked, constants;
};

struct verdict {
  double us, ratio; /* over the states that both solved */
  int failures;
};

static struct verdict
compare (const struct sample *samples, int count, int which)
{
  struct verdict v = { 0 };
  double own = 0, theirs = 0;

  for (int i = 0; i < count; i++)
    if (samples[i].reference[which] < 0) {
      v.failures++;
    } else {
      own += samples[i].own;
      theirs += samples[i].reference[which];
    }
  v.us = 1e6 * theirs / (count - v.failures);
  v.ratio = theirs / own;
  return v;
}

/* Over wild states: any car in any condition. */
static long
count_failures (void)
{
  long failures = 0;

  for (uint64_t i = 0; i < WILD_STATES; i++) {
    struct draw draw = draw_start (SERIES + 1, i);
    struct car car;
    struct conditions conditions;
    struct state state;

    draw_car (&draw, true, &car);
    draw_conditions (&draw, true, &car, &conditions);
    failures += metering_solve (&car, &conditions, &state) == OUTCOME_NOT_FOUND;
  }
  return failures;
}

static void
print_text (int count, const struct totals *totals, long failures, const struct verdict verdicts[4])
{
  printf ("Steady states of the whole unit with unequal cylinders: %d, cold to warm, idle to full\n", count);
  printf ("  own solver, from nothing:   %7.2f us, residuals under 1e-9 (with the border checks %.2f; of it constants %.2f)\n",
          totals->own, totals->checked, totals->constants);
  printf ("  not found: %ld of %d wild states (any car, any valid condition)\n", failures, WILD_STATES);
  printf ("References, one system of 4 + cylinders unknowns, started within %g %% of the solution:\n", 100 * START_WITHIN);
  for (int i = 0; i < 4; i++)
    printf ("  %-19s %7.2f us, %5.1f times as long (%.1f without the constants), %d of %d not solved\n", references[i]->name,
            verdicts[i].us, verdicts[i].ratio, (verdicts[i].us - totals->constants) / (totals->own - totals->constants),
            verdicts[i].failures, count);
}

int
main (int argc, char **argv)
{
  bool json = argc > 1 && strcmp (argv[1], "--json") == 0;
  int wanted = argc > 1 + json ? atoi (argv[1 + json]) : 2000, count = 0;
  struct sample *samples;
  struct verdict verdicts[4];
  struct totals totals = { 0 };
  long failures;
  int gsl, kinsol;

  if (wanted < 1 || argc > 2 + json) {
    fprintf (stderr, "usage: steady [--json] [STATES]\n");
    return 2;
  }
  samples = calloc ((size_t) wanted, sizeof *samples);
  if (samples == NULL)
    return 1;
  for (uint64_t number = 0; count < wanted; number++)
    count += draw_sample (number, &samples[count]);
  for (int i = 0; i < count; i++) {
    time_own (&samples[i]);
    totals.own += 1e6 * samples[i].own / count;
    totals.checked += 1e6 * samples[i].checked / count;
    totals.constants += 1e6 * samples[i].constants / count;
    for (int k = 0; k < 4; k++)
      time_reference (&samples[i], k);
  }
  for (int k = 0; k < 4; k++)
    verdicts[k] = compare (samples, count, k);
  failures = count_failures ();
  gsl = verdicts[1].ratio < verdicts[0].ratio;
  kinsol = 2 + (verdicts[3].ratio < verdicts[2].ratio);
  if (json)
    printf ("{\"steady_us\": %.3f, \"steady_failures\": %ld, \"steady_ratio_gsl\": %.2f, \"steady_ratio_kinsol\": %.2f, "
            "\"steady_states\": %d, \"steady_gsl_us\": %.3f, \"steady_gsl_failures\": %d, \"steady_kinsol_us\": %.3f, "
            "\"steady_kinsol_failures\": %d}\n",
            totals.own, failures, verdicts[gsl].ratio, verdicts[kinsol].ratio, count, verdicts[gsl].us, verdicts[gsl].failures,
            verdicts[kinsol].us, verdicts[kinsol].failures);
  else
    print_text (count, &totals, failures, verdicts);
  free (samples);
  return 0;
}
