/* How far the diagnosis can be believed: hidden cases from a generator that differs from what the inference assumes. Half
 * of them fit one temperature, the other half is reported. Run by tests/calibration. */
#include "draw.h"
#include "fault-document.h"
#include "generator.h"
#include "next-reading.h"
#include "reliability-diagram.h"
#include "rivals.h"
#include "score.h"
#include "tolerance-document.h"

#include <glib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TEMPERATURES 13 /* 0.8, 0.9 .. 2.0 */
#define FALSE_ALARM 0.5 /* probability of any fault above which a healthy car counts as accused */
#define THIRDS 3        /* of severity */

enum way { WAY_ADVICE, WAY_CHEAPEST, WAY_RANDOM, WAYS };

struct path {
  int cases, right;
  double minutes;
};

struct study {
  gint cases, types, seed, paths; /* options */
  gboolean json;
  char *diagram;

  const struct fault_catalogue *catalogue;
  const struct tolerances *tolerances;
  double loss[TEMPERATURES];
  int fitted;
  double temperature;
  struct score all, one, two, unlisted, noise_only, third[THIRDS], after[READINGS + 1];
  int healthy, accused, nearest, rules, by_fault, unlisted_seen, both_in_three;
  struct path path[WAYS];
  int paths_walked, covered_faults;
};

static struct posterior *
infer (struct signatures *signatures, const struct observation *readings, int count, const struct diagnosis_options *options)
{
  struct posterior *posterior;
  enum posterior_outcome outcome
      = posterior_make (signatures, readings, count, NULL, 0, options, NULL, NULL, &posterior, NULL);

  if (outcome != POSTERIOR_SOUND)
    g_error ("No posterior: %d", outcome);
  return posterior;
}

/* -- the half that fits -------------------------------------------------------------------------------------------------- */

/* Log loss at every temperature, from the hypotheses kept at 1: what was dropped there has a millionth. */
static void
fit_case (struct study *study, struct signatures *signatures, const struct hidden_case *hidden)
{
  struct posterior *p = infer (signatures, hidden->reading, READINGS, NULL);

  for (int t = 0; t < TEMPERATURES; t++) {
    double temperature = 0.8 + 0.1 * t, most = -INFINITY, sum = 0, truth = 0;
    for (int i = 0; i < p->hypotheses; i++)
      most = fmax (most, p->hypothesis[i].log_prior + p->hypothesis[i].log_likelihood / temperature);
    for (int i = 0; i < p->hypotheses; i++) {
      const struct scored *h = &p->hypothesis[i];
      double weight = exp (h->log_prior + h->log_likelihood / temperature - most);
      sum += weight;
      if (set_is_right (p, &p->set[h->set], hidden))
        truth += weight;
    }
    study->loss[t] -= log (fmax (truth / sum, 1e-6));
  }
  study->fitted++;
  posterior_free (p);
}

static void
choose_temperature (struct study *study)
{
  int best = 2;

  for (int t = 0; t < TEMPERATURES; t++)
    if (study->loss[t] < study->loss[best])
      best = t;
  study->temperature = 0.8 + 0.1 * best;
}

/* -- the half that is reported --------------------------------------------------------------------------------------------- */

static bool
fault_is_first (const struct posterior *p, const struct hidden_case *hidden)
{
  double truth = posterior_fault (p, hidden->dose[0].fault);

  for (int c = 0; c < signatures_causes (p->evidence.signatures); c++)
    if (posterior_fault (p, signatures_cause (p->evidence.signatures, c)->fault) > truth)
      return false;
  return truth > 0;
}

static bool
both_in_first_three (const struct posterior *p, const struct hidden_case *hidden)
{
  int found = 0;

  for (int d = 0; d < 2; d++) {
    double truth = posterior_fault (p, hidden->dose[d].fault);
    int before = 0;
    for (int c = 0; c < signatures_causes (p->evidence.signatures); c++) {
      const struct cause *cause = signatures_cause (p->evidence.signatures, c);
      before += cause->cylinder <= 0 && posterior_fault (p, cause->fault) > truth;
    }
    found += truth > 0 && before < 3;
  }
  return found == 2;
}

