/* What is advised next: cold readings first, set-ups counted once, safety before all, an end. */
#include "cars.h"
#include "near.h"
#include "next-reading.h"
#include "workshop.h"

static struct signatures *signatures;
static struct observation healthy[READINGS];

static struct advice
advise (const struct observation *taken, int count, const struct observation *left, int left_count,
        const struct situation *situation)
{
  struct posterior *p;
  struct advice advice;

  g_assert_cmpint (posterior_make (signatures, taken, count, NULL, 0, NULL, NULL, NULL, &p, NULL), ==, POSTERIOR_SOUND);
  g_assert_true (next_reading (p, left, left_count, situation, NULL, NULL, &advice));
  posterior_free (p);
  return advice;
}

static const struct advised *
find (const struct advice *advice, int candidate)
{
  for (int i = 0; i < advice->count; i++)
    if (advice->reading[i].candidate == candidate)
      return &advice->reading[i];
  g_assert_not_reached ();
}

static void
test_cold_first (void)
{
  struct situation cold = { 0, true, ~0u }, warm = { 0, false, ~0u };
  struct advice advice = advise (NULL, 0, healthy, READINGS, &cold);

  g_assert_cmpint (advice.count, ==, READINGS);
  g_assert_cmpint (advice.stop, ==, STOP_NOT_YET);
  g_assert_cmpint (advice.reading[0].candidate, ==, READING_CONTROL_COLD);
  g_assert_true (advice.reading[0].perishes);
  for (int i = 2; i < READINGS; i++)
    g_assert_cmpfloat (advice.reading[i - 1].bits / advice.reading[i - 1].minutes, >=,
                       advice.reading[i].bits / advice.reading[i].minutes);
  advice = advise (NULL, 0, healthy, READINGS, &warm);
  g_assert_cmpint (advice.reading[READINGS - 1].candidate, ==, READING_CONTROL_COLD);
  g_assert_true (advice.reading[READINGS - 1].too_late);
  g_assert_false (advice.reading[READINGS - 1].perishes);
}

static void
test_setups (void)
{
  struct situation bare = { 0, true, ~0u }, gauge = { SETUP_GAUGE | SETUP_BRIDGE, true, ~0u };
  struct advice before = advise (NULL, 0, healthy, READINGS, &bare);
  struct advice after = advise (NULL, 0, healthy, READINGS, &gauge);

  /* 3 min for the bridge and 12 for the gauge: the table's own */
  assert_within (find (&before, READING_SYSTEM_PRESSURE)->minutes - find (&after, READING_SYSTEM_PRESSURE)->minutes, 15, 0);
  assert_within (find (&before, READING_REST_HEIGHT)->minutes, find (&after, READING_REST_HEIGHT)->minutes, 0);
  assert_within (find (&before, READING_SYSTEM_PRESSURE)->bits, find (&after, READING_SYSTEM_PRESSURE)->bits, 0);
}

/* Nothing is advised whose precautions are not in place, and the list says which are missing. */
static void
test_safety (void)
{
  struct situation none = { 0, true, 0 };
  struct situation no_exhaust = { 0, true, ~(unsigned) HAZARD_EXHAUST };
  struct advice advice = advise (NULL, 0, healthy, READINGS, &none);

  g_assert_cmpint (advice.stop, ==, STOP_HELD_BACK);
  for (int i = 0; i < advice.count; i++)
    g_assert_cmpuint (advice.reading[i].held_back, ==, healthy[advice.reading[i].candidate].kind->hazards);
  advice = advise (NULL, 0, healthy, READINGS, &no_exhaust);
  g_assert_cmpint (advice.stop, ==, STOP_NOT_YET);
  for (int i = 0; i < advice.count; i++) {
    bool exhaust = healthy[advice.reading[i].candidate].kind->hazards & HAZARD_EXHAUST;
    g_assert_cmpuint (advice.reading[i].held_back, ==, exhaust ? HAZARD_EXHAUST : 0);
    g_assert_true (!exhaust || i >= advice.count - 2); /* both warm pressures */
  }
}

