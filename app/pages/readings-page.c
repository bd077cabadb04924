#include "readings-page.h"

#include "check.h"
#include "conditions-form.h"
#include "field-entry.h"
#include "reading-words.h"
#include "status-line.h"

#include <glib/gi18n.h>
#include <string.h>

#define SETTLE_MS 700 /* after the last key: then the verdicts are announced */

struct _ReadingsPage {
  GtkWidget parent_instance;
  JobStore *store;
  struct unit_choices choices;
  gboolean setting;
  guint settle_source;

  GtkWidget *columns, *side_scroll, *side, *car, *car_file, *texts, *bar, *summary, *add, *content, *empty, *kinds, *demos;
  GtkWidget *scroll, *rows, *status;
  GtkWidget *entries[JOB_TEXTS];
  GtkWidget *conditions;
};

G_DEFINE_FINAL_TYPE (ReadingsPage, readings_page, GTK_TYPE_WIDGET)

static const struct job *
job_of (ReadingsPage *self)
{
  return job_store_draft (self->store)->job;
}

/* ---- rows ---- */

static ReadingRow *
row_at (ReadingsPage *self, int reading)
{
  GtkWidget *row = gtk_widget_get_first_child (self->rows);

  for (int i = 0; row && i < reading; i++)
    row = gtk_widget_get_next_sibling (row);
  return row ? PLATELIFT_READING_ROW (row) : NULL;
}

static void
drop_row (ReadingsPage *self, GtkWidget *row)
{
  reading_row_set_reading (PLATELIFT_READING_ROW (row), GONE);
  gtk_box_remove (GTK_BOX (self->rows), row);
}

static void
remove_reading (ReadingRow *row, ReadingsPage *self)
{
  int reading = reading_row_reading (row);
  struct draft_job *draft = job_store_edit (self->store, NULL);

  gtk_widget_grab_focus (self->add); /* the focus must not go down with the row */
  drop_row (self, GTK_WIDGET (row));
  draft_remove_reading (draft, reading);
  job_store_edited (self->store);
  readings_page_say (self, _("Reading removed. Ctrl+Z brings it back."));
}

/* Rows that fit are kept, with their focus and their open details; the others are made anew. */
static void
match_rows (ReadingsPage *self)
{
  GPtrArray *readings = job_of (self)->readings;
  GtkWidget *row = gtk_widget_get_first_child (self->rows), *last = NULL;
  guint i = 0;

  while (row && i < readings->len) {
    GtkWidget *next = gtk_widget_get_next_sibling (row);
    if (reading_row_fits (PLATELIFT_READING_ROW (row), g_ptr_array_index (readings, i))) {
      reading_row_set_reading (PLATELIFT_READING_ROW (row), (int) i++);
      last = row;
    } else
      drop_row (self, row);
    row = next;
  }
  while (row) {
    GtkWidget *next = gtk_widget_get_next_sibling (row);
    drop_row (self, row);
    row = next;
  }
  for (; i < readings->len; i++) {
    GtkWidget *made = reading_row_new (self->store, (int) i);
    g_signal_connect (made, "remove", G_CALLBACK (remove_reading), self);
    gtk_box_insert_child_after (GTK_BOX (self->rows), made, last);
    last = made;
  }
}

static void
show_summary (ReadingsPage *self, const GArray *checked)
{
  guint in = 0, out = 0, undecided = 0, readings = job_of (self)->readings->len;
  g_autofree char *text = NULL;

  for (guint i = 0; i < readings; i++) {
    struct judged judged;
    const char *style;
    judge_reading (job_of (self), (int) i, checked, unit_shown (QUANTITY_PRESSURE, NULL), &judged);
    style = verdict_style (&judged);
    in += strcmp (style, "in") == 0;
    out += strcmp (style, "out") == 0;
    undecided += strcmp (style, "undecided") == 0;
  }
  if (readings == 0)
    text = g_strdup (_("Readings"));
  else
    /* Translators: how many readings agree with their band. */
    text = g_strdup_printf (_("Readings: %u in, %u out, %u undecided"), in, out, undecided);
  gtk_label_set_text (GTK_LABEL (self->summary), text);
}

static void
show_rows (ReadingsPage *self, gboolean force)
{
  g_autoptr (GArray) checked = job_check (job_of (self));

  match_rows (self);
  for (GtkWidget *row = gtk_widget_get_first_child (self->rows); row; row = gtk_widget_get_next_sibling (row))
    reading_row_show (PLATELIFT_READING_ROW (row), checked, &self->choices, force);
  gtk_stack_set_visible_child_name (GTK_STACK (self->content), job_of (self)->readings->len ? "readings" : "empty");
  show_summary (self, checked);
}

/* ---- the side ---- */

