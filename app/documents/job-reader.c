#include "job-document-private.h"
#include "json-strict.h"
#include "number-text.h"
#include "safe-file.h"
#include "shipped.h"
#include "vehicle-document-private.h"

#include <glib/gi18n.h>

#include <string.h>

const char *const uncertainty_words[] = { "standard", "95", "limits", NULL };
const char *const vacuum_source_words[] = { "none", "hand-pump", "engine", NULL };

const struct job_text job_texts[JOB_TEXTS] = {
  { "workshop", offsetof (struct job, workshop) },
  { "technician", offsetof (struct job, technician) },
  { "vehicle_mark", offsetof (struct job, vehicle_mark) },
  { "date", offsetof (struct job, date) },
  { "complaint", offsetof (struct job, complaint) },
  { "notes", offsetof (struct job, notes) },
};

static const char *const job_members[] = {
  "$schema", "format", "version", "workshop",   "technician", "vehicle_mark", "date",
  "complaint", "notes", "car",    "conditions", "readings",   NULL,
};

static void
read_uncertainty (const struct cursor *cursor, struct job_reading *reading)
{
  static const char *const known[] = { "value", "unit", "form", NULL };
  struct cursor member;
  int form;

  cursor_is_object (cursor, known);
  if (!JSON_NODE_HOLDS_OBJECT (cursor->node))
    return;
  if (cursor_needs (cursor, "form", &member) && cursor_word (&member, uncertainty_words, &form))
    reading->uncertainty_form = (enum uncertainty_form) (form + 1);
  if (typed_read_measure (cursor, job_uncertainty_quantity (reading->kind), &reading->uncertainty)
      && *reading->uncertainty.text && !(reading->uncertainty.si > 0))
    cursor_problem_beyond (cursor, _("An uncertainty must be above 0"));
}

static void
tell_unsound_value (const struct cursor *cursor, const struct job_reading *reading, int index)
{
  g_autofree char *sentence = NULL;

  if (!job_value_sound (&reading->value[index], reading->kind->quantity, &sentence))
    cursor_problem_beyond (cursor, "%s", sentence);
}

static void
read_value (const struct cursor *cursor, struct job_reading *reading)
{
  struct cursor member;

  if (!typed_read_measure (cursor, reading->kind->quantity, &reading->value[0]))
    return;
  cursor_member (cursor, "value", &member);
  tell_unsound_value (&member, reading, 0);
}

/* The units of several values: one for all or a list of as many. FALSE with a problem. */
static gboolean
read_units (const struct cursor *cursor, gboolean needed, const struct job_reading *reading, char *const *texts,
            const struct unit *units_read[CYLINDERS_MAX])
{
  const struct unit *unit = NULL;
  struct cursor member;
  unsigned length = 0;
  gboolean good = TRUE;

  if (!cursor_member (cursor, "unit", &member) || !JSON_NODE_HOLDS_ARRAY (member.node)) {
    if (!typed_read_unit_beside (cursor, needed, reading->kind->quantity, &unit))
      return FALSE;
    for (int i = 0; i < CYLINDERS_MAX; i++)
      units_read[i] = unit;
    return TRUE;
  }
  if (!cursor_is_array (&member, 1, CYLINDERS_MAX, &length))
    return FALSE;
  for (unsigned i = 0; i < length; i++) {
    struct cursor item = cursor_item (&member, i);
    if (cursor_is_text (&item) && *json_node_get_string (item.node) == 0) {
      if ((int) i < reading->values && *texts[i]) {
        cursor_problem_beyond (&item, _("The unit is missing"));
        good = FALSE;
      }
      continue; /* nothing typed, no unit */
    }
    units_read[i] = typed_read_unit (&item, reading->kind->quantity);
    good = good && units_read[i];
  }
  if (good && (int) length != reading->values)
    cursor_problem_beyond (&member, _("There are %d values, but %u units"), reading->values, length);
  return good && (int) length == reading->values;
}

static void
read_values (const struct cursor *cursor, int cylinders, struct job_reading *reading)
{
  const struct unit *units_read[CYLINDERS_MAX] = { NULL };
  g_auto (GStrv) texts = g_new0 (char *, CYLINDERS_MAX + 1);
  struct cursor list;
  unsigned length = 0;
  gboolean good = TRUE, needed = FALSE;

  if (!cursor_needs (cursor, "values", &list) || !cursor_is_array (&list, 1, CYLINDERS_MAX, &length)) {
    struct cursor unit;
    if (cursor_member (cursor, "unit", &unit) && cursor_is_text (&unit))
      typed_read_unit (&unit, reading->kind->quantity);
    return;
  }
  for (unsigned i = 0; i < length; i++) {
    struct cursor item = cursor_item (&list, i);
    char *text = typed_read_number (&item);
    good = good && text;
    texts[i] = text ? text : g_strdup ("");
    needed = needed || text == NULL || *text;
  }
  if (cylinders > 0 && (int) length != cylinders)
    cursor_problem_beyond (&list, _("The car has %d cylinders, but %u values stand here"), cylinders, length);
  reading->values = (int) length;
  if (!read_units (cursor, needed, reading, texts, units_read) || !good)
    return;
  for (unsigned i = 0; i < length; i++) {
    struct cursor item = cursor_item (&list, i);
    if (typed_read_set (&item, &reading->value[i], texts[i], units_read[i]))
      tell_unsound_value (&item, reading, (int) i);
  }
}

static const struct reading_kind *
read_kind (const struct cursor *cursor)
{
  const char *keys[READINGS + 1] = { NULL };
  struct cursor member;
  int index;

  for (int i = 0; i < READINGS; i++)
    keys[i] = reading_kinds[i].key;
  if (!cursor_needs (cursor, "kind", &member) || !cursor_word (&member, keys, &index))
    return NULL;
  return &reading_kinds[index];
}

