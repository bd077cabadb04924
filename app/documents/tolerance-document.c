#include "tolerance-document-private.h"

#include "data-resource.h"
#include "document-reader.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

#include <string.h>

#define RESOURCE "/platelift/tolerances/healthy.json"

const char *const tolerance_form_words[] = { "absolute", "relative", "log", NULL };
const char *const tolerance_part_words[] = { "land", NULL };

static const char *const document_members[]
    = { "$schema", "format", "version", "notes", "idle_setting", "tolerances", NULL };
static const char *const row_members[] = { "parameter", "part", "form", "common", "each", NULL };

static void
read_parameter_name (const struct cursor *cursor, struct tolerance *row)
{
  const char *key = NULL;

  if (!cursor_text (cursor, 1, 63, &key))
    return;
  row->parameter = parameter_find (key);
  if (row->parameter == NULL)
    cursor_problem (cursor, _("“%s” is not a parameter of a car"), key);
}

static void
read_part (const struct cursor *cursor, struct tolerance *row)
{
  int index;

  if (!cursor_word (cursor, tolerance_part_words, &index))
    return;
  row->land = true;
  if (row->parameter && strcmp (row->parameter->key, "funnel_clearance") != 0)
    cursor_problem_beyond (cursor, _("Only the funnel's clearance has a land"));
}

static void
read_deviations (const struct cursor *cursor, struct tolerance *row)
{
  double most = row->form == TOLERANCE_ABSOLUTE ? TOLERANCE_MAX : TOLERANCE_SHARE_MAX;
  struct cursor common, each;
  gboolean has_common = cursor_member (cursor, "common", &common), has_each = cursor_member (cursor, "each", &each);

  if (has_common)
    cursor_number (&common, 0, most, &row->common);
  if (has_each)
    cursor_number (&each, 0, most, &row->each);
  if (!has_common && !has_each)
    cursor_problem (cursor, _("“common” or “each” is missing"));
}

static void
read_row (const struct cursor *cursor, struct tolerance *row)
{
  struct cursor member;
  int form = 0;

  cursor_is_object (cursor, row_members);
  if (!JSON_NODE_HOLDS_OBJECT (cursor->node))
    return;
  if (cursor_needs (cursor, "parameter", &member))
    read_parameter_name (&member, row);
  if (cursor_needs (cursor, "form", &member) && cursor_word (&member, tolerance_form_words, &form))
    row->form = (enum tolerance_form) form;
  if (cursor_member (cursor, "part", &member))
    read_part (&member, row);
  read_deviations (cursor, row);
}

static void
read_rows (const struct cursor *cursor, struct tolerances *tolerances)
{
  unsigned length;

  if (!cursor_is_array (cursor, 1, TOLERANCES_MAX, &length))
    return;
  tolerances->count = (int) length;
  for (unsigned i = 0; i < length; i++) {
    struct tolerance *row = &tolerances->row[i];
    struct cursor item = cursor_item (cursor, i);

    read_row (&item, row);
    for (unsigned j = 0; j < i && row->parameter; j++)
      if (tolerances->row[j].parameter == row->parameter && tolerances->row[j].land == row->land)
        cursor_problem_beyond (&item, _("“%s” stands twice"), row->parameter->key);
  }
}

gboolean
tolerances_parse (const char *text, gsize length, struct tolerances *tolerances, struct problems *problems)
{
  g_autoptr (JsonNode) root = NULL;
  unsigned before = problems_count (problems);
  struct cursor cursor, member;
  const char *ignored;

  g_return_val_if_fail (text || length == 0, FALSE);
  memset (tolerances, 0, sizeof *tolerances);
  root = document_open (text, length, TOLERANCES_FORMAT, TOLERANCES_VERSION, problems);
  if (root == NULL)
    return FALSE;
  cursor = cursor_root (root, problems);
  cursor_is_object (&cursor, document_members);
  if (cursor_member (&cursor, "$schema", &member))
    cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &ignored);
  if (cursor_member (&cursor, "notes", &member))
    cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &ignored);
  if (cursor_member (&cursor, "idle_setting", &member))
    cursor_number (&member, 0, IDLE_SETTING_MAX, &tolerances->idle_setting);
  if (cursor_needs (&cursor, "tolerances", &member))
    read_rows (&member, tolerances);
  return problems_count (problems) == before;
}

const struct tolerances *
tolerances_shipped (struct problems *problems)
{
  static const struct tolerances none;
  static struct tolerances shipped;
  static gboolean sound;
  static gsize once;

  if (g_once_init_enter (&once)) {
    g_autoptr (GBytes) text
        = g_resource_lookup_data (data_get_resource (), RESOURCE, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
    gsize length = 0;
    const char *bytes = text ? g_bytes_get_data (text, &length) : "";
    sound = tolerances_parse (bytes, length, &shipped, problems);
    g_once_init_leave (&once, 1);
  }
  if (sound)
    return &shipped;
  problems_add (problems, "", _("The program's own table of build tolerances is damaged; install the program anew"));
  return &none;
}
