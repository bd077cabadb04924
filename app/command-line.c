/* GLib's option parser takes nan, hexadecimal numbers and an option given twice; so every option is a callback here that
 * checks its own value. */
#include "command-line.h"

#include "fault-words.h"
#include "number-text.h"
#include "units.h"

#include <glib/gi18n.h>
#include <math.h>

#define NARROW_SPACE "\u202f" /* no-break, before a unit */
#define DECIMALS_MAX 3        /* of a condition as shown */
#define ALIKE 1e-6            /* what a shown condition may be off */

const struct condition_words condition_words[] = {
  { "air", "kg/h", "air_kg_per_h", "KG_PER_H" },
  { "coolant", "°C", "coolant_deg_c", "DEG_C" },
  { "minutes", "min", "minutes", "MINUTES" },
  { "vacuum", "mbar", "vacuum_mbar", "MBAR" },
  { "altitude", "m", "altitude_m", "M" },
  { "ambient", "°C", "ambient_deg_c", "DEG_C" },
  { "humidity", "%", "humidity_percent", "PERCENT" },
  { "fuel", "°C", "fuel_deg_c", "DEG_C" },
  { "voltage", "V", "voltage_v", "V" },
};
const int condition_words_count = G_N_ELEMENTS (condition_words);

/* What the callbacks fill. */
struct reading_of_options {
  struct command_line *line;
  GHashTable *seen;        /* long names */
  gboolean mixture, conditions;
};

static gboolean
refuse (GError **error, const char *option, const char *sentence)
{
  g_set_error (error, G_OPTION_ERROR, G_OPTION_ERROR_BAD_VALUE, "%s: %s", option, sentence);
  return FALSE;
}

/* An option may stand once. option is as typed: "--air" or "-h". */
static gboolean
once (struct reading_of_options *reading, const char *option, GError **error)
{
  if (g_hash_table_add (reading->seen, g_strdup (option)))
    return TRUE;
  return refuse (error, option, _("given twice"));
}

static gboolean
take_flag (const char *option, const char *value, gpointer data, GError **error)
{
  struct reading_of_options *reading = data;
  struct command_line *line = reading->line;

  if (!once (reading, option, error))
    return FALSE;
  if (g_str_equal (option, "--mixture"))
    reading->mixture = TRUE;
  else if (g_str_equal (option, "--json"))
    line->json = TRUE;
  else if (g_str_equal (option, "--all"))
    line->all = TRUE;
  else if (g_str_equal (option, "--list-cars"))
    line->command = COMMAND_LIST_CARS;
  else if (g_str_equal (option, "--list-faults"))
    line->command = COMMAND_LIST_FAULTS;
  else if (g_str_equal (option, "--version"))
    line->command = COMMAND_VERSION;
  else
    line->command = COMMAND_HELP;
  return TRUE;
}

static gboolean
take_name (const char *option, const char *value, gpointer data, GError **error)
{
  struct reading_of_options *reading = data;
  struct command_line *line = reading->line;

  if (!once (reading, option, error))
    return FALSE;
  if (*value == '\0')
    return refuse (error, option, _("the value is empty"));
  if (g_str_equal (option, "--car"))
    line->car = g_strdup (value);
  else if (g_str_equal (option, "--picture"))
    line->picture = g_strdup (value);
  else
    line->check = g_strdup (value);
  return TRUE;
}

/* The one option that may stand several times. */
static gboolean
take_fault (const char *option, const char *value, gpointer data, GError **error)
{
  struct reading_of_options *reading = data;
  g_autoptr (GError) complaint = NULL;

  return fault_words_read (value, reading->line->faults, &complaint) || refuse (error, option, complaint->message);
}

static char *
limits_text (const struct condition *condition, const struct unit *unit)
{
  g_autofree char *least = number_shown (unit_from_si (unit, condition->least), 0);
  g_autofree char *most = condition_shown (condition, condition->most);

  return g_strdup_printf (_("%s to %s"), least, most);
}

static gboolean
take_condition (const char *option, const char *value, gpointer data, GError **error)
{
  struct reading_of_options *reading = data;
  const struct condition *condition = condition_find (option + 2);
  const struct unit *unit = unit_find (condition_words_find (option + 2)->unit_symbol, condition->quantity);
  g_autoptr (GError) complaint = NULL;
  double si;

  if (!once (reading, option, error))
    return FALSE;
  if (!g_utf8_validate (value, -1, NULL))
    return refuse (error, option, _("the value is not UTF-8 text"));
  if (!measure_parse (value, condition->quantity, unit, &si, NULL, &complaint))
    return refuse (error, option, complaint->message);
  if (!(si >= condition->least && si <= condition->most))
    {
      g_autofree char *limits = limits_text (condition, unit);
      g_autofree char *sentence = g_strdup_printf (_("“%s” is out of range: %s is possible"), value, limits);

      return refuse (error, option, sentence);
    }
  *condition_in (&reading->line->conditions, condition) = si;
  reading->conditions = TRUE;
  return TRUE;
}

