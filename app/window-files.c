#include "csv-preview.h"
#include "window-private.h"

#include <glib/gi18n.h>

#define JOB_TYPE "application/x-platelift-job"
#define JOB_ENDING ".platelift-job"
#define JOB_PATTERNS "*" JOB_ENDING " *.json"
#define RECENT_MAX 8

typedef void (*then) (Window *self);

/* ---- messages ---- */

static void
complain (Window *self, const char *heading, const char *text)
{
  GtkWidget *dialog = gtk_message_dialog_new (GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                              GTK_MESSAGE_ERROR, GTK_BUTTONS_CLOSE, "%s", heading);

  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", text);
  g_signal_connect (dialog, "response", G_CALLBACK (gtk_window_destroy), NULL);
  gtk_window_present (GTK_WINDOW (dialog));
}

static char *
shown_name (Window *self)
{
  const char *path = job_store_path (self->store);

  return path ? g_filename_display_basename (path) : g_strdup (_("Unsaved job"));
}

/* ---- file choosers ---- */

static void
forget_chooser (Window *self)
{
  g_clear_object (&self->chooser);
}

/* patterns separated by a space. */
static GtkFileFilter *
filter_new (const char *name, const char *patterns)
{
  GtkFileFilter *filter = gtk_file_filter_new ();
  g_auto (GStrv) each = g_strsplit (patterns, " ", -1);

  gtk_file_filter_set_name (filter, name);
  for (char **pattern = each; *pattern; pattern++)
    gtk_file_filter_add_pattern (filter, *pattern);
  return filter;
}

/* The native chooser must be referenced while it is open; one at a time. */
static GtkFileChooserNative *
choose (Window *self, const char *title, GtkFileChooserAction action, const char *filter, const char *patterns)
{
  g_autoptr (GtkFileFilter) kind = filter_new (filter, patterns);
  g_autoptr (GtkFileFilter) all = filter_new (_("All files"), "*");

  forget_chooser (self);
  self->chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (self), action, NULL, NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), kind);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), all);
  return self->chooser;
}

static GFile *
chosen (GtkNativeDialog *dialog, int response)
{
  return response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
}

/* ---- saving ---- */

static void
remember_recent (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);
  char *groups[] = { (char *) "Platelift", NULL };
  GtkRecentData data = { .mime_type = (char *) JOB_TYPE, .app_name = (char *) "Platelift",
                         .app_exec = (char *) "platelift %f", .groups = groups };

  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static gboolean
save_to (Window *self, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  g_autoptr (GError) error = NULL;
  unsigned unfinished;

  if (!path || !job_store_save (self->store, path, &error)) {
    complain (self, _("The job could not be saved"), error ? error->message : _("The place is not on this machine."));
    return FALSE;
  }
  remember_recent (file);
  unfinished = draft_unfinished_count (job_store_draft (self->store));
  if (unfinished) {
    g_autofree char *text = g_strdup_printf (
        ngettext ("Saved, without %u field whose text is no number: it stays here and is kept for recovery.",
                  "Saved, without %u fields whose text is no number: they stay here and are kept for recovery.", unfinished),
        unfinished);
    readings_page_say (PLATELIFT_READINGS_PAGE (self->readings), text);
  } else
    readings_page_say (PLATELIFT_READINGS_PAGE (self->readings), _("Saved."));
  return TRUE;
}

static void
save_as_answered (GtkNativeDialog *dialog, int response, Window *self)
{
  g_autoptr (GFile) file = chosen (dialog, response);
  then next = g_object_get_data (G_OBJECT (dialog), "then");
  gboolean saved = file && save_to (self, file);

  forget_chooser (self);
  if (saved && next)
    next (self);
}

static void
save_as (Window *self, then next)
{
  GtkFileChooserNative *chooser
      = choose (self, _("Save the job"), GTK_FILE_CHOOSER_ACTION_SAVE, _("Jobs"), JOB_PATTERNS);
  const char *path = job_store_path (self->store);
  g_autofree char *name = path ? g_path_get_basename (path) : g_strconcat (_("visit"), JOB_ENDING, NULL);
  g_autofree char *folder = path ? g_path_get_dirname (path) : NULL;
  g_autoptr (GFile) place = folder ? g_file_new_for_path (folder) : NULL;

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  if (place)
    gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), place, NULL);
  g_object_set_data (G_OBJECT (chooser), "then", next);
  g_signal_connect (chooser, "response", G_CALLBACK (save_as_answered), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
save (Window *self, then next)
{
  const char *path = job_store_path (self->store);
  g_autoptr (GFile) file = path ? g_file_new_for_path (path) : NULL;

  if (!file)
    save_as (self, next);
  else if (save_to (self, file) && next)
    next (self);
}

/* ---- what would be lost is asked for ---- */

enum { ANSWER_DISCARD = 1, ANSWER_SAVE };

static void
unsaved_answered (GtkDialog *dialog, int response, Window *self)
{
  then next = g_object_get_data (G_OBJECT (dialog), "then");

  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == ANSWER_SAVE)
    save (self, next);
  else if (response == ANSWER_DISCARD)
    next (self);
}