static void
read_reading (const struct cursor *cursor, struct job *job, int cylinders)
{
  static const char *const one[] = { "kind", "value", "unit", "uncertainty", "conditions", "note", NULL };
  static const char *const many[] = { "kind", "values", "unit", "uncertainty", "conditions", "note", NULL };
  g_autoptr (job_reading_t) reading = NULL;
  const struct reading_kind *kind;
  const char *note = "";
  struct cursor member;

  if (!cursor_has_type_object (cursor) || (kind = read_kind (cursor)) == NULL)
    return;
  cursor_is_object (cursor, kind->each_cylinder ? many : one);
  reading = job_reading_new (kind);
  if (kind->each_cylinder)
    read_values (cursor, cylinders, reading);
  else
    read_value (cursor, reading);
  if (cursor_member (cursor, "uncertainty", &member))
    read_uncertainty (&member, reading);
  if (cursor_member (cursor, "conditions", &member) && cursor_has_type_object (&member))
    typed_read_conditions (&member, &reading->conditions);
  if (cursor_member (cursor, "note", &member) && cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &note)) {
    g_free (reading->note);
    reading->note = g_strdup (note);
  }
  g_ptr_array_add (job->readings, g_steal_pointer (&reading));
}

/* A shipped car's name or a car written out. */
static struct vehicle *
read_car (const struct cursor *cursor)
{
  g_autofree struct vehicle *vehicle = NULL;
  const struct vehicle *generic;

  if (cursor_is_text (cursor)) {
    const char *name = json_node_get_string (cursor->node);
    if (g_strv_contains (vehicle_shipped (), name))
      return vehicle_load (name, cursor->problems);
    g_autofree char *names = g_strjoinv (", ", (char **) vehicle_shipped ());
    cursor_problem_beyond (cursor, _("There is no shipped car of the name “%s”; shipped are: %s"), name, names);
    return NULL;
  }
  if (!JSON_NODE_HOLDS_OBJECT (cursor->node)) {
    cursor_problem (cursor, _("A shipped car's name or a car in braces should stand here"));
    return NULL;
  }
  generic = vehicle_generic (cursor->problems);
  vehicle = g_new0 (struct vehicle, 1);
  return generic && vehicle_read (cursor, generic, vehicle) ? g_steal_pointer (&vehicle) : NULL;
}

static void
read_texts (const struct cursor *cursor, struct job *job)
{
  const char *text;
  struct cursor member;

  if (cursor_member (cursor, "$schema", &member))
    cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &text);
  for (int i = 0; i < JOB_TEXTS; i++)
    if (cursor_member (cursor, job_texts[i].key, &member) && cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &text)) {
      char **place = (char **) (void *) ((char *) job + job_texts[i].offset);
      g_free (*place);
      *place = g_strdup (text);
    }
}

static void
read_readings (const struct cursor *cursor, struct job *job, int cylinders)
{
  unsigned length;

  if (!cursor_is_array (cursor, 0, JOB_READINGS_MAX, &length))
    return;
  for (unsigned i = 0; i < length; i++) {
    struct cursor item = cursor_item (cursor, i);
    read_reading (&item, job, cylinders);
  }
}

struct job *
job_parse (const char *text, gsize length, struct problems *problems)
{
  static const struct vehicle nothing; /* stands in while a car with problems keeps the rest from being read */
  g_autoptr (JsonNode) root = NULL;
  g_autofree struct vehicle *vehicle = NULL;
  g_autoptr (job_t) job = NULL;
  struct cursor cursor, member;
  unsigned before;

  g_return_val_if_fail ((text || length == 0) && problems, NULL);
  before = problems_count (problems);
  root = document_open (text, length, JOB_FORMAT, JOB_VERSION, problems);
  if (root == NULL)
    return NULL;
  cursor = cursor_root (root, problems);
  cursor_is_object (&cursor, job_members);
  if (cursor_needs (&cursor, "car", &member))
    vehicle = read_car (&member);
  job = job_new (vehicle ? vehicle : &nothing);
  read_texts (&cursor, job);
  if (cursor_member (&cursor, "conditions", &member) && cursor_has_type_object (&member))
    typed_read_conditions (&member, &job->conditions);
  if (cursor_member (&cursor, "readings", &member))
    read_readings (&member, job, job->vehicle->car.cylinders);
  return problems_count (problems) == before ? g_steal_pointer (&job) : NULL;
}

struct job *
job_load (const char *path, struct problems *problems)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  gsize length = 0;

  g_return_val_if_fail (path && problems, NULL);
  text = safe_file_read (path, JSON_SIZE_MAX, &length, &error);
  if (text == NULL) {
    problems_add (problems, "", "%s", error->message);
    return NULL;
  }
  return job_parse (text, length, problems);
}

struct job *
job_load_shipped (const char *name, struct problems *problems)
{
  g_autoptr (GBytes) bytes = NULL;
  const char *text;
  gsize length = 0;

  g_return_val_if_fail (name && problems, NULL);
  bytes = shipped_text ("jobs", name);
  if (bytes == NULL) {
    problems_add (problems, "", _("There is no shipped job of the name “%s”"), name);
    return NULL;
  }
  text = g_bytes_get_data (bytes, &length);
  return job_parse (text, length, problems);
}

const char *const *
job_shipped (void)
{
  static const char *const *names;

  if (g_once_init_enter (&names))
    g_once_init_leave (&names, shipped_names ("jobs", NULL));
  return names;
}
