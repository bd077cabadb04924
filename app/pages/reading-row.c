#include "reading-row.h"

#include "band-bar.h"
#include "conditions-form.h"
#include "field-entry.h"
#include "number-text.h"
#include "reading-words.h"
#include "value-text.h"

#include <glib/gi18n.h>

#define VALUE_WIDTH 14   /* characters: "1234 cm³ in 30 s" fits */
#define CYLINDER_WIDTH 6

struct _ReadingRow {
  GtkWidget parent_instance;
  JobStore *store;
  int reading;
  const struct reading_kind *kind;
  int values;
  gboolean setting;

  GtkWidget *column, *name, *verdict, *expected, *source, *sure, *points, *converted, *unit;
  GtkWidget *entries[CYLINDERS_MAX], *deviations[CYLINDERS_MAX];
  GtkWidget *form, *uncertainty, *conditions, *bar, *details, *note;
  const char *style; /* of the verdict, as class name */
};

enum { REMOVE, SIGNALS };
static guint signals[SIGNALS];

G_DEFINE_FINAL_TYPE (ReadingRow, reading_row, GTK_TYPE_WIDGET)

static const struct job_reading *
reading_of (ReadingRow *self)
{
  return g_ptr_array_index (job_store_draft (self->store)->job->readings, (guint) self->reading);
}

/* ---- edits ---- */

static void
form_chosen (GtkDropDown *drop_down, GParamSpec *pspec, ReadingRow *self)
{
  struct draft_job *draft;
  struct job_reading *reading;

  if (self->setting || self->reading == GONE)
    return;
  draft = job_store_edit (self->store, NULL);
  reading = g_ptr_array_index (draft->job->readings, (guint) self->reading);
  reading->uncertainty_form = (enum uncertainty_form) gtk_drop_down_get_selected (drop_down);
  job_store_edited (self->store);
}

static void
note_changed (GtkEditable *editable, ReadingRow *self)
{
  g_autofree char *key = NULL;
  struct job_reading *reading;

  if (self->setting || self->reading == GONE)
    return;
  key = g_strdup_printf ("%d/note", self->reading);
  reading = g_ptr_array_index (job_store_edit (self->store, key)->job->readings, (guint) self->reading);
  g_free (reading->note);
  reading->note = g_strdup (gtk_editable_get_text (editable));
  job_store_edited (self->store);
}

static void
remove_clicked (ReadingRow *self)
{
  g_signal_emit (self, signals[REMOVE], 0);
}

/* ---- making ---- */

static GtkWidget *
text_label (const char *css, gboolean wrap)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), wrap);
  if (css)
    gtk_widget_add_css_class (label, css);
  return label;
}

static GtkWidget *
make_heading (ReadingRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *remove = gtk_button_new_from_icon_name ("edit-delete-symbolic");
  g_autofree char *label = g_strdup_printf (_("Remove %s"), gettext (self->kind->name));

  self->name = text_label ("reading-name", FALSE);
  gtk_label_set_text (GTK_LABEL (self->name), gettext (self->kind->name));
  gtk_widget_set_hexpand (self->name, TRUE);
  self->verdict = text_label ("verdict", FALSE);
  gtk_widget_set_valign (self->verdict, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (remove, "flat");
  gtk_widget_set_tooltip_text (remove, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect_swapped (remove, "clicked", G_CALLBACK (remove_clicked), self);
  gtk_box_append (GTK_BOX (box), self->name);
  gtk_box_append (GTK_BOX (box), self->verdict);
  gtk_box_append (GTK_BOX (box), remove);
  return box;
}

static GtkWidget *
make_single (ReadingRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  self->entries[0] = field_entry_new (self->store, self->reading, FIELD_VALUE, gettext (self->kind->name), VALUE_WIDTH);
  gtk_widget_add_css_class (self->entries[0], "reading-value");
  self->converted = text_label ("soft", FALSE);
  gtk_box_append (GTK_BOX (box), self->entries[0]);
  gtk_box_append (GTK_BOX (box), self->converted);
  return box;
}

/* A small table: number, value, deviation from the mean. Two lines of four where there are eight. */
static GtkWidget *
make_cylinders (ReadingRow *self)
{
  GtkWidget *grid = gtk_grid_new ();
  int columns = self->values > 6 ? (self->values + 1) / 2 : self->values;

  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 2);
  for (int i = 0; i < self->values; i++) {
    g_autofree char *number = g_strdup_printf ("%d", i + 1);
    g_autofree char *label = g_strdup_printf (_("%s, cylinder %d"), gettext (self->kind->name), i + 1);
    GtkWidget *heading = text_label ("cylinder-number", FALSE);
    int row = 3 * (i / columns), column = i % columns;
    gtk_label_set_text (GTK_LABEL (heading), number);
    self->entries[i] = field_entry_new (self->store, self->reading, FIELD_VALUE + i, label, CYLINDER_WIDTH);
    self->deviations[i] = text_label ("field-name", FALSE);
    gtk_grid_attach (GTK_GRID (grid), heading, column, row, 1, 1);
    gtk_grid_attach (GTK_GRID (grid), self->entries[i], column, row + 1, 1, 1);
    gtk_grid_attach (GTK_GRID (grid), self->deviations[i], column, row + 2, 1, 1);
  }
  self->unit = text_label ("soft", FALSE);
  gtk_grid_attach (GTK_GRID (grid), self->unit, 0, 3 * ((self->values - 1) / columns) + 3, columns, 1);
  return grid;
}

static GtkWidget *
make_uncertainty (ReadingRow *self)
{
  const char *words[] = { _("usual"), _("standard ±"), _("95 % ±"), _("limits ±"), NULL };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *label = text_label ("field-name", FALSE);

  gtk_label_set_text (GTK_LABEL (label), _("How sure"));
  self->form = gtk_drop_down_new_from_strings (words);
  gtk_widget_set_tooltip_text (self->form, _("Usual for this gauge; or plus and minus as a standard uncertainty, as a "
                                             "95 % interval, or as limits that are never passed"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->form), GTK_ACCESSIBLE_PROPERTY_LABEL, _("How sure"), -1);
  g_signal_connect (self->form, "notify::selected", G_CALLBACK (form_chosen), self);
  self->uncertainty = field_entry_new (self->store, self->reading, FIELD_UNCERTAINTY, _("Plus and minus"), 9);
  gtk_widget_set_valign (self->form, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), self->form);
  gtk_box_append (GTK_BOX (box), self->uncertainty);
  return box;
}

