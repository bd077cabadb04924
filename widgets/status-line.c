#include "status-line.h"

struct _StatusLine {
  GtkWidget parent_instance;
  GtkWidget *label;
};

G_DEFINE_FINAL_TYPE (StatusLine, status_line, GTK_TYPE_WIDGET)

static void
status_line_dispose (GObject *object)
{
  g_clear_pointer (&PLATELIFT_STATUS_LINE (object)->label, gtk_widget_unparent);
  G_OBJECT_CLASS (status_line_parent_class)->dispose (object);
}

static void
status_line_class_init (StatusLineClass *class)
{
  G_OBJECT_CLASS (class)->dispose = status_line_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "statusline");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_STATUS);
}

static void
status_line_init (StatusLine *self)
{
  self->label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_parent (self->label, GTK_WIDGET (self));
}

void
status_line_say (StatusLine *self, const char *text)
{
  g_return_if_fail (PLATELIFT_IS_STATUS_LINE (self));
  gtk_label_set_text (GTK_LABEL (self->label), text);
  gtk_widget_set_tooltip_text (self->label, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

const char *
status_line_text (StatusLine *self)
{
  g_return_val_if_fail (PLATELIFT_IS_STATUS_LINE (self), NULL);
  return gtk_label_get_text (GTK_LABEL (self->label));
}
