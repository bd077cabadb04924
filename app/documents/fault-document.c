#include "fault-document-private.h"

#include "data-resource.h"
#include "document-reader.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

#include <math.h>
#include <string.h>

#define RESOURCE "/platelift/faults/faults.json"

const char *const fault_system_words[] = {
  "supply", "control", "metering", "air", "nozzles", "starting", "fuel", "outside", NULL,
};
const char *const fault_scale_courses[] = { "linear", "geometric", "reciprocal", NULL };
const char *const fault_add_courses[] = { "linear", "square", NULL };
const char *const fault_members[] = {
  "key", "name", "what", "repair", "system", "one_cylinder", "odds", "effects", NULL,
};
const char *const fault_effect_members[] = { "parameter", "scale", "add", "course", NULL };

static const char *const document_members[] = { "$schema", "format", "version", "notes", "faults", NULL };

gboolean
fault_may_change (const struct parameter *parameter)
{
  return parameter->many != EACH_POINT;
}

static void
read_parameter_name (const struct cursor *cursor, struct fault_effect *effect)
{
  const char *key = NULL;

  if (!cursor_text (cursor, 1, 63, &key))
    return;
  effect->parameter = parameter_find (key);
  if (effect->parameter == NULL || !fault_may_change (effect->parameter)) {
    cursor_problem (cursor, _("“%s” is not a parameter that a fault can change"), key);
    effect->parameter = NULL;
  }
}

static void
read_course (const struct cursor *cursor, struct fault_effect *effect)
{
  static const enum fault_course of_scale[] = { FAULT_LINEAR, FAULT_GEOMETRIC, FAULT_RECIPROCAL };
  static const enum fault_course of_add[] = { FAULT_LINEAR, FAULT_SQUARE };
  int index = 0;

  if (!cursor_word (cursor, effect->form == FAULT_SCALE ? fault_scale_courses : fault_add_courses, &index))
    return;
  effect->course = effect->form == FAULT_SCALE ? of_scale[index] : of_add[index];
  if ((effect->course == FAULT_GEOMETRIC || effect->course == FAULT_RECIPROCAL) && !(effect->worst > 0))
    cursor_problem (cursor, _("This course needs a scale above 0"));
}

static void
read_effect (const struct cursor *cursor, struct fault_effect *effect)
{
  struct cursor member, scale, add;
  gboolean has_scale, has_add;

  cursor_is_object (cursor, fault_effect_members);
  if (!JSON_NODE_HOLDS_OBJECT (cursor->node))
    return;
  if (cursor_needs (cursor, "parameter", &member))
    read_parameter_name (&member, effect);
  has_scale = cursor_member (cursor, "scale", &scale);
  has_add = cursor_member (cursor, "add", &add);
  if (has_scale == has_add) {
    cursor_problem (cursor, _("Exactly one of “scale” and “add” should stand here"));
    return;
  }
  effect->form = has_scale ? FAULT_SCALE : FAULT_ADD;
  effect->worst = 1;
  if (has_scale)
    cursor_number (&scale, 0, FAULT_SCALE_MAX, &effect->worst);
  else
    cursor_number (&add, -FAULT_ADD_MAX, FAULT_ADD_MAX, &effect->worst);
  if (cursor_member (cursor, "course", &member))
    read_course (&member, effect);
}

static void
read_effects (const struct cursor *cursor, struct fault *fault)
{
  unsigned length;

  if (!cursor_is_array (cursor, 1, FAULT_EFFECTS_MAX, &length))
    return;
  fault->effects = (int) length;
  for (unsigned i = 0; i < length; i++) {
    struct cursor item = cursor_item (cursor, i);

    read_effect (&item, &fault->effect[i]);
    for (unsigned j = 0; j < i; j++)
      if (fault->effect[i].parameter && fault->effect[i].parameter == fault->effect[j].parameter)
        cursor_problem_beyond (&item, _("“%s” stands twice in this fault"), fault->effect[i].parameter->key);
  }
}

static void
read_key (const struct cursor *cursor, char key[48])
{
  const char *text = NULL;

  if (!cursor_text (cursor, 1, 47, &text))
    return;
  if (text[strspn (text, FAULT_KEY_CHARACTERS)] != 0)
    cursor_problem (cursor, _("A fault's key has only letters a to z, digits and -"));
  else
    g_strlcpy (key, text, 48);
}

static void
read_truth (const struct cursor *cursor, bool *truth)
{
  if (JSON_NODE_HOLDS_VALUE (cursor->node) && json_node_get_value_type (cursor->node) == G_TYPE_BOOLEAN)
    *truth = json_node_get_boolean (cursor->node);
  else
    cursor_problem (cursor, _("true or false should stand here"));
}