static void
report_kind (struct study *study, const struct posterior *p, const struct hidden_case *hidden)
{
  switch (hidden->kind) {
  case CASE_HEALTHY:
    study->healthy++;
    for (int i = 0; i < p->sets; i++)
      if (p->set[i].count > 0 && p->set[i].probability > FALSE_ALARM) {
        study->accused++;
        break;
      }
    break;
  case CASE_ONE:
    score_add (&study->one, p, hidden);
    score_add (&study->third[(int) fmin ((hidden->dose[0].severity - 0.1) / 0.9 * THIRDS, THIRDS - 1)], p, hidden);
    study->by_fault += fault_is_first (p, hidden);
    study->nearest += rival_is_right (p, nearest_signature (p), hidden);
    study->rules += rival_is_right (p, rule_table (p), hidden);
    break;
  case CASE_TWO:
    score_add (&study->two, p, hidden);
    study->both_in_three += both_in_first_three (p, hidden);
    break;
  case CASE_UNLISTED:
  case CASE_KINDS:
  default:
    score_add (&study->unlisted, p, hidden);
    study->unlisted_seen += p->none_of_these > 0.5 || p->tail < 0.01;
  }
}

static void
report_case (struct study *study, struct signatures *signatures, const struct hidden_case *hidden)
{
  struct diagnosis_options options = diagnosis_usual, noise_only = diagnosis_usual;
  struct posterior *p;

  options.temperature = study->temperature;
  p = infer (signatures, hidden->reading, READINGS, &options);
  score_add (&study->all, p, hidden);
  report_kind (study, p, hidden);
  posterior_free (p);
  if (hidden->kind != CASE_ONE)
    return;
  noise_only.wrong = noise_only.effect_error = 0;
  noise_only.spread = noise_only.severity_within = false;
  p = infer (signatures, hidden->reading, READINGS, &noise_only);
  score_add (&study->noise_only, p, hidden);
  posterior_free (p);
}

/* -- readings chosen one by one ----------------------------------------------------------------------------------------------- */

/* The candidate that this way takes next, of those possible; -1 without any. When to stop is the same rule for all. */
static int
choose (enum way way, struct posterior *p, const struct observation *left, int count, const struct situation *situation,
        uint64_t seed, double *minutes, bool *stop)
{
  struct advice advice;
  int open = 0, pick = -1;

  if (!next_reading (p, left, count, situation, NULL, NULL, &advice))
    g_error ("No advice");
  *stop = advice.stop != STOP_NOT_YET;
  for (int i = 0; i < advice.count; i++) {
    const struct advised *a = &advice.reading[i];
    if (a->held_back || a->too_late)
      continue;
    open++;
    if (pick < 0 || (way == WAY_CHEAPEST && a->minutes < advice.reading[pick].minutes)
        || (way == WAY_RANDOM && draw_uniform (seed, (uint64_t) (count * 16 + i)) < 1.0 / open))
      pick = i;
  }
  if (pick < 0)
    return -1;
  *minutes = advice.reading[pick].minutes;
  return advice.reading[pick].candidate;
}

/* Right: the leading set, or another of the same repair, is what was hidden. */
static bool
repair_is_right (const struct posterior *p, const struct hidden_case *hidden)
{
  return p->set[0].count == 1
         && strcmp (signatures_cause (p->evidence.signatures, p->set[0].cause[0])->fault->repair,
                    hidden->dose[0].fault->repair) == 0;
}

static void
walk (struct study *study, struct signatures *signatures, const struct hidden_case *hidden, enum way way, uint64_t seed)
{
  struct diagnosis_options options = diagnosis_usual;
  struct observation taken[READINGS], left[READINGS];
  struct situation situation = { 0, true, ~0u };
  int count = 0, remaining = READINGS;
  double minutes = 0, spent = 0, cost = 0;
  bool concluded = false, right = false, stop;

  options.temperature = study->temperature;
  memcpy (left, hidden->reading, sizeof left);
  for (;;) {
    struct posterior *p = infer (signatures, taken, count, &options);
    int next;
    if (way == WAY_ADVICE)
      score_add (&study->after[count], p, hidden);
    next = choose (way, p, left, remaining, &situation, seed, &cost, &stop);
    if (stop && !concluded) {
      concluded = true;
      minutes = spent;
      right = repair_is_right (p, hidden);
    }
    posterior_free (p);
    if (next < 0 || (concluded && way != WAY_ADVICE))
      break;
    spent += cost;
    taken[count++] = left[next];
    situation.setups |= reading_effort ((enum reading_id) (left[next].kind - reading_kinds))->setups;
    situation.engine_cold = situation.engine_cold && !(situation.setups & SETUP_HEATED);
    left[next] = left[--remaining];
  }
  study->path[way].cases++;
  study->path[way].minutes += minutes;
  study->path[way].right += right;
}