static void
show_car (ReadingsPage *self)
{
  const struct vehicle *vehicle = job_of (self)->vehicle;
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
  guint selected = GTK_INVALID_LIST_POSITION, i = 0;

  for (const char *const *name = vehicle_shipped (); *name; name++, i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autofree struct vehicle *shipped = vehicle_load (*name, problems);
    gtk_string_list_append (list, shipped ? shipped->name : *name);
    if (strcmp (vehicle->key, *name) == 0 && shipped && memcmp (&shipped->car, &vehicle->car, sizeof vehicle->car) == 0)
      selected = i;
  }
  if (selected == GTK_INVALID_LIST_POSITION) { /* the job's own car, embedded in it */
    gtk_string_list_append (list, vehicle->name);
    selected = i;
  }
  self->setting = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->car), G_LIST_MODEL (list));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->car), selected);
  self->setting = FALSE;
}

static void
show_side (ReadingsPage *self, gboolean force)
{
  self->setting = TRUE;
  for (int i = 0; i < JOB_TEXTS; i++) {
    const char *text = *draft_text_in ((struct draft_job *) job_store_draft (self->store), (enum job_text) i);
    if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->entries[i])), text) != 0)
      gtk_editable_set_text (GTK_EDITABLE (self->entries[i]), text ? text : "");
  }
  self->setting = FALSE;
  conditions_form_show (PLATELIFT_CONDITIONS_FORM (self->conditions), &self->choices, force);
}

static void
car_chosen (GtkDropDown *drop_down, GParamSpec *pspec, ReadingsPage *self)
{
  guint selected = gtk_drop_down_get_selected (drop_down);
  const char *const *names = vehicle_shipped ();
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = NULL;

  if (self->setting || selected >= g_strv_length ((char **) names))
    return;
  vehicle = vehicle_load (names[selected], problems);
  if (!vehicle)
    return;
  draft_set_vehicle (job_store_edit (self->store, NULL), vehicle);
  job_store_edited (self->store);
}

static void
text_changed (GtkEditable *editable, ReadingsPage *self)
{
  for (int i = 0; !self->setting && i < JOB_TEXTS; i++)
    if (GTK_WIDGET (editable) == self->entries[i]) {
      g_autofree char *key = g_strdup_printf ("text/%d", i);
      char **place = draft_text_in (job_store_edit (self->store, key), (enum job_text) i);
      g_free (*place);
      *place = g_strdup (gtk_editable_get_text (editable));
      job_store_edited (self->store);
    }
}

static void
text_left (GtkEventControllerFocus *focus, ReadingsPage *self)
{
  if (self->store)
    job_store_seal (self->store);
}

static void
make_texts (ReadingsPage *self)
{
  static const char *const names[JOB_TEXTS]
      = { [TEXT_WORKSHOP] = N_("Workshop"), [TEXT_TECHNICIAN] = N_("Technician"), [TEXT_MARK] = N_("Car's mark"),
          [TEXT_DATE] = N_("Date"),         [TEXT_COMPLAINT] = N_("Complaint"),   [TEXT_NOTES] = N_("Notes") };
  static const enum job_text order[JOB_TEXTS]
      = { TEXT_MARK, TEXT_COMPLAINT, TEXT_DATE, TEXT_TECHNICIAN, TEXT_WORKSHOP, TEXT_NOTES };

  for (int row = 0; row < JOB_TEXTS; row++) {
    enum job_text text = order[row];
    GtkWidget *label = gtk_label_new (gettext (names[text])), *entry = gtk_entry_new ();
    GtkEventController *focus = gtk_event_controller_focus_new ();
    gtk_label_set_xalign (GTK_LABEL (label), 0);
    gtk_widget_add_css_class (label, "field-name");
    g_object_set (entry, "enable-undo", FALSE, "hexpand", TRUE, "width-chars", 15, NULL);
    gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, gettext (names[text]), -1);
    g_signal_connect (entry, "changed", G_CALLBACK (text_changed), self);
    g_signal_connect (focus, "leave", G_CALLBACK (text_left), self);
    gtk_widget_add_controller (entry, focus);
    gtk_grid_attach (GTK_GRID (self->texts), label, 0, row, 1, 1);
    gtk_grid_attach (GTK_GRID (self->texts), entry, 1, row, 1, 1);
    self->entries[text] = entry;
  }
}

/* ---- adding ---- */

static void
add_kind (GtkWidget *widget, const char *action, GVariant *parameter)
{
  const struct reading_kind *kind = reading_find (g_variant_get_string (parameter, NULL));

  if (kind)
    readings_page_add (PLATELIFT_READINGS_PAGE (widget), kind);
}

static void
make_adding (ReadingsPage *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  for (int i = 0; i < READINGS; i++) {
    g_autofree char *action = g_strdup_printf ("readings.add('%s')", reading_kinds[i].key);
    GtkWidget *button = gtk_button_new_with_label (gettext (reading_kinds[i].name));
    g_menu_append (menu, gettext (reading_kinds[i].name), action);
    gtk_actionable_set_detailed_action_name (GTK_ACTIONABLE (button), action);
    gtk_flow_box_append (GTK_FLOW_BOX (self->kinds), button);
    gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE); /* the button is the stop, not its cell */
  }
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (self->add), G_MENU_MODEL (menu));
}