static gboolean
has_cylinder_effect (const struct fault *fault)
{
  for (int i = 0; i < fault->effects; i++)
    if (fault->effect[i].parameter == NULL || fault->effect[i].parameter->many == EACH_CYLINDER)
      return TRUE;
  return FALSE;
}

static void
read_fault (const struct cursor *cursor, struct fault *fault)
{
  struct cursor member;
  int system = 0;

  cursor_is_object (cursor, fault_members);
  if (!JSON_NODE_HOLDS_OBJECT (cursor->node))
    return;
  if (cursor_needs (cursor, "key", &member))
    read_key (&member, fault->key);
  if (cursor_needs (cursor, "name", &member))
    cursor_text_into (&member, 1, fault->name, sizeof fault->name);
  if (cursor_needs (cursor, "what", &member))
    cursor_text_into (&member, 1, fault->what, sizeof fault->what);
  if (cursor_needs (cursor, "repair", &member))
    cursor_text_into (&member, 1, fault->repair, sizeof fault->repair);
  if (cursor_needs (cursor, "system", &member) && cursor_word (&member, fault_system_words, &system))
    fault->system = (enum fault_system) system;
  if (cursor_needs (cursor, "odds", &member))
    cursor_number (&member, 0, FAULT_ODDS_MAX, &fault->odds);
  if (cursor_needs (cursor, "effects", &member))
    read_effects (&member, fault);
  if (cursor_member (cursor, "one_cylinder", &member)) {
    read_truth (&member, &fault->one_cylinder);
    if (fault->one_cylinder && !has_cylinder_effect (fault))
      cursor_problem_beyond (&member, _("None of this fault's parameters is kept by cylinder"));
  }
}

static void
read_faults (const struct cursor *cursor, struct fault_catalogue *catalogue)
{
  unsigned length;

  if (!cursor_is_array (cursor, 1, FAULTS_MAX, &length))
    return;
  catalogue->fault = g_new0 (struct fault, length);
  catalogue->count = length;
  for (unsigned i = 0; i < length; i++) {
    struct cursor item = cursor_item (cursor, i);

    read_fault (&item, &catalogue->fault[i]);
    for (unsigned j = 0; j < i && catalogue->fault[i].key[0]; j++)
      if (g_str_equal (catalogue->fault[j].key, catalogue->fault[i].key))
        cursor_problem_beyond (&item, _("The key “%s” stands twice"), catalogue->fault[i].key);
  }
}

struct fault_catalogue *
fault_catalogue_parse (const char *text, gsize length, struct problems *problems)
{
  g_autoptr (fault_catalogue_t) catalogue = NULL;
  g_autoptr (JsonNode) root = NULL;
  unsigned before = problems_count (problems);
  struct cursor cursor, member;
  const char *ignored;

  g_return_val_if_fail (text || length == 0, NULL);
  root = document_open (text, length, FAULTS_FORMAT, FAULTS_VERSION, problems);
  if (root == NULL)
    return NULL;
  cursor = cursor_root (root, problems);
  catalogue = g_new0 (struct fault_catalogue, 1);
  cursor_is_object (&cursor, document_members);
  if (cursor_member (&cursor, "$schema", &member))
    cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &ignored);
  if (cursor_member (&cursor, "notes", &member))
    cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &ignored);
  if (cursor_needs (&cursor, "faults", &member))
    read_faults (&member, catalogue);
  return problems_count (problems) == before ? g_steal_pointer (&catalogue) : NULL;
}

void
fault_catalogue_free (struct fault_catalogue *catalogue)
{
  if (catalogue == NULL)
    return;
  g_free (catalogue->fault);
  g_free (catalogue);
}

const struct fault_catalogue *
fault_catalogue_shipped (struct problems *problems)
{
  static const struct fault_catalogue none;
  static struct fault_catalogue *shipped;
  static gsize once;

  if (g_once_init_enter (&once)) {
    g_autoptr (GBytes) text
        = g_resource_lookup_data (data_get_resource (), RESOURCE, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
    gsize length = 0;
    const char *bytes = text ? g_bytes_get_data (text, &length) : "";
    shipped = fault_catalogue_parse (bytes, length, problems);
    g_once_init_leave (&once, 1);
  }
  if (shipped)
    return shipped;
  problems_add (problems, "", _("The program's own catalogue of faults is damaged; install the program anew"));
  return &none;
}

const struct fault *
fault_catalogue_find (const struct fault_catalogue *catalogue, const char *key)
{
  for (unsigned i = 0; i < catalogue->count; i++)
    if (g_str_equal (catalogue->fault[i].key, key))
      return &catalogue->fault[i];
  return NULL;
}
