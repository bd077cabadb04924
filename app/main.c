/* The one program: what can be done without a display is done here before GTK is touched; the rest opens the window. */
#include "application.h"
#include "check-report.h"
#include "command-line.h"
#include "config.h"
#include "fault-words.h"
#include "json-writer.h"
#include "mixture-report.h"
#include "places.h"
#include "safe-file.h"
#include "scene-file.h"
#include "solve.h"
#include "text-table.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

enum { EXIT_FINE, EXIT_OUT, EXIT_BAD_INPUT };

#define PICTURE_WIDTH 1600
#define PICTURE_HEIGHT 900
#define INPUT_MAX (16 * 1024 * 1024) /* bytes of a CSV; the documents room has its own limit for documents */

static int
complain (const char *sentence)
{
  g_autofree char *line = g_strdup_printf ("platelift: %s\n", sentence);

  fputs (line, stderr);
  return EXIT_BAD_INPUT;
}

static int
complain_about (const char *option, const char *file, const struct problems *problems)
{
  g_autofree char *text = problems_text (problems, file);

  fprintf (stderr, "platelift: %s:\n%s", option, text);
  return EXIT_BAD_INPUT;
}

/* A full disk shows when the last byte is flushed. */
static int
print (const char *text, int status)
{
  if (fputs (text, stdout) < 0 || fflush (stdout) != 0)
    {
      g_autofree char *sentence = g_strdup_printf (_("standard output: %s"), g_strerror (errno));

      return complain (sentence);
    }
  return status;
}

static struct vehicle *
load_car (const char *name)
{
  g_autoptr (problems_t) problems = problems_new ();
  struct vehicle *vehicle = vehicle_load (name != NULL ? name : VEHICLE_FIRST, problems);

  if (vehicle == NULL)
    complain_about ("--car", name != NULL ? name : VEHICLE_FIRST, problems);
  return vehicle;
}

static int
list_cars (const struct command_line *line)
{
  const char *const *names = vehicle_shipped ();
  struct json_writer *json = line->json ? json_writer_new () : NULL;
  struct text_table *table = text_table_new ("ll");
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *listed = NULL;

  if (json != NULL)
    json_writer_begin_array (json, NULL);
  for (int i = 0; names[i] != NULL; i++)
    {
      g_autofree struct vehicle *vehicle = load_car (names[i]);

      g_return_val_if_fail (vehicle != NULL, EXIT_BAD_INPUT);
      text_table_row (table, vehicle->key, vehicle->name, NULL);
      if (json == NULL)
        continue;
      json_writer_begin_object (json, NULL);
      json_writer_text (json, "car", vehicle->key);
      json_writer_text (json, "car_name", vehicle->name);
      json_writer_number (json, "cylinders", vehicle->car.cylinders);
      json_writer_end (json);
    }
  text_table_end (table, text);
  if (json != NULL)
    json_writer_end (json);
  listed = json != NULL ? json_writer_finish (json) : g_strdup (text->str);
  return print (listed, EXIT_FINE);
}

static int
list_faults (const struct command_line *line)
{
  g_autofree char *listed = fault_words_list (line->json);

  return print (listed, EXIT_FINE);
}

static int
draw (const struct command_line *line, const struct vehicle *vehicle, const struct state *state)
{
  const struct unit_choices usual = { PRESSURE_IN_BAR, TEMPERATURE_IN_CELSIUS };
  const struct scene scene = {
    .car = &vehicle->car,
    .conditions = &line->conditions,
    .state = state,
    .units = &usual,
    .width = PICTURE_WIDTH,
    .height = PICTURE_HEIGHT,
    .type_scale = 1,
    .layers = LAYER_PRESSURES | LAYER_FLOW | LAYER_LABELS | LAYER_DIMENSIONS,
    .theme = g_str_has_suffix (line->picture, ".pdf") ? SCENE_PRINT : SCENE_LIGHT,
    .own_readout = true,
  };
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;

  if (scene_write_file (&scene, line->picture, &error))
    return EXIT_FINE;
  sentence = g_strdup_printf ("--picture: %s", error->message);
  return complain (sentence);
}