/* -- all types ------------------------------------------------------------------------------------------------------------------ */

static void
draw_unit_by_tolerances (void *data, unsigned number, struct car *unit)
{
  const struct car nominal = *unit;

  unit_draw (&nominal, data, 7700 + number, unit);
}

static struct signatures *
signatures_of (const struct study *study, const struct car_type *type)
{
  struct signature_source source = { &type->car, study->catalogue->fault, (int) study->catalogue->count,
                                     draw_unit_by_tolerances, (gpointer) study->tolerances };
  struct signatures *signatures = signatures_new (&source);
  struct observation blank[READINGS];

  generator_blank (type, blank);
  for (int i = 0; i < READINGS; i++)
    if (!signatures || signatures_add (signatures, &blank[i], NULL, NULL) != i)
      g_error ("No signatures");
  return signatures;
}

/* Faults of which some reading tells anything on this type. */
static int
visible_faults (struct signatures *signatures, const struct fault **faults)
{
  struct posterior *p = infer (signatures, NULL, 0, NULL);
  int count = 0;

  for (int c = 0; c < signatures_causes (signatures); c++) {
    const struct fault *fault = signatures_cause (signatures, c)->fault;
    if (p->cause[c].visible && (count == 0 || faults[count - 1] != fault))
      faults[count++] = fault;
  }
  posterior_free (p);
  return count;
}

/* Even cases fit, odd ones are reported; the second pass makes the same cases again. */
static void
study_type (struct study *study, uint64_t number, bool fit)
{
  const struct fault *faults[FAULTS_MAX];
  struct car_type type;
  struct signatures *signatures;
  int count, wanted = study->cases / study->types, made = 0;

  if (!generator_type ((uint64_t) study->seed * 1000 + number, &type))
    g_error ("No car");
  signatures = signatures_of (study, &type);
  count = visible_faults (signatures, faults);
  study->covered_faults = MAX (study->covered_faults, count);
  for (uint64_t seed = 1; made < wanted; seed++) {
    struct hidden_case hidden;
    uint64_t case_seed = ((uint64_t) study->seed * 1000 + number) * 100000 + seed;
    if (!generator_case (&type, study->tolerances, faults, count, case_seed, &hidden))
      continue;
    if (made++ % 2 == (fit ? 1 : 0))
      continue;
    if (fit) {
      fit_case (study, signatures, &hidden);
      continue;
    }
    report_case (study, signatures, &hidden);
    if (hidden.kind == CASE_ONE && study->paths_walked * study->types < study->paths * ((int) number + 1)) {
      study->paths_walked++;
      for (enum way way = 0; way < WAYS; way++)
        walk (study, signatures, &hidden, way, case_seed);
    }
  }
  signatures_free (signatures);
}

/* -- printing ------------------------------------------------------------------------------------------------------------------- */

static double
share (int part, int whole)
{
  return whole ? (double) part / whole : 0;
}

static double
minutes_ratio (const struct study *study, enum way way)
{
  return study->path[way].minutes > 0 ? study->path[WAY_ADVICE].minutes / study->path[way].minutes : 0;
}