static void
make_demos (ReadingsPage *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  for (const char *const *name = job_shipped (); *name; name++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (job_t) job = job_load_shipped (*name, problems);
    g_autofree char *action = g_strdup_printf ("win.open-demo('%s')", *name);
    g_autofree char *label = job ? g_strdup_printf ("%s: %s", job->vehicle->name, job->vehicle_mark) : NULL;
    if (job)
      g_menu_append (menu, label, action);
  }
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (self->demos), G_MENU_MODEL (menu));
}

static gboolean
focus_row (gpointer data)
{
  ReadingRow *row = data;

  if (gtk_widget_get_root (GTK_WIDGET (row)))
    gtk_widget_grab_focus (reading_row_entry (row, 0));
  return G_SOURCE_REMOVE;
}

/* ---- life ---- */

static gboolean
announce (gpointer data)
{
  ReadingsPage *self = data;

  self->settle_source = 0;
  if (job_of (self)->readings->len)
    status_line_say (PLATELIFT_STATUS_LINE (self->status), gtk_label_get_text (GTK_LABEL (self->summary)));
  return G_SOURCE_REMOVE;
}

static void
announce_soon (ReadingsPage *self)
{
  g_clear_handle_id (&self->settle_source, g_source_remove);
  self->settle_source = g_timeout_add (SETTLE_MS, announce, self);
}

static void
edited (ReadingsPage *self)
{
  show_rows (self, FALSE);
  show_side (self, FALSE);
  announce_soon (self);
}

static void
replaced (ReadingsPage *self)
{
  show_car (self);
  show_rows (self, TRUE);
  show_side (self, TRUE);
  announce_soon (self);
}

static void
readings_page_dispose (GObject *object)
{
  ReadingsPage *self = PLATELIFT_READINGS_PAGE (object);
  GtkWidget *child;

  g_clear_handle_id (&self->settle_source, g_source_remove);
  if (self->store)
    g_signal_handlers_disconnect_by_data (self->store, self);
  g_clear_object (&self->store);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (readings_page_parent_class)->dispose (object);
}

static void
readings_page_class_init (ReadingsPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = readings_page_dispose;
  g_type_ensure (STATUS_LINE_TYPE);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/platelift/Platelift/readings-page.ui");
  gtk_widget_class_set_css_name (widget_class, "readingspage");
  gtk_widget_class_install_action (widget_class, "readings.add", "s", add_kind);
#define BIND(child) gtk_widget_class_bind_template_child (widget_class, ReadingsPage, child)
  BIND (columns);
  BIND (side_scroll);
  BIND (side);
  BIND (car);
  BIND (car_file);
  BIND (texts);
  BIND (bar);
  BIND (summary);
  BIND (add);
  BIND (content);
  BIND (empty);
  BIND (kinds);
  BIND (demos);
  BIND (scroll);
  BIND (rows);
  BIND (status);
#undef BIND
}

static void
readings_page_init (ReadingsPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_texts (self);
  make_adding (self);
  make_demos (self);
  g_signal_connect (self->car, "notify::selected", G_CALLBACK (car_chosen), self);
}

void
readings_page_set_store (ReadingsPage *self, JobStore *store)
{
  g_return_if_fail (PLATELIFT_IS_READINGS_PAGE (self) && !self->store);
  self->store = g_object_ref (store);
  self->conditions = conditions_form_new (store, VISIT, (1u << TYPED_CONDITIONS) - 1);
  gtk_box_append (GTK_BOX (self->side), self->conditions);
  g_signal_connect_swapped (store, "changed", G_CALLBACK (edited), self);
  g_signal_connect_swapped (store, "replaced", G_CALLBACK (replaced), self);
  replaced (self);
}

void
readings_page_set_units (ReadingsPage *self, const struct unit_choices *choices)
{
  g_return_if_fail (PLATELIFT_IS_READINGS_PAGE (self));
  self->choices = *choices;
  if (self->store)
    edited (self);
}

void
readings_page_add (ReadingsPage *self, const struct reading_kind *kind)
{
  int reading;

  g_return_if_fail (PLATELIFT_IS_READINGS_PAGE (self) && kind);
  draft_add_reading (job_store_edit (self->store, NULL), kind);
  job_store_edited (self->store);
  reading = (int) job_of (self)->readings->len - 1;
  /* After the popover that asked for it has given the focus back. */
  g_idle_add_full (G_PRIORITY_LOW, focus_row, g_object_ref (row_at (self, reading)), g_object_unref);
}

void
readings_page_say (ReadingsPage *self, const char *text)
{
  g_return_if_fail (PLATELIFT_IS_READINGS_PAGE (self));
  g_clear_handle_id (&self->settle_source, g_source_remove);
  status_line_say (PLATELIFT_STATUS_LINE (self->status), text);
}

ReadingRow *
readings_page_row (ReadingsPage *self, int reading)
{
  g_return_val_if_fail (PLATELIFT_IS_READINGS_PAGE (self), NULL);
  return row_at (self, reading);
}

const char *
readings_page_said (ReadingsPage *self)
{
  g_return_val_if_fail (PLATELIFT_IS_READINGS_PAGE (self), NULL);
  return status_line_text (PLATELIFT_STATUS_LINE (self->status));
}
