#include "field-entry.h"


struct _FieldEntry {
  GtkWidget parent_instance;
  JobStore *store;
  int reading, field;
  struct unit_choices choices;
  GtkWidget *entry, *message;
};

G_DEFINE_FINAL_TYPE (FieldEntry, field_entry, GTK_TYPE_WIDGET)

static void
edited (FieldEntry *self)
{
  g_autofree char *key = NULL;
  struct draft_job *draft;

  if (self->reading == GONE)
    return;
  key = g_strdup_printf ("%d/%d", self->reading, self->field);
  draft = job_store_edit (self->store, key);
  draft_set_field (draft, self->reading, self->field, gtk_editable_get_text (GTK_EDITABLE (self->entry)),
                   measure_entry_get_fallback (PLATELIFT_MEASURE_ENTRY (self->entry)));
  measure_entry_set_message (PLATELIFT_MEASURE_ENTRY (self->entry), NULL); /* not while it is being typed */
  job_store_edited (self->store);
}

static gboolean
of_cylinder (const struct draft_job *draft, int reading, int field)
{
  const struct job_reading *one = reading == VISIT ? NULL : g_ptr_array_index (draft->job->readings, (guint) reading);

  return one && one->kind->each_cylinder && field < FIELD_UNCERTAINTY;
}

/* The cylinders' unit is said once beside their table; only another one stands in the field itself. */
static void
show_text (FieldEntry *self)
{
  const struct draft_job *draft = job_store_draft (self->store);
  const struct typed *typed = draft_field_typed (draft, self->reading, self->field);
  g_autofree char *text = draft_field_text (draft, self->reading, self->field);

  if (typed && of_cylinder (draft, self->reading, self->field)
      && typed->unit == field_unit (draft, self->reading, self->field, &self->choices)) {
    g_free (text);
    text = g_strdup (typed->text);
  }
  measure_entry_show_text (PLATELIFT_MEASURE_ENTRY (self->entry), text);
  measure_entry_set_message (PLATELIFT_MEASURE_ENTRY (self->entry),
                             draft_field_problem (draft, self->reading, self->field));
}

static void
committed (FieldEntry *self)
{
  if (self->reading == GONE)
    return;
  job_store_seal (self->store);
  show_text (self);
}

static void
message_changed (FieldEntry *self)
{
  const char *message = measure_entry_get_message (PLATELIFT_MEASURE_ENTRY (self->entry));

  gtk_label_set_text (GTK_LABEL (self->message), message ? message : "");
  gtk_widget_set_visible (self->message, message != NULL);
}

static void
field_entry_dispose (GObject *object)
{
  FieldEntry *self = PLATELIFT_FIELD_ENTRY (object);

  if (self->entry)
    g_signal_handlers_disconnect_by_data (self->entry, self);
  g_clear_pointer (&self->entry, gtk_widget_unparent);
  g_clear_pointer (&self->message, gtk_widget_unparent);
  g_clear_object (&self->store);
  G_OBJECT_CLASS (field_entry_parent_class)->dispose (object);
}

static void
field_entry_class_init (FieldEntryClass *class)
{
  G_OBJECT_CLASS (class)->dispose = field_entry_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "fieldentry");
}

static void
field_entry_init (FieldEntry *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                                  GTK_ORIENTATION_VERTICAL);
}

GtkWidget *
field_entry_new (JobStore *store, int reading, int field, const char *label, int width)
{
  FieldEntry *self = g_object_new (FIELD_ENTRY_TYPE, NULL);

  self->store = g_object_ref (store);
  self->reading = reading;
  self->field = field;
  self->entry = measure_entry_new (draft_field_quantity (job_store_draft (store), reading, field), label);
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), width);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), width);
  gtk_widget_set_parent (self->entry, GTK_WIDGET (self));
  self->message = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->message), 0);
  gtk_label_set_wrap (GTK_LABEL (self->message), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->message), 28);
  gtk_widget_add_css_class (self->message, "wrong-message");
  gtk_widget_set_visible (self->message, FALSE);
  gtk_widget_set_parent (self->message, GTK_WIDGET (self));
  g_signal_connect_swapped (self->entry, "edited", G_CALLBACK (edited), self);
  g_signal_connect_swapped (self->entry, "committed", G_CALLBACK (committed), self);
  g_signal_connect_swapped (self->entry, "notify::message", G_CALLBACK (message_changed), self);
  return GTK_WIDGET (self);
}

void
field_entry_set_reading (FieldEntry *self, int reading)
{
  g_return_if_fail (PLATELIFT_IS_FIELD_ENTRY (self));
  self->reading = reading;
}

void
field_entry_show (FieldEntry *self, const struct unit_choices *choices, const char *hint, gboolean force)
{
  const struct unit *unit;

  g_return_if_fail (PLATELIFT_IS_FIELD_ENTRY (self));
  self->choices = *choices;
  unit = field_unit (job_store_draft (self->store), self->reading, self->field, choices);
  measure_entry_set_fallback (PLATELIFT_MEASURE_ENTRY (self->entry), unit);
  if (hint || of_cylinder (job_store_draft (self->store), self->reading, self->field))
    gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), hint);
  if (force || !measure_entry_touched (PLATELIFT_MEASURE_ENTRY (self->entry)))
    show_text (self);
}

const struct unit *
field_unit (const struct draft_job *draft, int reading, int field, const struct unit_choices *choices)
{
  enum quantity quantity = draft_field_quantity (draft, reading, field);
  const struct unit *unit = NULL;

  if (field == FIELD_UNCERTAINTY) { /* in the reading's own unit where that fits: 0.06 bar, not 60 mbar */
    unit = unit_find (field_unit (draft, reading, FIELD_VALUE, choices)->symbol, quantity);
    return unit ? unit : unit_shown (quantity, choices);
  }
  for (int i = 0; of_cylinder (draft, reading, field) && i < CYLINDERS_MAX; i++)
    if (draft_field_typed (draft, reading, i))
      return draft_field_typed (draft, reading, i)->unit; /* one glass for all: the first one's unit */
  switch (quantity) {
  case QUANTITY_VOLUME_FLOW: /* what a measuring glass under a running pump gives */
    return unit_find ("cm³ in 30 s", quantity);
  case QUANTITY_TIME:
    return unit_find ("min", quantity);
  case QUANTITY_LENGTH:
    return unit_find (field >= FIELD_CONDITION ? "m" : "mm", quantity);
  default:
    return unit_shown (quantity, choices);
  }
}

GtkWidget *
field_entry_get_entry (FieldEntry *self)
{
  g_return_val_if_fail (PLATELIFT_IS_FIELD_ENTRY (self), NULL);
  return self->entry;
}