static unsigned
asked_rows (const struct reading_kind *kind)
{
  unsigned rows = 0;

  if (kind->asks_temperature)
    rows |= conditions_form_row ("temperature");
  if (kind->asks_vacuum)
    rows |= conditions_form_row ("vacuum");
  if (kind->asks_minutes)
    rows |= conditions_form_row ("minutes");
  if (kind->asks_voltage)
    rows |= conditions_form_row ("voltage");
  return rows;
}

static void
add_cautions (ReadingRow *self, GtkWidget *box)
{
  GtkWidget *list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *first = text_label (NULL, TRUE);

  gtk_widget_add_css_class (list, "caution");
  gtk_label_set_text (GTK_LABEL (first), _("Caution. The manufacturer's data and local rules come first; work that the "
                                           "law reserves is for licensed people."));
  gtk_box_append (GTK_BOX (list), first);
  for (unsigned bit = 1; bit <= HAZARD_PLATE_LIFT; bit <<= 1)
    if (self->kind->hazards & bit) {
      GtkWidget *caution = text_label (NULL, TRUE);
      g_autofree char *text = g_strdup_printf ("• %s", gettext (hazard_caution ((enum hazard) bit)));
      gtk_label_set_text (GTK_LABEL (caution), text);
      gtk_box_append (GTK_BOX (list), caution);
    }
  gtk_box_append (GTK_BOX (box), list);
}

static GtkWidget *
make_details (ReadingRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *procedure = text_label (NULL, TRUE);
  GtkWidget *note_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *note_label = text_label ("field-name", FALSE);

  gtk_label_set_text (GTK_LABEL (procedure), gettext (self->kind->procedure));
  self->note = gtk_entry_new ();
  g_object_set (self->note, "enable-undo", FALSE, "hexpand", TRUE, NULL);
  gtk_label_set_text (GTK_LABEL (note_label), _("Note"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->note), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Note"), -1);
  g_signal_connect (self->note, "changed", G_CALLBACK (note_changed), self);
  gtk_box_append (GTK_BOX (note_box), note_label);
  gtk_box_append (GTK_BOX (note_box), self->note);
  gtk_box_append (GTK_BOX (box), procedure);
  add_cautions (self, box);
  gtk_box_append (GTK_BOX (box), note_box);
  self->details = gtk_expander_new (_("How it is taken, and what to mind"));
  gtk_expander_set_child (GTK_EXPANDER (self->details), box);
  return self->details;
}

/* Left what the person types, right what the model and the data answer. */
static GtkWidget *
make_halves (ReadingRow *self)
{
  GtkWidget *halves = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  GtkWidget *typed = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8), *answer = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  unsigned rows = asked_rows (self->kind);

  gtk_box_append (GTK_BOX (typed), self->kind->each_cylinder ? make_cylinders (self) : make_single (self));
  gtk_box_append (GTK_BOX (typed), make_uncertainty (self));
  gtk_widget_set_hexpand (typed, TRUE);
  self->bar = band_bar_new ();
  gtk_box_set_homogeneous (GTK_BOX (halves), TRUE);
  self->expected = text_label (NULL, TRUE);
  self->source = text_label ("soft", TRUE);
  self->sure = text_label ("soft", TRUE);
  for (GtkWidget **label = (GtkWidget *[]) { self->expected, self->source, self->sure, NULL }; *label; label++)
    gtk_label_set_max_width_chars (GTK_LABEL (*label), 40);
  gtk_box_append (GTK_BOX (answer), self->bar);
  gtk_box_append (GTK_BOX (answer), self->expected);
  gtk_box_append (GTK_BOX (answer), self->source);
  gtk_box_append (GTK_BOX (answer), self->sure);
  if (rows) {
    self->conditions = conditions_form_new (self->store, self->reading, rows);
    gtk_box_append (GTK_BOX (typed), self->conditions);
  }
  gtk_box_append (GTK_BOX (halves), typed);
  gtk_box_append (GTK_BOX (halves), answer);
  return halves;
}