/* next at once where nothing would be lost, else after the answer. */
static void
when_saved (Window *self, then next)
{
  g_autofree char *name = NULL;
  GtkWidget *dialog;

  if (job_store_saved (self->store)) {
    next (self);
    return;
  }
  name = shown_name (self);
  dialog = gtk_message_dialog_new (GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                   GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, _("Save the changes to “%s”?"), name);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s",
                                            _("What is not saved is lost for good."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _("_Do not save"), ANSWER_DISCARD, _("_Cancel"), GTK_RESPONSE_CANCEL,
                          _("_Save"), ANSWER_SAVE, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_SAVE);
  g_object_set_data (G_OBJECT (dialog), "then", next);
  g_signal_connect (dialog, "response", G_CALLBACK (unsaved_answered), self);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* ---- opening ---- */

static void
show_readings (Window *self)
{
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "readings");
}

static void
open_now (Window *self)
{
  g_autoptr (GFile) file = g_object_steal_data (G_OBJECT (self), "to-open");
  g_autofree char *path = file ? g_file_get_path (file) : NULL;
  g_autoptr (problems_t) problems = problems_new ();

  if (!path)
    return;
  if (job_store_load (self->store, path, problems)) {
    remember_recent (file);
    show_readings (self);
  } else {
    g_autofree char *name = g_file_get_basename (file), *text = problems_text (problems, name);
    complain (self, _("This job cannot be opened"), text);
  }
}

void
window_open (Window *self, GFile *file)
{
  g_return_if_fail (PLATELIFT_IS_WINDOW (self) && G_IS_FILE (file));
  g_object_set_data_full (G_OBJECT (self), "to-open", g_object_ref (file), g_object_unref);
  when_saved (self, open_now);
}

static void
open_answered (GtkNativeDialog *dialog, int response, Window *self)
{
  g_autoptr (GFile) file = chosen (dialog, response);

  forget_chooser (self);
  if (file)
    window_open (self, file);
}

static void
open_demo_now (Window *self)
{
  g_autofree char *name = g_object_steal_data (G_OBJECT (self), "demo");
  g_autoptr (problems_t) problems = problems_new ();
  struct job *job = name ? job_load_shipped (name, problems) : NULL;

  if (job)
    job_store_take (self->store, job);
  show_readings (self);
}

static void
open_demo_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_object_set_data_full (data, "demo", g_variant_dup_string (parameter, NULL), g_free);
  when_saved (data, open_demo_now);
}

static void
open_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkFileChooserNative *chooser
      = choose (data, _("Open a job"), GTK_FILE_CHOOSER_ACTION_OPEN, _("Jobs"), JOB_PATTERNS);

  g_signal_connect (chooser, "response", G_CALLBACK (open_answered), data);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
open_path_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));

  window_open (data, file);
}

static void
begin_now (Window *self)
{
  struct vehicle vehicle = *job_store_draft (self->store)->job->vehicle;

  job_store_begin (self->store, &vehicle);
  show_readings (self);
}

static void
new_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  when_saved (data, begin_now);
}

static void
save_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  save (data, NULL);
}

static void
save_as_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  save_as (data, NULL);
}

/* ---- CSV and vehicle data ---- */

static void
import_answered (GtkNativeDialog *dialog, int response, Window *self)
{
  g_autoptr (GFile) file = chosen (dialog, response);

  forget_chooser (self);
  if (!file)
    return;
  show_readings (self);
  csv_preview_present (GTK_WINDOW (self), self->store, file);
}

static void
import_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkFileChooserNative *chooser
      = choose (data, _("Import readings"), GTK_FILE_CHOOSER_ACTION_OPEN, _("Comma-separated values"), "*.csv");

  g_signal_connect (chooser, "response", G_CALLBACK (import_answered), data);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
vehicle_answered (GtkNativeDialog *dialog, int response, Window *self)
{
  g_autoptr (GFile) file = chosen (dialog, response);
  g_autofree char *path = file ? g_file_get_path (file) : NULL, *text = NULL, *name = NULL;
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = path ? vehicle_load (path, problems) : NULL;

  forget_chooser (self);
  if (vehicle) {
    draft_set_vehicle (job_store_edit (self->store, NULL), vehicle);
    job_store_edited (self->store);
  } else if (path) {
    name = g_file_get_basename (file);
    text = problems_text (problems, name);
    complain (self, _("These vehicle data cannot be used"), text);
  }
}