static void
print_json (const struct study *s)
{
  g_print ("{\"top1_all\": %.4f, \"top3_all\": %.4f, \"top1_eight\": %.4f, \"ece\": %.4f, \"coverage90\": %.4f, "
           "\"claims90_right\": %.4f, \"healthy_false_alarm\": %.4f, \"minutes_ratio_cheapest\": %.4f, \"cases\": %d, "
           "\"reported\": %d, \"temperature\": %.1f, \"types\": %d, \"seed\": %d, \"simulated\": true}\n",
           share (s->one.top1, s->one.cases), share (s->one.top3, s->one.cases),
           share (s->after[READINGS - 1].top1, s->after[READINGS - 1].cases), score_calibration_error (&s->all),
           share (s->all.covered, s->all.cases), share (s->all.sure_right, s->all.sure), share (s->accused, s->healthy),
           minutes_ratio (s, WAY_CHEAPEST), s->fitted + s->all.cases, s->all.cases, s->temperature, s->types, s->seed);
}

static void
print_line (const char *what, double value, const char *aim)
{
  g_print ("%-66s %8.3f   %s\n", what, value, aim);
}

static void
print_score (const char *what, const struct score *s)
{
  g_print ("%-30s %6d %7.3f %7.3f %7.3f %8.3f %7.3f %7.3f\n", what, s->cases, share (s->top1, s->cases),
           share (s->top3, s->cases), share (s->covered, s->cases), s->cases ? s->log_loss / s->cases : 0,
           s->cases ? s->brier / s->cases : 0, s->cases ? s->truth / s->cases : 0);
}

static void
print_bins (const struct score *s)
{
  g_print ("\nLeading claims         cases  claimed    right\n");
  for (int i = 0; i < SCORE_BINS; i++)
    if (s->claims[i])
      g_print ("%.1f to %.1f             %5d  %7.3f  %7.3f\n", i / 10.0, (i + 1) / 10.0, s->claims[i],
               s->claimed[i] / s->claims[i], s->right[i] / s->claims[i]);
}

static void
print_table (const struct study *s)
{
  static const char *const ways[WAYS] = { "by advice", "cheapest first", "at random" };
  static const char *const thirds[THIRDS] = { "  severity 0.1 to 0.4", "  severity 0.4 to 0.7", "  severity 0.7 to 1.0" };

  g_print ("Simulated cases, not figures from cars. %d cases on %d car types, seed %d: %d fitted the temperature %.1f, %d are\n"
           "reported. 9 steady readings; up to %d of the catalogue's %u faults move one of them and are hidden.\n\n",
           s->fitted + s->all.cases, s->types, s->seed, s->fitted, s->temperature, s->all.cases, s->covered_faults,
           s->catalogue->count);
  g_print ("All nine readings               cases   top 1   top 3  in 90%%   -log p   Brier  p truth\n");
  print_score ("all", &s->all);
  print_score ("one fault", &s->one);
  for (int i = 0; i < THIRDS; i++)
    print_score (thirds[i], &s->third[i]);
  print_score ("two faults", &s->two);
  print_score ("unlisted fault", &s->unlisted);
  print_score ("one fault, noise-only Bayes", &s->noise_only);
  print_bins (&s->all);
  g_print ("\n%-66s    value   aim\n", "");
  print_line ("one fault, first", share (s->one.top1, s->one.cases), ">= 0.85");
  print_line ("one fault, in the first three", share (s->one.top3, s->one.cases), ">= 0.95");
  print_line ("one fault, first or in the first one's group (alike in all readings)", share (s->one.grouped, s->one.cases), "");
  print_line ("one fault, first by fault whatever the cylinder", share (s->by_fault, s->one.cases), "");
  print_line ("one fault, 8 of 9 readings chosen by the advice, first",
              share (s->after[READINGS - 1].top1, s->after[READINGS - 1].cases), ">= 0.75");
  print_line ("calibration error of the leading claims", score_calibration_error (&s->all), "<= 0.03");
  print_line ("truth in the 90 % set", share (s->all.covered, s->all.cases), "0.88 to 0.92");
  print_line ("claims above 0.9 that are right", share (s->all.sure_right, s->all.sure), ">= 0.95");
  print_line ("healthy cars with a fault above 0.5", share (s->accused, s->healthy), "<= 0.05");
  print_line ("two faults, both in the first three", share (s->both_in_three, s->two.cases), "");
  print_line ("unlisted faults noticed (none of these above 0.5, or tail)", share (s->unlisted_seen, s->unlisted.cases), "");
  print_line ("nearest signature, one fault, first", share (s->nearest, s->one.cases), "");
  print_line ("table of rules, one fault, first", share (s->rules, s->one.cases), "");
  print_line ("noise-only Bayes, calibration error", score_calibration_error (&s->noise_only), "");
  g_print ("\nReadings chosen by advice, %d cases of one fault\nreadings    top 1   p truth\n", s->after[0].cases);
  for (int i = 0; i <= READINGS; i++)
    g_print ("%8d %8.3f  %8.3f\n", i, share (s->after[i].top1, s->after[i].cases),
             s->after[i].cases ? s->after[i].truth / s->after[i].cases : 0);
  g_print ("\nMinutes to a conclusion   mean   with the right repair leading\n");
  for (int way = 0; way < WAYS; way++)
    g_print ("%-22s %7.1f   %7.3f\n", ways[way], s->path[way].cases ? s->path[way].minutes / s->path[way].cases : 0,
             share (s->path[way].right, s->path[way].cases));
  print_line ("minutes, advice over cheapest first", minutes_ratio (s, WAY_CHEAPEST), "<= 0.85");
  print_line ("minutes, advice over random", minutes_ratio (s, WAY_RANDOM), "");
}