/* A reading that the suspect moves tells more than one that it does not; a repetition less than the first time. */
static void
test_tells (void)
{
  struct situation situation = { ~0u, true, ~0u };
  struct advice before = advise (NULL, 0, healthy, READINGS, &situation), after;
  const struct advised *again;

  after = advise (&healthy[READING_SYSTEM_PRESSURE], 1, healthy, READINGS, &situation);
  again = find (&after, READING_SYSTEM_PRESSURE);
  g_assert_cmpfloat (again->bits, <, 0.5 * find (&before, READING_SYSTEM_PRESSURE)->bits);
  for (int i = 0; i < READINGS; i++) {
    g_assert_true (after.reading[i].bits >= 0 && after.reading[i].bits < 8);
    g_assert_true (after.reading[i].minutes > 0 && after.reading[i].minutes_saved >= 0);
    g_assert_true (after.reading[i].minutes_saved <= after.expected_minutes);
  }
}

static void
test_stops (void)
{
  struct situation situation = { ~0u, true, ~0u };
  struct car car = hollin_six;
  struct observation o[READINGS];
  struct advice advice;

  g_assert_true (fault_apply (&car, &workshop_faults ()[WARM_UP_LOW], 0.7, 0));
  for (int i = 0; i < READINGS; i++)
    g_assert_true (workshop_read (&hollin_six, &car, (enum reading_id) i, &o[i]));
  advice = advise (o, READINGS - 1, &o[READINGS - 1], 1, &situation);
  g_assert_cmpint (advice.stop, ==, STOP_SURE);
  advice = advise (NULL, 0, NULL, 0, &situation);
  g_assert_cmpint (advice.stop, ==, STOP_NONE_LEFT);
  for (int stop = STOP_SURE; stop <= STOP_NONE_LEFT; stop++)
    g_assert_cmpuint (strlen (stop_text ((enum stop) stop)), >, 20);
}

static void
test_repairs (void)
{
  struct car car = hollin_six;
  struct observation o[READINGS];
  struct repair repairs[8];
  struct posterior *p;
  int count;

  g_assert_true (fault_apply (&car, &workshop_faults ()[SLOT_NARROW], 0.7, 3));
  for (int i = 0; i < READINGS; i++)
    g_assert_true (workshop_read (&hollin_six, &car, (enum reading_id) i, &o[i]));
  g_assert_cmpint (posterior_make (signatures, o, READINGS, NULL, 0, NULL, NULL, NULL, &p, NULL), ==, POSTERIOR_SOUND);
  count = posterior_repairs (p, repairs, 8);
  g_assert_cmpint (count, >, 1);
  g_assert_true (signatures_cause (signatures, repairs[0].what)->fault == &workshop_faults ()[SLOT_NARROW]);
  g_assert_cmpint (signatures_cause (signatures, repairs[0].what)->cylinder, ==, 3);
  for (int i = 1; i < count; i++)
    g_assert_cmpfloat (repairs[i].probability / repairs[i].minutes, <=,
                       repairs[i - 1].probability / repairs[i - 1].minutes * (1 + 1e-12));
  posterior_free (p);
}

static bool
never (void *data, double share)
{
  (void) data, (void) share;
  return false;
}

static void
test_stopped (void)
{
  struct situation situation = { 0, true, ~0u };
  struct posterior *p;
  struct advice advice;

  g_assert_cmpint (posterior_make (signatures, NULL, 0, NULL, 0, NULL, NULL, NULL, &p, NULL), ==, POSTERIOR_SOUND);
  g_assert_false (next_reading (p, healthy, READINGS, &situation, never, NULL, &advice));
  posterior_free (p);
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  signatures = workshop_signatures (&hollin_six);
  g_assert_nonnull (signatures);
  for (int i = 0; i < READINGS; i++)
    g_assert_true (workshop_read (&hollin_six, &hollin_six, (enum reading_id) i, &healthy[i]));
  g_test_add_func ("/next-reading/cold-first", test_cold_first);
  g_test_add_func ("/next-reading/setups", test_setups);
  g_test_add_func ("/next-reading/safety", test_safety);
  g_test_add_func ("/next-reading/tells", test_tells);
  g_test_add_func ("/next-reading/stops", test_stops);
  g_test_add_func ("/next-reading/repairs", test_repairs);
  g_test_add_func ("/next-reading/stopped", test_stopped);
  result = g_test_run ();
  signatures_free (signatures);
  return result;
}
