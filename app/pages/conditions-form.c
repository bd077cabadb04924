#include "conditions-form.h"

#include "field-entry.h"
#include "value-text.h"

#include <glib/gi18n.h>
#include <string.h>

#define ACROSS 3 /* fields beside one another in a reading's form */

struct _ConditionsForm {
  GtkWidget parent_instance;
  JobStore *store;
  int reading;
  GtkWidget *entries[TYPED_CONDITIONS];
  GtkWidget *source; /* drop-down, or NULL */
  gboolean setting;
};

G_DEFINE_FINAL_TYPE (ConditionsForm, conditions_form, GTK_TYPE_WIDGET)

/* What a technician calls the rows. */
static const struct {
  const char *key, *name;
} names[] = {
  { "ambient", N_("Air") },       { "altitude", N_("Altitude") }, { "temperature", N_("Regulator and block") },
  { "voltage", N_("Voltage") },   { "vacuum", N_("Vacuum") },     { "minutes", N_("Minutes, heater on") },
  { "fuel", N_("Fuel") },
};

static const char *
row_name (int row)
{
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    if (strcmp (names[i].key, typed_condition_rows[row].key) == 0)
      return gettext (names[i].name);
  return typed_condition_rows[row].key;
}

static const struct typed_conditions *
conditions_of (ConditionsForm *self, int reading)
{
  const struct job *job = job_store_draft (self->store)->job;

  return reading == VISIT ? &job->conditions
                          : &((struct job_reading *) g_ptr_array_index (job->readings, (guint) reading))->conditions;
}

/* Whether somebody said that the regulator had no vacuum. */
static gboolean
without_vacuum (ConditionsForm *self)
{
  const struct typed_conditions *conditions = conditions_of (self, self->reading);

  if (!conditions->vacuum_source_given)
    conditions = conditions_of (self, VISIT);
  return conditions->vacuum_source_given && conditions->vacuum_source == VACUUM_NONE;
}

/* What the model takes where nothing is typed: the visit's, or the usual value. */
static char *
hint_for (ConditionsForm *self, int row, const struct unit_choices *choices)
{
  const struct draft_job *draft = job_store_draft (self->store);
  const struct typed *visit = draft_field_typed (draft, VISIT, FIELD_CONDITION + row);
  const struct condition *condition = condition_find (typed_condition_rows[row].condition);
  const struct unit *unit = field_unit (draft, self->reading, FIELD_CONDITION + row, choices);
  g_autofree char *value = NULL;

  if (strcmp (typed_condition_rows[row].key, "vacuum") == 0 && without_vacuum (self))
    return value_text_set (0, unit, true);
  if (self->reading != VISIT && visit) {
    value = value_text_set (visit->si, visit->unit, true);
    /* Translators: a condition that is taken from the whole visit. */
    return g_strdup_printf (_("visit: %s"), value);
  }
  value = value_text_set (condition->usual, unit, true);
  /* Translators: a value that is taken where nobody typed one. */
  return g_strdup_printf (_("usual: %s"), value);
}

static void
source_chosen (GtkDropDown *drop_down, GParamSpec *pspec, ConditionsForm *self)
{
  guint selected = gtk_drop_down_get_selected (drop_down);
  struct draft_job *draft;
  struct typed_conditions *conditions;

  if (self->setting || self->reading == GONE || selected == GTK_INVALID_LIST_POSITION)
    return;
  draft = job_store_edit (self->store, NULL);
  conditions = self->reading == VISIT
                   ? &draft->job->conditions
                   : &((struct job_reading *) g_ptr_array_index (draft->job->readings, (guint) self->reading))->conditions;
  conditions->vacuum_source_given = selected > 0;
  conditions->vacuum_source = selected > 0 ? (enum vacuum_source) (selected - 1) : VACUUM_NONE;
  job_store_edited (self->store);
}