static bool
parse (struct study *s, int argc, char **argv)
{
  const GOptionEntry entries[] = {
    { "cases", 0, 0, G_OPTION_ARG_INT, &s->cases, "hidden cases in all (2100)", "N" },
    { "types", 0, 0, G_OPTION_ARG_INT, &s->types, "car types (15)", "N" },
    { "seed", 0, 0, G_OPTION_ARG_INT, &s->seed, "the whole run follows from it (1)", "N" },
    { "paths", 0, 0, G_OPTION_ARG_INT, &s->paths, "cases whose readings are chosen one by one (200)", "N" },
    { "json", 0, 0, G_OPTION_ARG_NONE, &s->json, "one JSON object instead of the table", NULL },
    { "diagram", 0, 0, G_OPTION_ARG_FILENAME, &s->diagram, "reliability diagram", "FILE.png" },
    { NULL },
  };
  g_autoptr (GOptionContext) context = g_option_context_new ("- calibration study on simulated cases");
  g_autoptr (GError) error = NULL;

  g_option_context_add_main_entries (context, entries, NULL);
  if (!g_option_context_parse (context, &argc, &argv, &error) || argc > 1) {
    g_printerr ("calibration: %s\n", error ? error->message : "unexpected argument");
    return false;
  }
  if (s->types < 1 || s->cases < 2 * s->types || s->cases > 1000000 || s->types > 999 || s->seed < 0 || s->seed > 1000000
      || s->paths < 0) {
    g_printerr ("calibration: at least 1 type, 2 cases a type, at most 999 types and a million cases; seed 0 to a million\n");
    return false;
  }
  return true;
}

int
main (int argc, char **argv)
{
  struct study study = { .cases = 2100, .types = 15, .seed = 1, .paths = 200 };
  g_autoptr (problems_t) problems = problems_new ();

  if (!parse (&study, argc, argv))
    return 2;
  study.catalogue = fault_catalogue_shipped (problems);
  study.tolerances = tolerances_shipped (problems);
  if (!study.catalogue || study.catalogue->count == 0 || !study.tolerances || study.tolerances->count == 0) {
    g_printerr ("calibration: no catalogue of faults or tolerances\n");
    return 1;
  }
  for (int number = 0; number < study.types; number++)
    study_type (&study, (uint64_t) number, true);
  choose_temperature (&study);
  for (int number = 0; number < study.types; number++) {
    if (!study.json)
      g_printerr ("\rtype %d of %d ", number + 1, study.types);
    study_type (&study, (uint64_t) number, false);
  }
  if (study.json)
    print_json (&study);
  else {
    g_printerr ("\r                 \r");
    print_table (&study);
  }
  if (study.diagram && !reliability_diagram (study.diagram, &study.all)) {
    g_printerr ("calibration: cannot write %s\n", study.diagram);
    return 1;
  }
  g_free (study.diagram);
  return 0;
}