static char *
condition_description (const struct condition *condition, const struct unit *unit)
{
  g_autofree char *limits = limits_text (condition, unit);
  g_autofree char *usual = condition_shown (condition, condition->usual);

  return g_strdup_printf (_("%s, %s; %s if not given"), _(condition->name), limits, usual);
}

/* GLib's parser lets "--json=no" pass as "--json". */
static gboolean
refuse_flag_values (char **words, GError **error)
{
  static const char *const flags[] = { "--mixture=", "--list-cars=", "--list-faults=", "--json=", "--all=", "--version=", "--help=" };

  for (int i = 1; words[i] != NULL && !g_str_equal (words[i], "--"); i++)
    for (gsize flag = 0; flag < G_N_ELEMENTS (flags); flag++)
      if (g_str_has_prefix (words[i], flags[flag]))
        return refuse (error, words[i], _("this option takes no value"));
  return TRUE;
}

static void
add_conditions (GArray *entries, GPtrArray *texts)
{
  for (int i = 0; i < condition_count; i++)
    {
      const struct condition *condition = &condition_table[i];
      const struct condition_words *words = condition_words_find (condition->key);
      GOptionEntry entry = { condition->key, 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK,
                             (gpointer) take_condition, NULL, NULL };
      const struct unit *unit;

      g_return_if_fail (words != NULL);
      unit = unit_find (words->unit_symbol, condition->quantity);
      g_return_if_fail (unit != NULL);
      entry.description = condition_description (condition, unit);
      entry.arg_description = words->argument;
      g_ptr_array_add (texts, (gpointer) entry.description);
      g_array_append_val (entries, entry);
    }
}

static void
add_others (GArray *entries)
{
  const GOptionEntry others[] = {
    { "mixture", 0, G_OPTION_FLAG_NO_ARG, G_OPTION_ARG_CALLBACK, (gpointer) take_flag,
      _("Print the state of a car's metering unit and its mixture"), NULL },
    { "check", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, (gpointer) take_name,
      _("Hold the readings of a job document or a CSV against the model"), _("FILE") },
    { "picture", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, (gpointer) take_name,
      _("Draw the state; the ending says how: .png, .svg or .pdf"), _("FILE") },
    { "list-cars", 0, G_OPTION_FLAG_NO_ARG, G_OPTION_ARG_CALLBACK, (gpointer) take_flag,
      _("List the cars that come with the program"), NULL },
    { "car", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, (gpointer) take_name,
      _("A car of that list, or a vehicle data document"), _("NAME_OR_FILE") },
    { "fault", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, (gpointer) take_fault,
      _("With --mixture or --picture: a fault, its severity 0 to 1; several by commas or given again"),
      _("KEY[=SEVERITY][@CYLINDER]") },
    { "list-faults", 0, G_OPTION_FLAG_NO_ARG, G_OPTION_ARG_CALLBACK, (gpointer) take_flag,
      _("List the faults that the model knows"), NULL },
    { "json", 0, G_OPTION_FLAG_NO_ARG, G_OPTION_ARG_CALLBACK, (gpointer) take_flag,
      _("Print JSON instead of text"), NULL },
    { "all", 0, G_OPTION_FLAG_NO_ARG, G_OPTION_ARG_CALLBACK, (gpointer) take_flag,
      _("With --mixture: every value of the model and how well each equation is met"), NULL },
    { "version", 0, G_OPTION_FLAG_NO_ARG, G_OPTION_ARG_CALLBACK, (gpointer) take_flag, _("Print the version"), NULL },
    { "help", 'h', G_OPTION_FLAG_NO_ARG, G_OPTION_ARG_CALLBACK, (gpointer) take_flag, _("Print this help"), NULL },
  };

  g_array_append_vals (entries, others, G_N_ELEMENTS (others));
}

static GOptionContext *
make_context (struct reading_of_options *reading, GPtrArray *texts)
{
  GOptionContext *context = g_option_context_new (_("[FILE]"));
  GOptionGroup *group = g_option_group_new ("main", "", "", reading, NULL);
  g_autoptr (GArray) entries = g_array_new (TRUE, TRUE, sizeof (GOptionEntry));

  add_others (entries);
  add_conditions (entries, texts);
  g_option_group_add_entries (group, (const GOptionEntry *) (gpointer) entries->data);
  g_option_context_set_main_group (context, group);
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_summary (context,
                                _("Mechanical continuous fuel injection, computed: without an option that prints or "
                                  "draws, the window opens."));
  g_option_context_set_description (
    context,
    _("A value may carry its unit (--air \"5 g/s\", --vacuum \"15 inHg\"); without one it is in the unit named above.\n"
      "--minutes is the time with the heater on and the block at the coolant's temperature; 0 means that the bimetal is "
      "as warm as the block.\n"
      "The altitude sets the air's pressure only: the air temperature stays as it is unless --ambient is given.\n"
      "\n"
      "Exit status: 0 all well or undecided; 1 a reading is out; 2 an input is wrong, and standard error says where."));
  return context;
}