static int
report_mixture (const struct command_line *line)
{
  g_autofree struct vehicle *vehicle = load_car (line->car);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  struct state state;
  int status = EXIT_FINE;

  if (vehicle == NULL)
    return EXIT_BAD_INPUT;
  if (!fault_words_apply (line->faults, &vehicle->car, &error))
    {
      g_autofree char *sentence = g_strdup_printf ("--fault: %s", error->message);

      return complain (sentence);
    }
  if (metering_solve (&vehicle->car, &line->conditions, &state) != OUTCOME_SOLVED)
    {
      g_autofree char *sentence = g_strdup_printf ("%s%s", state.outcome == OUTCOME_TOO_MUCH_AIR ? "--air: " : "",
                                                   _(outcome_text (state.outcome)));

      status = complain (sentence);
    }
  else if (line->picture != NULL)
    status = draw (line, vehicle, &state);
  if (!line->report)
    return status;
  text = line->json ? mixture_report_json (vehicle, &line->conditions, &state, line->faults, line->all)
                    : mixture_report_text (vehicle, &line->conditions, &state, line->faults, line->all);
  return print (text, status);
}

/* A document begins with a brace; anything else is taken for a CSV. */
static gboolean
is_document (const char *text)
{
  if (g_str_has_prefix (text, "\xef\xbb\xbf"))
    text += 3;
  while (g_ascii_isspace (*text))
    text++;
  return *text == '{' || *text == '[';
}

/* The job in that file, or NULL after a complaint. */
static struct job *
load_job (const struct command_line *line)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (GError) error = NULL;
  g_autofree struct vehicle *vehicle = NULL;
  g_autofree char *text = NULL;
  struct job *job = NULL;
  gsize length;

  text = safe_file_read (line->check, INPUT_MAX, &length, &error);
  if (text == NULL)
    problems_add (problems, "", "%s", error->message);
  else if (length == 0)
    problems_add (problems, "", _("The file is empty"));
  else if (is_document (text))
    {
      if (line->car != NULL)
        {
          complain (_("--car: the job document names its own car; --car is for a CSV"));
          return NULL;
        }
      job = job_parse (text, length, problems);
    }
  else
    {
      if (line->car == NULL)
        {
          complain (_("--check: a CSV does not say which car it was: add --car"));
          return NULL;
        }
      vehicle = load_car (line->car);
      if (vehicle == NULL)
        return NULL;
      job = job_new (vehicle);
      csv_readings_parse (text, length, job, problems);
    }
  if (problems_count (problems) > 0 || job == NULL)
    {
      complain_about ("--check", line->check, problems);
      g_clear_pointer (&job, job_free);
    }
  return job;
}

static int
report_check (const struct command_line *line)
{
  struct job *job = load_job (line);
  g_autoptr (GArray) checked = NULL;
  g_autofree char *text = NULL;
  int status;

  if (job == NULL)
    return EXIT_BAD_INPUT;
  checked = job_check (job);
  text = line->json ? check_report_json (job, checked) : check_report_text (job, checked);
  status = print (text, check_any_out (checked) ? EXIT_OUT : EXIT_FINE);
  job_free (job);
  return status;
}

static int
open_window (struct command_line *line, char *program)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();

  g_ptr_array_add (words, program);
  for (char **file = line->files; file != NULL && *file != NULL; file++)
    g_ptr_array_add (words, *file);
  g_ptr_array_add (words, NULL);
  if (gtk_init_check ())
    return application_run ((int) words->len - 1, (char **) words->pdata);
  if (words->len > 2)
    return complain (_("no display can be opened, so no window either; --help says what can be done without one"));
  line->report = TRUE;
  return report_mixture (line);
}

static int
run (struct command_line *line, char *program)
{
  switch (line->command)
    {
    case COMMAND_HELP:
      return print (line->help, EXIT_FINE);
    case COMMAND_VERSION:
      return print ("Platelift " PLATELIFT_VERSION "\n", EXIT_FINE);
    case COMMAND_LIST_CARS:
      return list_cars (line);
    case COMMAND_LIST_FAULTS:
      return list_faults (line);
    case COMMAND_MIXTURE:
      return report_mixture (line);
    case COMMAND_CHECK:
      return report_check (line);
    case COMMAND_WINDOW:
      return open_window (line, program);
    }
  g_return_val_if_reached (EXIT_BAD_INPUT);
}

int
main (int argc, char **argv)
{
  struct command_line line;
  g_autoptr (GError) error = NULL;
  int status;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, place_translations ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname ("platelift");

  if (command_line_read (argc, argv, &line, &error))
    status = run (&line, argv[0]);
  else
    status = complain (error->message);
  command_line_clear (&line);
  return status;
}
