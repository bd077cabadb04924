#include "operating-point.h"

#include "solve.h"
#include "text.h"

#include <math.h>
#include <string.h>

#define SETTLE_MS 600   /* after the last change: then the state is announced */
#define GESTURE_MS 2500 /* a pause this long ends a gesture that nothing else ended */
#define SCREW_KEY "screw"
#define WORTH_TELLING 1e-4 /* of a value, for the screw's own chain */

struct _OperatingPoint {
  GObject parent_instance;
  struct vehicle vehicle;
  struct car car;
  struct conditions conditions, before_conditions;
  struct state state, before;
  double screw, before_screw;
  const char *gesture; /* key of the input being moved, or NULL */
  guint settle_source, gesture_source;
  gboolean moved; /* there is a chain to tell */
};

enum { CHANGED, SETTLED, SIGNALS };
static guint signals[SIGNALS];

/* The screw changes the car, not the conditions; in the chain it stands like an input. */
static const struct condition screw_input
    = { SCREW_KEY, 0, QUANTITY_NUMBER, -20, 20, 0, N_("Mixture screw, turns richer") };

G_DEFINE_FINAL_TYPE (OperatingPoint, operating_point, G_TYPE_OBJECT)

static gboolean
settled (gpointer data)
{
  OperatingPoint *self = data;

  self->settle_source = 0;
  g_signal_emit (self, signals[SETTLED], 0);
  return G_SOURCE_REMOVE;
}

static gboolean
gesture_over (gpointer data)
{
  OperatingPoint *self = data;

  self->gesture_source = 0;
  self->gesture = NULL;
  return G_SOURCE_REMOVE;
}

static void
restart (guint *source, guint delay, GSourceFunc function, gpointer data)
{
  g_clear_handle_id (source, g_source_remove);
  *source = g_timeout_add (delay, function, data);
}

static void
solve (OperatingPoint *self)
{
  self->car = self->vehicle.car;
  self->car.distributor.mixture_offset += self->screw * self->car.distributor.mixture_screw_pitch;
  metering_solve (&self->car, &self->conditions, &self->state);
  restart (&self->settle_source, SETTLE_MS, settled, self);
  restart (&self->gesture_source, GESTURE_MS, gesture_over, self);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
begin_gesture (OperatingPoint *self, const char *key)
{
  if (self->gesture && strcmp (self->gesture, key) == 0)
    return;
  self->gesture = key;
  if (self->state.outcome == OUTCOME_SOLVED) {
    self->before = self->state;
    self->before_conditions = self->conditions;
    self->before_screw = self->screw;
  }
  self->moved = TRUE;
}

static void
start_conditions (OperatingPoint *self)
{
  conditions_usual (&self->conditions);
  self->conditions.air_flow = self->vehicle.car.engine.idle_air;
  self->screw = 0;
}

static void
operating_point_finalize (GObject *object)
{
  OperatingPoint *self = PLATELIFT_OPERATING_POINT (object);

  g_clear_handle_id (&self->settle_source, g_source_remove);
  g_clear_handle_id (&self->gesture_source, g_source_remove);
  G_OBJECT_CLASS (operating_point_parent_class)->finalize (object);
}

static void
operating_point_class_init (OperatingPointClass *class)
{
  G_OBJECT_CLASS (class)->finalize = operating_point_finalize;
  signals[CHANGED]
      = g_signal_new ("changed", OPERATING_POINT_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SETTLED]
      = g_signal_new ("settled", OPERATING_POINT_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
operating_point_init (OperatingPoint *self)
{
  conditions_usual (&self->conditions);
}

/* The values from the plunger on that the screw moved, each the cause of the next. */
static int
screw_chain (OperatingPoint *self, struct chain_link *links)
{
  static const char *const keys[] = { "plunger_lift", "slot_opening", "fuel_flow", "lambda" };
  int count = 1;

  links[0] = (struct chain_link) { CHAIN_CONDITION, &screw_input, NULL, self->before_screw, self->screw, -1 };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++) {
    const struct state_value *value = state_value_find (keys[i]);
    enum chain_kind kind = CHAIN_STATE;
    double before, after;
    if (value) {
      before = state_value_get (&self->before, value);
      after = state_value_get (&self->state, value);
    } else {
      kind = CHAIN_CYLINDER;
      for (int j = 0; j < cylinder_value_count && !value; j++)
        if (strcmp (cylinder_values[j].key, keys[i]) == 0)
          value = &cylinder_values[j];
      g_return_val_if_fail (value != NULL, count);
      before = cylinder_value_get (&self->before.cylinder[0], value);
      after = cylinder_value_get (&self->state.cylinder[0], value);
    }
    if (fabs (after - before) > WORTH_TELLING * fabs (before)) {
      links[count] = (struct chain_link) { kind, NULL, value, before, after, count - 1 };
      count++;
    }
  }
  return count;
}

OperatingPoint *
operating_point_new (void)
{
  return g_object_new (OPERATING_POINT_TYPE, NULL);
}

void
operating_point_set_vehicle (OperatingPoint *self, const struct vehicle *vehicle)
{
  g_return_if_fail (PLATELIFT_IS_OPERATING_POINT (self) && vehicle);
  self->vehicle = *vehicle;
  start_conditions (self);
  self->gesture = NULL;
  self->moved = FALSE; /* another car is no effect of anything */
  solve (self);
}

void
operating_point_back_to_start (OperatingPoint *self)
{
  g_return_if_fail (PLATELIFT_IS_OPERATING_POINT (self));
  start_conditions (self);
  self->gesture = NULL;
  self->moved = FALSE;
  solve (self);
}

gboolean
operating_point_at_start (OperatingPoint *self)
{
  struct conditions usual;

  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self), TRUE);
  conditions_usual (&usual);
  for (int i = 0; i < condition_count; i++) {
    const struct condition *condition = &condition_table[i];
    double start = g_str_equal (condition->key, "air") ? self->vehicle.car.engine.idle_air
                                                       : *condition_in (&usual, condition);
    if (*condition_in (&self->conditions, condition) != start)
      return FALSE;
  }
  return self->screw == 0;
}