/* Whether only a list is asked for. */
static gboolean
lists (const struct command_line *line)
{
  return line->command == COMMAND_LIST_CARS || line->command == COMMAND_LIST_FAULTS;
}

/* Which options go together. */
static gboolean
settle (struct reading_of_options *reading, GError **error)
{
  struct command_line *line = reading->line;
  const char *extra = line->files != NULL ? line->files[0] : NULL;

  if (line->command == COMMAND_HELP || line->command == COMMAND_VERSION)
    return TRUE;
  if (reading->mixture && line->check != NULL)
    return refuse (error, "--check", _("does not go together with --mixture"));
  if (line->picture != NULL && line->check != NULL)
    return refuse (error, "--picture", _("does not go together with --check"));
  if (lists (line) && (reading->mixture || line->check != NULL || line->picture != NULL
                       || (g_hash_table_contains (reading->seen, "--list-cars")
                           && g_hash_table_contains (reading->seen, "--list-faults"))))
    return refuse (error, line->command == COMMAND_LIST_CARS ? "--list-cars" : "--list-faults",
                   _("goes with --json only"));
  if (!lists (line))
    {
      if (line->check != NULL)
        line->command = COMMAND_CHECK;
      else if (reading->mixture || line->picture != NULL)
        line->command = COMMAND_MIXTURE;
    }
  line->report = reading->mixture;

  if (line->all && !reading->mixture)
    return refuse (error, "--all", _("goes with --mixture only"));
  if (line->json && !lists (line) && line->check == NULL && !reading->mixture)
    return refuse (error, "--json", _("goes with --mixture, --check, --list-cars or --list-faults"));
  if (line->faults->len > 0 && line->command != COMMAND_MIXTURE)
    return refuse (error, "--fault", _("goes with --mixture or --picture"));
  if (line->car != NULL && line->command != COMMAND_MIXTURE && line->command != COMMAND_CHECK)
    return refuse (error, "--car", _("goes with --mixture, --picture or --check"));
  if (reading->conditions && line->command != COMMAND_MIXTURE)
    for (int i = 0; i < condition_count; i++)
      {
        g_autofree char *option = g_strconcat ("--", condition_table[i].key, NULL);

        if (g_hash_table_contains (reading->seen, option))
          return refuse (error, option, _("goes with --mixture or --picture"));
      }
  if (extra != NULL && line->command != COMMAND_WINDOW)
    return refuse (error, extra, _("is one word too many"));
  return TRUE;
}

const struct condition_words *
condition_words_find (const char *key)
{
  for (int i = 0; i < condition_words_count; i++)
    if (g_str_equal (condition_words[i].key, key))
      return &condition_words[i];
  return NULL;
}

char *
condition_shown (const struct condition *condition, double si)
{
  const struct unit *unit = unit_find (condition_words_find (condition->key)->unit_symbol, condition->quantity);
  double value = unit_from_si (unit, si);
  int decimals = 0;
  g_autofree char *number = NULL;

  while (decimals < DECIMALS_MAX && fabs (value - round (value * pow (10, decimals)) / pow (10, decimals)) > ALIKE)
    decimals++;
  number = number_shown (value, decimals);
  return g_strconcat (number, NARROW_SPACE, unit->symbol, NULL);
}

gboolean
command_line_read (int argc, char **argv, struct command_line *line, GError **error)
{
  struct reading_of_options reading = { line, NULL, FALSE, FALSE };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GOptionContext) context = NULL;
  g_auto (GStrv) words = g_new0 (char *, argc + 1);

  *line = (struct command_line) { .command = COMMAND_WINDOW };
  line->faults = g_array_new (FALSE, FALSE, sizeof (struct fault_dose));
  conditions_usual (&line->conditions);
  reading.seen = seen;
  for (int i = 0; i < argc; i++)
    words[i] = g_strdup (argv[i]);
  context = make_context (&reading, texts);
  if (argc > 0 && !refuse_flag_values (words, error))
    return FALSE;
  if (!g_option_context_parse_strv (context, &words, error))
    return FALSE;
  if (words != NULL && words[0] != NULL)
    {
      char **from = words + 1;

      if (*from != NULL && g_str_equal (*from, "--"))
        from++;
      line->files = g_strdupv (from);
    }
  line->help = g_option_context_get_help (context, TRUE, NULL);
  return settle (&reading, error);
}

void
command_line_clear (struct command_line *line)
{
  g_free (line->car);
  g_free (line->picture);
  g_free (line->check);
  g_free (line->help);
  g_clear_pointer (&line->faults, g_array_unref);
  g_strfreev (line->files);
  *line = (struct command_line) { .command = COMMAND_WINDOW };
}
