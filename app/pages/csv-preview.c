#include "csv-preview.h"

#include "safe-file.h"

#include <glib/gi18n.h>

#define CSV_MAX (16 * 1024 * 1024) /* bytes; a visit's readings are some kilobytes */
#define TEXT_WIDTH 70              /* characters */

#define CSV_PREVIEW_TYPE (csv_preview_get_type ())
G_DECLARE_FINAL_TYPE (CsvPreview, csv_preview, PLATELIFT, CSV_PREVIEW, GtkWindow)

struct _CsvPreview {
  GtkWindow parent_instance;
  JobStore *store;
  struct job *found;
  GtkWidget *list, *append;
};

G_DEFINE_FINAL_TYPE (CsvPreview, csv_preview, GTK_TYPE_WINDOW)

static void
append_clicked (CsvPreview *self)
{
  draft_append (job_store_edit (self->store, NULL), self->found);
  job_store_edited (self->store);
  gtk_window_destroy (GTK_WINDOW (self));
}

static GtkWidget *
add_line (CsvPreview *self, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), TEXT_WIDTH);
  if (css)
    gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (self->list), label);
  return label;
}

static void
add_reading (CsvPreview *self, const struct job_reading *reading)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s:", gettext (reading->kind->name));
  for (int i = 0; i < reading->values; i++)
    if (*reading->value[i].text)
      g_string_append_printf (text, "%s %s\u202f%s", i ? ";" : "", reading->value[i].text, reading->value[i].unit->symbol);
  add_line (self, text->str, NULL);
  g_string_free (text, TRUE);
}

static void
add_problems (CsvPreview *self, const struct problems *problems)
{
  if (problems->list->len == 0)
    return;
  add_line (self, _("Lines that cannot be used"), "heading");
  for (guint i = 0; i < problems->list->len; i++) {
    const struct problem *problem = g_ptr_array_index (problems->list, i);
    g_autofree char *text
        = *problem->place ? g_strdup_printf ("%s: %s", problem->place, problem->sentence) : g_strdup (problem->sentence);
    add_line (self, text, "wrong-message");
  }
  if (problems->omitted) {
    g_autofree char *text = g_strdup_printf (_("… and %u more"), problems->omitted);
    add_line (self, text, "wrong-message");
  }
}

static void
csv_preview_finalize (GObject *object)
{
  CsvPreview *self = PLATELIFT_CSV_PREVIEW (object);

  job_free (self->found);
  g_clear_object (&self->store);
  G_OBJECT_CLASS (csv_preview_parent_class)->finalize (object);
}

static void
csv_preview_class_init (CsvPreviewClass *class)
{
  G_OBJECT_CLASS (class)->finalize = csv_preview_finalize;
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
csv_preview_init (CsvPreview *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12), *scroll = gtk_scrolled_window_new ();
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *cancel = gtk_button_new_with_mnemonic (_("_Cancel"));

  self->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), self->list);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_vexpand (scroll, TRUE);
  self->append = gtk_button_new ();
  gtk_widget_add_css_class (self->append, "suggested-action");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (cancel), "window.close");
  g_signal_connect_swapped (self->append, "clicked", G_CALLBACK (append_clicked), self);
  gtk_widget_set_halign (buttons, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (buttons), cancel);
  gtk_box_append (GTK_BOX (buttons), self->append);
  gtk_box_append (GTK_BOX (box), scroll);
  gtk_box_append (GTK_BOX (box), buttons);
  for (int i = 0; i < 4; i++)
    g_object_set (box, (const char *[]) { "margin-top", "margin-bottom", "margin-start", "margin-end" }[i], 20, NULL);
  gtk_window_set_child (GTK_WINDOW (self), box);
  gtk_window_set_titlebar (GTK_WINDOW (self), gtk_header_bar_new ());
  gtk_window_set_title (GTK_WINDOW (self), _("Import readings"));
  gtk_window_set_default_size (GTK_WINDOW (self), 620, 520);
}

static void
fill (CsvPreview *self, const char *name, const struct problems *problems)
{
  guint count = self->found->readings->len;
  g_autofree char *heading = g_strdup_printf (ngettext ("%u reading in %s", "%u readings in %s", count), count, name);
  g_autofree char *label = g_strdup_printf (ngettext ("_Append %u reading", "_Append %u readings", count), count);

  add_line (self, heading, "heading");
  for (guint i = 0; i < count; i++)
    add_reading (self, g_ptr_array_index (self->found->readings, i));
  add_problems (self, problems);
  gtk_button_set_label (GTK_BUTTON (self->append), label);
  gtk_button_set_use_underline (GTK_BUTTON (self->append), TRUE);
  gtk_widget_set_sensitive (self->append, count > 0);
  if (count > 0)
    gtk_window_set_default_widget (GTK_WINDOW (self), self->append);
}

void
csv_preview_present (GtkWindow *parent, JobStore *store, GFile *file)
{
  CsvPreview *self = g_object_new (CSV_PREVIEW_TYPE, "transient-for", parent, "modal", TRUE, NULL);
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_file_get_path (file), *name = g_file_get_basename (file), *text = NULL;
  gsize length = 0;

  self->store = g_object_ref (store);
  self->found = job_new (job_store_draft (store)->job->vehicle);
  text = path ? safe_file_read (path, CSV_MAX, &length, &error) : NULL;
  if (text)
    csv_readings_parse (text, length, self->found, problems);
  else
    problems_add (problems, "", "%s", error ? error->message : _("The file is not on this machine."));
  fill (self, name, problems);
  gtk_window_present (GTK_WINDOW (self));
}
