#include "measure-entry.h"

#include "number-text.h"

#include <glib/gi18n.h>

struct _MeasureEntry {
  GtkEntry parent_instance;
  enum quantity quantity;
  const struct unit *fallback;
  char *message;
  gboolean showing; /* the text is being set by the program */
  gboolean touched;
};

enum { PROP_MESSAGE = 1, PROPS };
enum { EDITED, COMMITTED, SIGNALS };

static GParamSpec *props[PROPS];
static guint signals[SIGNALS];

G_DEFINE_FINAL_TYPE (MeasureEntry, measure_entry, GTK_TYPE_ENTRY)

static void
commit (MeasureEntry *self)
{
  if (!self->touched)
    return;
  self->touched = FALSE;
  g_signal_emit (self, signals[COMMITTED], 0);
}

static void
text_changed (MeasureEntry *self)
{
  if (self->showing)
    return;
  self->touched = TRUE;
  g_signal_emit (self, signals[EDITED], 0);
}

static void
measure_entry_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  g_value_set_string (value, PLATELIFT_MEASURE_ENTRY (object)->message);
}

static void
measure_entry_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  measure_entry_set_message (PLATELIFT_MEASURE_ENTRY (object), g_value_get_string (value));
}

static void
measure_entry_finalize (GObject *object)
{
  g_free (PLATELIFT_MEASURE_ENTRY (object)->message);
  G_OBJECT_CLASS (measure_entry_parent_class)->finalize (object);
}

static void
measure_entry_class_init (MeasureEntryClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);

  object_class->get_property = measure_entry_get_property;
  object_class->set_property = measure_entry_set_property;
  object_class->finalize = measure_entry_finalize;

  props[PROP_MESSAGE] = g_param_spec_string ("message", NULL, NULL, NULL,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, PROPS, props);
  signals[EDITED] = g_signal_new ("edited", MEASURE_ENTRY_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[COMMITTED]
      = g_signal_new ("committed", MEASURE_ENTRY_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
measure_entry_init (MeasureEntry *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  /* Undo belongs to the document, which keeps every change; the entry's own would answer Ctrl+Z first. */
  g_object_set (self, "enable-undo", FALSE, "input-purpose", GTK_INPUT_PURPOSE_FREE_FORM, "max-length", 64, NULL);
  gtk_widget_add_css_class (GTK_WIDGET (self), "measure");
  g_signal_connect (self, "changed", G_CALLBACK (text_changed), NULL);
  g_signal_connect (self, "activate", G_CALLBACK (commit), NULL);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (commit), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}

GtkWidget *
measure_entry_new (enum quantity quantity, const char *label)
{
  MeasureEntry *self = g_object_new (MEASURE_ENTRY_TYPE, NULL);

  self->quantity = quantity;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return GTK_WIDGET (self);
}

void
measure_entry_set_fallback (MeasureEntry *self, const struct unit *fallback)
{
  g_return_if_fail (PLATELIFT_IS_MEASURE_ENTRY (self));
  self->fallback = fallback;
  gtk_entry_set_placeholder_text (GTK_ENTRY (self), fallback ? fallback->symbol : NULL);
}

const struct unit *
measure_entry_get_fallback (MeasureEntry *self)
{
  g_return_val_if_fail (PLATELIFT_IS_MEASURE_ENTRY (self), NULL);
  return self->fallback;
}

void
measure_entry_show_text (MeasureEntry *self, const char *text)
{
  g_return_if_fail (PLATELIFT_IS_MEASURE_ENTRY (self));
  self->touched = FALSE;
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self)), text) == 0)
    return;
  self->showing = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self), text);
  self->showing = FALSE;
}

gboolean
measure_entry_touched (MeasureEntry *self)
{
  g_return_val_if_fail (PLATELIFT_IS_MEASURE_ENTRY (self), FALSE);
  return self->touched;
}

gboolean
measure_entry_read (MeasureEntry *self, double *si, GError **error)
{
  const struct unit *unit = NULL;

  g_return_val_if_fail (PLATELIFT_IS_MEASURE_ENTRY (self), FALSE);
  return measure_parse (gtk_editable_get_text (GTK_EDITABLE (self)), self->quantity, self->fallback, si, &unit, error);
}

void
measure_entry_set_message (MeasureEntry *self, const char *message)
{
  g_return_if_fail (PLATELIFT_IS_MEASURE_ENTRY (self));
  if (g_strcmp0 (self->message, message) == 0)
    return;
  g_free (self->message);
  self->message = g_strdup (message);
  if (message) {
    gtk_widget_add_css_class (GTK_WIDGET (self), "wrong");
    gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE, -1);
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, message, -1);
  } else {
    gtk_widget_remove_css_class (GTK_WIDGET (self), "wrong");
    gtk_accessible_reset_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_INVALID);
    gtk_accessible_reset_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
  }
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_MESSAGE]);
}

const char *
measure_entry_get_message (MeasureEntry *self)
{
  g_return_val_if_fail (PLATELIFT_IS_MEASURE_ENTRY (self), NULL);
  return self->message;
}