static void
attach (ConditionsForm *self, const char *name, GtkWidget *control, int *place)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  GtkWidget *label = gtk_label_new (name);
  gboolean across = self->reading != VISIT;

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "field-name");
  gtk_widget_set_parent (label, GTK_WIDGET (self));
  gtk_widget_set_parent (control, GTK_WIDGET (self));
  gtk_widget_set_hexpand (control, !across);
  g_object_set (gtk_layout_manager_get_layout_child (layout, label), "column", across ? *place % ACROSS : 0, "row",
                across ? 2 * (*place / ACROSS) : *place, NULL);
  g_object_set (gtk_layout_manager_get_layout_child (layout, control), "column", across ? *place % ACROSS : 1, "row",
                across ? 2 * (*place / ACROSS) + 1 : *place, NULL);
  ++*place;
}

static GtkWidget *
make_source (ConditionsForm *self)
{
  const char *words[] = { self->reading == VISIT ? _("not said") : _("as the visit"), _("none"), _("hand pump"),
                          _("engine"), NULL };

  self->source = gtk_drop_down_new_from_strings (words);
  gtk_widget_set_valign (self->source, GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->source), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Vacuum at the regulator from"), -1);
  g_signal_connect (self->source, "notify::selected", G_CALLBACK (source_chosen), self);
  return self->source;
}

static void
conditions_form_dispose (GObject *object)
{
  ConditionsForm *self = PLATELIFT_CONDITIONS_FORM (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  g_clear_object (&self->store);
  G_OBJECT_CLASS (conditions_form_parent_class)->dispose (object);
}

static void
conditions_form_class_init (ConditionsFormClass *class)
{
  G_OBJECT_CLASS (class)->dispose = conditions_form_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_GRID_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "conditionsform");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
conditions_form_init (ConditionsForm *self)
{
  g_object_set (gtk_widget_get_layout_manager (GTK_WIDGET (self)), "column-spacing", 12, "row-spacing", 4, NULL);
}

GtkWidget *
conditions_form_new (JobStore *store, int reading, unsigned rows)
{
  ConditionsForm *self = g_object_new (CONDITIONS_FORM_TYPE, NULL);
  int place = 0;

  self->store = g_object_ref (store);
  self->reading = reading;
  for (int i = 0; i < TYPED_CONDITIONS; i++) {
    if (!(rows & 1u << i))
      continue;
    self->entries[i] = field_entry_new (store, reading, FIELD_CONDITION + i, row_name (i), 15);
    attach (self, row_name (i), self->entries[i], &place);
    if (strcmp (typed_condition_rows[i].key, "vacuum") == 0)
      attach (self, _("Vacuum from"), make_source (self), &place);
  }
  return GTK_WIDGET (self);
}

void
conditions_form_set_reading (ConditionsForm *self, int reading)
{
  g_return_if_fail (PLATELIFT_IS_CONDITIONS_FORM (self));
  self->reading = reading;
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    if (self->entries[i])
      field_entry_set_reading (PLATELIFT_FIELD_ENTRY (self->entries[i]), reading);
}

void
conditions_form_show (ConditionsForm *self, const struct unit_choices *choices, gboolean force)
{
  const struct typed_conditions *conditions;

  g_return_if_fail (PLATELIFT_IS_CONDITIONS_FORM (self));
  for (int i = 0; i < TYPED_CONDITIONS; i++) {
    g_autofree char *hint = self->entries[i] ? hint_for (self, i, choices) : NULL;
    if (self->entries[i])
      field_entry_show (PLATELIFT_FIELD_ENTRY (self->entries[i]), choices, hint, force);
  }
  if (!self->source)
    return;
  conditions = conditions_of (self, self->reading);
  self->setting = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->source),
                              conditions->vacuum_source_given ? 1 + (guint) conditions->vacuum_source : 0);
  self->setting = FALSE;
}

unsigned
conditions_form_row (const char *key)
{
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    if (strcmp (typed_condition_rows[i].key, key) == 0)
      return 1u << i;
  g_return_val_if_reached (0);
}