static void
reading_row_dispose (GObject *object)
{
  ReadingRow *self = PLATELIFT_READING_ROW (object);

  g_clear_pointer (&self->column, gtk_widget_unparent);
  g_clear_object (&self->store);
  G_OBJECT_CLASS (reading_row_parent_class)->dispose (object);
}

static void
reading_row_class_init (ReadingRowClass *class)
{
  G_OBJECT_CLASS (class)->dispose = reading_row_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "readingrow");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_GROUP);
  signals[REMOVE] = g_signal_new ("remove", READING_ROW_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
reading_row_init (ReadingRow *self)
{
  self->style = "none";
}

GtkWidget *
reading_row_new (JobStore *store, int reading)
{
  ReadingRow *self = g_object_new (READING_ROW_TYPE, NULL);

  self->store = g_object_ref (store);
  self->reading = reading;
  self->kind = reading_of (self)->kind;
  self->values = reading_of (self)->values;
  self->column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_widget_add_css_class (self->column, "reading");
  gtk_box_append (GTK_BOX (self->column), make_heading (self));
  gtk_box_append (GTK_BOX (self->column), make_halves (self));
  self->points = text_label ("points-to", TRUE);
  gtk_box_append (GTK_BOX (self->column), self->points);
  gtk_box_append (GTK_BOX (self->column), make_details (self));
  gtk_widget_set_parent (self->column, GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, gettext (self->kind->name), -1);
  /* Open while there is nothing yet: who has the value has done the work. */
  gtk_expander_set_expanded (GTK_EXPANDER (self->details),
                             draft_field_typed (job_store_draft (store), reading, FIELD_VALUE) == NULL);
  return GTK_WIDGET (self);
}

void
reading_row_set_reading (ReadingRow *self, int reading)
{
  g_return_if_fail (PLATELIFT_IS_READING_ROW (self));
  self->reading = reading;
  for (int i = 0; i < self->values; i++)
    field_entry_set_reading (PLATELIFT_FIELD_ENTRY (self->entries[i]), reading);
  field_entry_set_reading (PLATELIFT_FIELD_ENTRY (self->uncertainty), reading);
  if (self->conditions)
    conditions_form_set_reading (PLATELIFT_CONDITIONS_FORM (self->conditions), reading);
}

int
reading_row_reading (ReadingRow *self)
{
  g_return_val_if_fail (PLATELIFT_IS_READING_ROW (self), 0);
  return self->reading;
}

gboolean
reading_row_fits (ReadingRow *self, const struct job_reading *reading)
{
  g_return_val_if_fail (PLATELIFT_IS_READING_ROW (self), FALSE);
  return self->kind == reading->kind && self->values == reading->values;
}

/* ---- showing ---- */

static void
show_fields (ReadingRow *self, const struct unit_choices *choices, gboolean force)
{
  const struct job_reading *reading = reading_of (self);

  for (int i = 0; i < self->values; i++)
    field_entry_show (PLATELIFT_FIELD_ENTRY (self->entries[i]), choices, NULL, force);
  field_entry_show (PLATELIFT_FIELD_ENTRY (self->uncertainty), choices, NULL, force);
  if (self->conditions)
    conditions_form_show (PLATELIFT_CONDITIONS_FORM (self->conditions), choices, force);
  self->setting = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->form), (guint) reading->uncertainty_form);
  gtk_widget_set_visible (self->uncertainty, reading->uncertainty_form != UNCERTAINTY_USUAL);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->note)), reading->note) != 0)
    gtk_editable_set_text (GTK_EDITABLE (self->note), reading->note);
  self->setting = FALSE;
}

