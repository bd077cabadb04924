/* How many steps the solver takes, whatever the machine's clock says: its calls into the distributor are counted (the
 * linker puts the counters in between), and those of exp and tanh, one of which every trial of a slot makes. Wrong
 * derivatives and bad first guesses change no result, only this. */
#include "cars.h"
#include "draw.h"
#include "near.h"
#include "solve.h"
#include "solve-private.h"

#define STATES 3000
#define TAME_STEPS 4.04 /* means by state; 4.03, 0.21, 9.12 and 0.89, 6.58, 45.96 when this was written */
#define TAME_SLOTS 193.0 /* with the few of exp that set a state up; 192.60 and 234.23 */
#define WILD_SLOTS 236.5
#define TAME_BRACKETED 0.208
#define TAME_CIRCUITS 9.16
#define WILD_CIRCUITS 46.2
#define WILD_STEPS 0.895
#define WILD_BRACKETED 6.62

double __real_sensor_lift (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop,
                           double guess);
double __wrap_sensor_lift (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop,
                           double guess);
bool __real_distributor_step (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel, int cylinder,
                              double seat, double slot_opening, double system_pressure, double valve_opening,
                              struct distributor_step *step);
bool __wrap_distributor_step (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel, int cylinder,
                              double seat, double slot_opening, double system_pressure, double valve_opening,
                              struct distributor_step *step);

double __real_exp (double x);
double __wrap_exp (double x);
double __real_tanh (double x);
double __wrap_tanh (double x);
double __real_control_base_pressure (const struct control_circuit *control, double bimetal_force, double load_force,
                                     double return_pressure);
double __wrap_control_base_pressure (const struct control_circuit *control, double bimetal_force, double load_force,
                                     double return_pressure);

static long steps, bracketed, circuits, slots;

double
__wrap_exp (double x)
{
  slots++;
  return __real_exp (x);
}

double
__wrap_tanh (double x)
{
  slots++;
  return __real_tanh (x);
}

double
__wrap_control_base_pressure (const struct control_circuit *control, double bimetal_force, double load_force,
                              double return_pressure)
{
  circuits++;
  return __real_control_base_pressure (control, bimetal_force, load_force, return_pressure);
}

double
__wrap_sensor_lift (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop, double guess)
{
  bracketed++;
  return __real_sensor_lift (sensor, air, flow, drop, guess);
}

bool
__wrap_distributor_step (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel, int cylinder,
                         double seat, double slot_opening, double system_pressure, double valve_opening,
                         struct distributor_step *step)
{
  steps += cylinder == 0;
  return __real_distributor_step (distributor, fuel, cylinder, seat, slot_opening, system_pressure, valve_opening, step);
}

static void
count (gboolean wild, double *step_mean, double *bracketed_mean)
{
  int states = 0;

  steps = bracketed = circuits = slots = 0;
  for (int i = 0; i < STATES; i++) {
    struct draw draw = draw_start (9, (uint64_t) i);
    struct car car;
    struct conditions conditions;
    struct state state;

    draw_car (&draw, wild, &car);
    draw_conditions (&draw, wild, &car, &conditions);
    states += metering_solve (&car, &conditions, &state) == OUTCOME_SOLVED;
  }
  *step_mean = (double) steps / states;
  *bracketed_mean = (double) bracketed / states;
  g_test_message ("%s: %.3f steps together, %.3f plates in brackets, %.3f control circuits, %.2f slots",
                  wild ? "wild" : "tame", *step_mean, *bracketed_mean, (double) circuits / states,
                  (double) slots / states);
  g_assert_cmpfloat ((double) slots / states, <, wild ? WILD_SLOTS : TAME_SLOTS);
  g_assert_cmpfloat ((double) circuits / states, <, wild ? WILD_CIRCUITS : TAME_CIRCUITS);
}

static void
test_tame (void)
{
  double step_mean, bracketed_mean;

  count (FALSE, &step_mean, &bracketed_mean);
  g_assert_cmpfloat (step_mean, >, 2); /* it is counted */
  g_assert_cmpfloat (step_mean, <, TAME_STEPS);
  g_assert_cmpfloat (bracketed_mean, <, TAME_BRACKETED);
}

static void
test_wild (void)
{
  double step_mean, bracketed_mean;

  count (TRUE, &step_mean, &bracketed_mean);
  g_assert_cmpfloat (step_mean, <, WILD_STEPS);
  g_assert_cmpfloat (bracketed_mean, <, WILD_BRACKETED);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/effort/tame", test_tame);
  g_test_add_func ("/effort/wild", test_wild);
  return g_test_run ();
}
