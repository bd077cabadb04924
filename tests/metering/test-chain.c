/* The chain of effects: order, ends, and nothing without a cause. */
#include "cars.h"
#include "chain.h"
#include "near.h"
#include "solve.h"

#include <string.h>

struct told {
  struct chain_link links[CHAIN_LINKS_MAX];
  int count;
};

static struct told
chain (const struct car *car, const struct conditions *from, const struct conditions *to, bool main_line)
{
  struct told told;
  struct state before, after;

  g_assert_cmpint (metering_solve (car, from, &before), ==, OUTCOME_SOLVED);
  g_assert_cmpint (metering_solve (car, to, &after), ==, OUTCOME_SOLVED);
  told.count = chain_between (from, &before, to, &after, main_line, told.links);
  return told;
}

static const char *
key_of (const struct chain_link *link)
{
  return link->kind == CHAIN_CONDITION ? link->condition->key : link->value->key;
}

static int
place (const struct told *told, const char *key)
{
  for (int i = 0; i < told->count; i++)
    if (strcmp (key_of (&told->links[i]), key) == 0)
      return i;
  return -1;
}

/* What holds for every chain: causes come before effects, every effect has one, and every link moved. */
static void
assert_sound (const struct told *told)
{
  for (int i = 0; i < told->count; i++) {
    const struct chain_link *link = &told->links[i];
    g_assert_cmpint (link->cause, <, i);
    if (link->kind == CHAIN_CONDITION) {
      g_assert_cmpint (link->cause, ==, -1);
      g_assert_nonnull (link->condition);
      g_assert_null (link->value);
    } else {
      g_assert_cmpint (link->cause, >=, 0);
      g_assert_nonnull (link->value);
    }
    g_assert_cmpfloat (link->before, !=, link->after);
    g_assert_cmpint (place (told, key_of (link)), ==, i); /* told once */
  }
}

static void
test_cold (void)
{
  static const char *const order[] = { "coolant", "bimetal_temperature", "bimetal_force", "control_pressure", "plate_lift",
                                       "plunger_lift", "slot_opening", "fuel_flow", "lambda" };
  struct conditions warm, cold;
  struct told told;

  conditions_usual (&warm);
  cold = warm;
  cold.block_temperature = 20;
  told = chain (&hollin_six, &warm, &cold, true);
  assert_sound (&told);
  g_assert_cmpint (told.count, ==, G_N_ELEMENTS (order));
  for (unsigned i = 0; i < G_N_ELEMENTS (order); i++) {
    g_assert_cmpstr (key_of (&told.links[i]), ==, order[i]);
    g_assert_cmpint (told.links[i].cause, ==, (int) i - 1);
  }
  g_assert_cmpfloat (told.links[8].after, <, told.links[8].before); /* richer */
  g_assert_cmpfloat (fabs (told.links[6].after / told.links[5].after - 1), <, 0.05); /* slots open as the plunger lifts */
  g_assert_cmpfloat (told.links[3].after, <, told.links[3].before); /* less control pressure */
  told = chain (&hollin_six, &warm, &cold, false);
  assert_sound (&told);
  g_assert_cmpint (told.count, >, (int) G_N_ELEMENTS (order));
  g_assert_cmpint (place (&told, "plate_drop"), >, place (&told, "plunger_force"));
  g_assert_cmpint (place (&told, "lambda"), ==, told.count - 1);
}

static void
test_air (void)
{
  struct conditions idle, more;
  struct told told;

  conditions_usual (&idle);
  more = idle;
  more.air_flow = 0.02;
  told = chain (&hollin_six, &idle, &more, true);
  assert_sound (&told);
  g_assert_cmpstr (key_of (&told.links[0]), ==, "air");
  g_assert_cmpint (place (&told, "plate_lift"), >, 0);
  g_assert_cmpint (place (&told, "plunger_lift"), >, place (&told, "plate_lift"));
  g_assert_cmpint (place (&told, "fuel_flow"), >, place (&told, "plunger_lift"));
  g_assert_cmpint (place (&told, "bimetal_force"), ==, -1);
  g_assert_cmpint (place (&told, "load_position"), ==, -1);
}

/* Higher up: thinner air is told on the main line, and what it does to the plate. */
static void
test_altitude (void)
{
  struct conditions low, high;
  struct told told;

  conditions_usual (&low);
  high = low;
  high.altitude = 1500;
  told = chain (&hollin_six, &low, &high, true);
  assert_sound (&told);
  g_assert_cmpstr (key_of (&told.links[1]), ==, "air_density");
  g_assert_cmpfloat (told.links[1].after, <, told.links[1].before);
  g_assert_cmpint (place (&told, "plate_lift"), >, 1);
}