/* What "52 psi" is in the unit that is shown everywhere. */
static void
show_converted (ReadingRow *self, const struct unit *unit)
{
  const struct typed *typed = draft_field_typed (job_store_draft (self->store), self->reading, FIELD_VALUE);
  g_autofree char *shown = NULL, *text = NULL;

  if (!self->converted)
    return;
  if (typed && typed->unit != unit) {
    shown = measure_shown (typed->si, unit, TRUE);
    text = g_strdup_printf ("= %s", shown);
  }
  gtk_label_set_text (GTK_LABEL (self->converted), text ? text : "");
}

static void
show_unit (ReadingRow *self, const struct unit *unit)
{
  g_autofree char *text = NULL;

  if (!self->unit)
    return;
  /* Translators: the unit of all numbers in a small table. */
  text = g_strdup_printf (_("all in %s, unless typed otherwise"), unit->symbol);
  gtk_label_set_text (GTK_LABEL (self->unit), text);
}

static void
show_deviations (ReadingRow *self, const struct judged *judged)
{
  static const char *const marks[]
      = { [AGREEMENT_IN] = "✓", [AGREEMENT_OUT_LOW] = "▼", [AGREEMENT_OUT_HIGH] = "▲", [AGREEMENT_UNDECIDED] = "?" };

  for (int i = 0; self->kind->each_cylinder && i < self->values; i++) {
    g_autofree char *text = g_strdup ("");
    for (int j = 0; j < judged->count; j++)
      if (judged->cylinders[j] == i) {
        g_autofree char *number = measure_shown (judged->values[j], judged->unit, TRUE);
        g_free (text);
        text = g_strdup_printf ("%s%s %s", judged->values[j] > 0 ? "+" : "", number,
                                judged->has_band ? marks[judged->agreements[j]] : "");
      }
    gtk_label_set_text (GTK_LABEL (self->deviations[i]), text);
  }
}

static void
show_bar (ReadingRow *self, const struct judged *judged)
{
  struct band_picture picture = { .has_band = judged->has_band,
                                  .has_expected = judged->has_expected && !self->kind->each_cylinder,
                                  .low = judged->low,
                                  .high = judged->high,
                                  .expected = judged->expected,
                                  .count = judged->count,
                                  .guard = GUARD_FACTOR * judged->uncertainty,
                                  .unit = judged->unit };

  for (int i = 0; i < judged->count; i++) {
    picture.values[i] = judged->values[i];
    picture.names[i] = judged->cylinders[i] + 1;
  }
  band_bar_show (PLATELIFT_BAND_BAR (self->bar), &picture);
}

static void
show_words (ReadingRow *self, const struct judged *judged)
{
  g_autofree char *expected = expected_words (judged), *source = source_words (judged);
  g_autofree char *sure = sureness_words (judged), *points = NULL, *description = NULL;
  const char *verdict = verdict_words (judged);

  gtk_label_set_text (GTK_LABEL (self->verdict), verdict);
  gtk_widget_remove_css_class (self->verdict, self->style);
  self->style = verdict_style (judged);
  gtk_widget_add_css_class (self->verdict, self->style);
  gtk_label_set_text (GTK_LABEL (self->expected), expected);
  gtk_label_set_text (GTK_LABEL (self->source), source);
  gtk_label_set_text (GTK_LABEL (self->sure), sure);
  if (verdict_out (judged))
    points = g_strdup_printf (_("Points to: %s"), gettext (self->kind->out_means));
  gtk_label_set_text (GTK_LABEL (self->points), points ? points : "");
  gtk_widget_set_visible (self->points, points != NULL);
  description = g_strdup_printf ("%s. %s", verdict, expected);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->bar), GTK_ACCESSIBLE_PROPERTY_LABEL, description, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description, -1);
}

void
reading_row_show (ReadingRow *self, const GArray *checked, const struct unit_choices *choices, gboolean force)
{
  const struct draft_job *draft;
  const struct unit *unit;
  struct judged judged;

  g_return_if_fail (PLATELIFT_IS_READING_ROW (self) && checked && choices);
  draft = job_store_draft (self->store);
  unit = field_unit (draft, self->reading, FIELD_VALUE, choices);
  judge_reading (draft->job, self->reading, checked, unit, &judged);
  show_fields (self, choices, force);
  show_converted (self, unit);
  show_unit (self, unit);
  show_deviations (self, &judged);
  show_bar (self, &judged);
  show_words (self, &judged);
}

const char *
reading_row_verdict (ReadingRow *self)
{
  g_return_val_if_fail (PLATELIFT_IS_READING_ROW (self), "");
  return gtk_label_get_text (GTK_LABEL (self->verdict));
}

GtkWidget *
reading_row_entry (ReadingRow *self, int cylinder)
{
  g_return_val_if_fail (PLATELIFT_IS_READING_ROW (self) && cylinder >= 0 && cylinder < self->values, NULL);
  return field_entry_get_entry (PLATELIFT_FIELD_ENTRY (self->entries[cylinder]));
}