void
operating_point_set (OperatingPoint *self, const struct condition *condition, double value)
{
  double *place;

  g_return_if_fail (PLATELIFT_IS_OPERATING_POINT (self) && condition);
  place = condition_in (&self->conditions, condition);
  value = CLAMP (value, condition->least, condition->most);
  if (*place == value)
    return;
  begin_gesture (self, condition->key);
  *place = value;
  solve (self);
}

double
operating_point_get (OperatingPoint *self, const struct condition *condition)
{
  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self) && condition, 0);
  return *condition_in (&self->conditions, condition);
}

void
operating_point_set_screw (OperatingPoint *self, double turns)
{
  g_return_if_fail (PLATELIFT_IS_OPERATING_POINT (self) && isfinite (turns));
  if (self->screw == turns)
    return;
  begin_gesture (self, SCREW_KEY);
  self->screw = turns;
  solve (self);
}

double
operating_point_get_screw (OperatingPoint *self)
{
  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self), 0);
  return self->screw;
}

void
operating_point_end_gesture (OperatingPoint *self)
{
  g_return_if_fail (PLATELIFT_IS_OPERATING_POINT (self));
  self->gesture = NULL;
}

const struct vehicle *
operating_point_vehicle (OperatingPoint *self)
{
  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self), NULL);
  return &self->vehicle;
}

const struct car *
operating_point_car (OperatingPoint *self)
{
  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self), NULL);
  return &self->car;
}

const struct conditions *
operating_point_conditions (OperatingPoint *self)
{
  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self), NULL);
  return &self->conditions;
}

const struct state *
operating_point_state (OperatingPoint *self)
{
  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self), NULL);
  return &self->state;
}

int
operating_point_chain (OperatingPoint *self, struct chain_link links[CHAIN_LINKS_MAX])
{
  g_return_val_if_fail (PLATELIFT_IS_OPERATING_POINT (self), 0);
  if (!self->moved || self->state.outcome != OUTCOME_SOLVED || self->before.outcome != OUTCOME_SOLVED)
    return 0;
  if (self->screw != self->before_screw)
    return screw_chain (self, links);
  return chain_between (&self->before_conditions, &self->before, &self->conditions, &self->state, TRUE, links);
}