static void
test_load (void)
{
  struct conditions high, low;
  struct told told;

  conditions_usual (&high);
  low = high;
  low.vacuum = 10000;
  told = chain (&hollin_six, &high, &low, true);
  assert_sound (&told);
  g_assert_cmpstr (key_of (&told.links[0]), ==, "vacuum");
  g_assert_cmpstr (key_of (&told.links[1]), ==, "load_position");
  g_assert_cmpstr (key_of (&told.links[2]), ==, "control_pressure");
  g_assert_cmpint (place (&told, "lambda"), ==, told.count - 1);
  /* No load stage: the input moves and nothing follows */
  told = chain (&garth_eight, &high, &low, true);
  assert_sound (&told);
  g_assert_cmpint (place (&told, "control_pressure"), ==, -1);
  g_assert_cmpint (place (&told, "lambda"), ==, -1);
  struct car torn = hollin_six; /* the same with the diaphragm torn */
  torn.control.load_tightness = 0;
  told = chain (&torn, &high, &low, true);
  g_assert_cmpint (place (&told, "load_position"), ==, -1);
  g_assert_cmpint (place (&told, "lambda"), ==, -1);
}

/* Cut edges: the chain ends where the cause is taken away. */
static void
test_cut (void)
{
  struct conditions from, to;
  struct car open = hollin_six;
  struct told told;

  conditions_usual (&from);
  from.block_temperature = 20;
  to = from;
  to.heater_time = 120;
  told = chain (&hollin_six, &from, &to, true);
  g_assert_cmpint (place (&told, "lambda"), >, 0);
  open.control.heater_resistance = 1e9;
  told = chain (&open, &from, &to, true);
  assert_sound (&told);
  g_assert_cmpint (told.count, ==, 1); /* the minutes pass, nothing else */
  to.heater_unplugged = from.heater_unplugged = true;
  told = chain (&hollin_six, &from, &to, true);
  g_assert_cmpint (told.count, ==, 1);
  to = from;
  to.block_temperature = 60;
  from.held = to.held = HOLD_BIMETAL;
  from.held_bimetal_temperature = to.held_bimetal_temperature = 20;
  told = chain (&hollin_six, &from, &to, true);
  g_assert_cmpint (told.count, ==, 1);
  from.held = to.held = HOLD_CONTROL_PRESSURE;
  from.held_control_pressure = to.held_control_pressure = 3e5;
  from.heater_unplugged = to.heater_unplugged = false;
  told = chain (&hollin_six, &from, &to, true);
  assert_sound (&told);
  g_assert_cmpint (place (&told, "bimetal_force"), >, 0);
  g_assert_cmpint (place (&told, "control_pressure"), ==, -1);
  g_assert_cmpint (place (&told, "lambda"), ==, -1);
}

static void
test_nothing (void)
{
  struct conditions c, other;
  struct state solved, not = { .outcome = OUTCOME_TOO_MUCH_AIR };
  struct chain_link links[CHAIN_LINKS_MAX];

  conditions_usual (&c);
  g_assert_cmpint (metering_solve (&hollin_six, &c, &solved), ==, OUTCOME_SOLVED);
  g_assert_cmpint (chain_between (&c, &solved, &c, &solved, false, links), ==, 0);
  other = c;
  other.air_flow = 0.02;
  g_assert_cmpint (chain_between (&c, &solved, &other, &not, false, links), ==, 0);
  g_assert_cmpint (chain_between (&c, &not, &other, &solved, false, links), ==, 0);
  /* Values that differ without any input having moved are not told: nothing caused them */
  not = solved;
  not.lambda *= 1.2;
  not.fuel_flow *= 1.2;
  g_assert_cmpint (chain_between (&c, &solved, &c, &not, false, links), ==, 0);
}

/* Every input moved alone and all together, full chain: sound, and within the room for links. */
static void
test_every_input (void)
{
  struct conditions from, to, all;
  struct told told;

  conditions_usual (&from);
  all = from;
  for (int i = 0; i < condition_count; i++) {
    const struct condition *row = &condition_table[i];
    double step = 0.02 * (row->most - row->least);
    to = from;
    *condition_in (&to, row) += step;
    *condition_in (&all, row) += step;
    told = chain (&hollin_six, &from, &to, false);
    assert_sound (&told);
    g_assert_cmpstr (key_of (&told.links[0]), ==, row->key);
    g_assert_cmpint (told.count, <=, CHAIN_LINKS_MAX);
  }
  told = chain (&hollin_six, &from, &all, false);
  assert_sound (&told);
  for (int i = 0; i < condition_count; i++)
    g_assert_cmpint (place (&told, condition_table[i].key), ==, i);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain/cold", test_cold);
  g_test_add_func ("/chain/air", test_air);
  g_test_add_func ("/chain/altitude", test_altitude);
  g_test_add_func ("/chain/load", test_load);
  g_test_add_func ("/chain/cut", test_cut);
  g_test_add_func ("/chain/nothing", test_nothing);
  g_test_add_func ("/chain/every-input", test_every_input);
  return g_test_run ();
}