static void
open_vehicle_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkFileChooserNative *chooser
      = choose (data, _("Vehicle data"), GTK_FILE_CHOOSER_ACTION_OPEN, _("Vehicle data"), "*.platelift-car *.json");

  g_signal_connect (chooser, "response", G_CALLBACK (vehicle_answered), data);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* ---- history ---- */

static void
undo_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  job_store_undo (PLATELIFT_WINDOW (data)->store);
}

static void
redo_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  job_store_redo (PLATELIFT_WINDOW (data)->store);
}

static void
enable (Window *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

void
window_show_file (Window *self)
{
  gboolean readings = g_strcmp0 (gtk_stack_get_visible_child_name (GTK_STACK (self->stack)), "readings") == 0;
  gboolean saved = job_store_saved (self->store);
  g_autofree char *name = shown_name (self);
  g_autofree char *marked = saved ? g_strdup (name) : g_strdup_printf ("• %s", name);
  const char *path = job_store_path (self->store);
  g_autofree char *folder = path ? g_path_get_dirname (path) : NULL;
  g_autofree char *title = g_strdup_printf (_("%s – Platelift"), marked);

  gtk_label_set_text (GTK_LABEL (self->title), readings ? marked : "Platelift");
  gtk_label_set_text (GTK_LABEL (self->subtitle), folder ? folder : "");
  gtk_widget_set_visible (self->subtitle, readings && folder);
  gtk_window_set_title (GTK_WINDOW (self), readings ? title : "Platelift");
  enable (self, "undo", job_store_can_undo (self->store));
  enable (self, "redo", job_store_can_redo (self->store));
}

/* ---- recent files ---- */

static int
newest_first (gconstpointer a, gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *) b),
                              gtk_recent_info_get_modified ((GtkRecentInfo *) a));
}

void
window_fill_recent (Window *self)
{
  GList *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  int count = 0;

  items = g_list_sort (items, newest_first);
  g_menu_remove_all (self->recent);
  for (GList *item = items; item && count < RECENT_MAX; item = item->next) {
    GtkRecentInfo *info = item->data;
    g_autoptr (GMenuItem) entry = NULL;
    if (!gtk_recent_info_has_application (info, "Platelift") || !gtk_recent_info_exists (info))
      continue;
    entry = g_menu_item_new (gtk_recent_info_get_display_name (info), NULL);
    g_menu_item_set_action_and_target (entry, "win.open-path", "s", gtk_recent_info_get_uri (info));
    g_menu_append_item (self->recent, entry);
    count++;
  }
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
}

/* ---- recovery ---- */

static void
recovery_done (Window *self)
{
  g_clear_pointer (&self->recovery_record, g_free);
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->recovery), FALSE);
  window_offer_recovery (self); /* there may be one more */
}

static void
recover_now (Window *self)
{
  if (!self->recovery_record)
    return;
  if (!job_store_recover (self->store, self->recovery_record))
    complain (self, _("The unsaved work cannot be read"), self->recovery_record);
  else
    show_readings (self);
  recovery_done (self);
}

static void
recover_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  when_saved (data, recover_now);
}

static void
drop_recovery_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  Window *self = data;

  if (self->recovery_record)
    job_store_drop_recovery (self->recovery_record);
  recovery_done (self);
}

void
window_offer_recovery (Window *self)
{
  if (self->recovery_record)
    return;
  self->recovery_record = job_store_find_recovery (self->store);
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->recovery), self->recovery_record != NULL);
}

/* ---- closing ---- */

static void
close_now (Window *self)
{
  self->closing = TRUE;
  job_store_close (self->store, TRUE);
  gtk_window_close (GTK_WINDOW (self));
}

gboolean
window_ask_to_close (Window *self)
{
  if (self->closing || job_store_saved (self->store)) {
    job_store_close (self->store, TRUE);
    return FALSE;
  }
  when_saved (self, close_now);
  return TRUE;
}

void
window_add_file_actions (Window *self)
{
  const GActionEntry entries[] = {
    { .name = "new", .activate = new_action },
    { .name = "open", .activate = open_action },
    { .name = "open-path", .parameter_type = "s", .activate = open_path_action },
    { .name = "open-demo", .parameter_type = "s", .activate = open_demo_action },
    { .name = "save", .activate = save_action },
    { .name = "save-as", .activate = save_as_action },
    { .name = "import", .activate = import_action },
    { .name = "open-vehicle", .activate = open_vehicle_action },
    { .name = "undo", .activate = undo_action },
    { .name = "redo", .activate = redo_action },
    { .name = "recover", .activate = recover_action },
    { .name = "drop-recovery", .activate = drop_recovery_action },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
