#include "quantity-scale.h"

#include "measure-entry.h"
#include "number-text.h"
#include "value-text.h"

#include <glib/gi18n.h>
#include <math.h>

#define MARKS_MAX 12
#define ENTRY_CHARACTERS 9
#define COMPACT_CHARACTERS 8
#define DIGITS 3       /* that a bent slider sets */

struct _QuantityScale {
  GtkWidget parent_instance;
  enum quantity quantity;
  double power;
  double least, most, step, value;
  const struct unit *unit;
  gboolean own_unit; /* not the one of the person's choices */
  double marks[MARKS_MAX];
  int mark_count;
  GtkWidget *name, *message, *slider, *entry;
  GtkAdjustment *adjustment; /* 0..1, the slider's position */
  gboolean setting;
};

enum { MOVED, SIGNALS };
static guint signals[SIGNALS];

G_DEFINE_FINAL_TYPE (QuantityScale, quantity_scale, GTK_TYPE_WIDGET)

static double
position_of (QuantityScale *self, double value)
{
  double share = self->most > self->least ? (value - self->least) / (self->most - self->least) : 0;

  return pow (CLAMP (share, 0, 1), 1 / self->power);
}

static double
value_at (QuantityScale *self, double position)
{
  return self->least + (self->most - self->least) * pow (CLAMP (position, 0, 1), self->power);
}

/* The 1, 2 or 5 times a power of ten that is nearest below. */
static double
round_step (double step)
{
  double power = pow (10, floor (log10 (step)));
  double share = step / power;

  return power * (share >= 5 ? 5 : share >= 2 ? 2 : 1);
}

/* What the slider sets are round numbers of the unit shown; what is typed stays as exact as it is. */
static double
rounded (QuantityScale *self, double si)
{
  double value = unit_from_si (self->unit, si), step;

  if (self->power == 1)
    step = round_step (self->step / self->unit->factor * 1.0000001);
  else if (value > 0)
    step = pow (10, MAX (-2, floor (log10 (value)) - DIGITS + 1));
  else
    return si;
  return CLAMP (unit_to_si (self->unit, round (value / step) * step), self->least, self->most);
}

static void
show_value (QuantityScale *self)
{
  g_autofree char *text = value_text_set (self->value, self->unit, true);

  self->setting = TRUE;
  gtk_adjustment_set_value (self->adjustment, position_of (self, self->value));
  self->setting = FALSE;
  measure_entry_show_text (PLATELIFT_MEASURE_ENTRY (self->entry), text);
  measure_entry_set_message (PLATELIFT_MEASURE_ENTRY (self->entry), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->slider), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, text, -1);
}

static void
slider_moved (QuantityScale *self)
{
  if (self->setting)
    return;
  self->value = rounded (self, value_at (self, gtk_adjustment_get_value (self->adjustment)));
  show_value (self);
  g_signal_emit (self, signals[MOVED], 0);
}

static void
say_range (QuantityScale *self)
{
  g_autofree char *least = value_text_set (self->least, self->unit, false);
  g_autofree char *most = value_text_set (self->most, self->unit, true);
  /* Translators: the limits of a value, such as "0 to 500 kg/h". */
  g_autofree char *message = g_strdup_printf (_("%s to %s"), least, most);

  measure_entry_set_message (PLATELIFT_MEASURE_ENTRY (self->entry), message);
}

static void
entry_committed (QuantityScale *self)
{
  g_autoptr (GError) error = NULL;
  double value = 0;
  double slack = 1e-9 * (self->most - self->least); /* the limit itself, typed in another unit, is inside */

  if (!measure_entry_read (PLATELIFT_MEASURE_ENTRY (self->entry), &value, &error)) {
    measure_entry_set_message (PLATELIFT_MEASURE_ENTRY (self->entry), error->message);
    return;
  }
  if (value < self->least - slack || value > self->most + slack) {
    say_range (self);
    return;
  }
  self->value = CLAMP (value, self->least, self->most);
  show_value (self);
  g_signal_emit (self, signals[MOVED], 0);
}

static void
message_changed (QuantityScale *self)
{
  const char *message = measure_entry_get_message (PLATELIFT_MEASURE_ENTRY (self->entry));

  gtk_label_set_text (GTK_LABEL (self->message), message ? message : "");
  gtk_widget_set_visible (self->message, message != NULL);
  if (!gtk_widget_has_css_class (GTK_WIDGET (self), "compact")) /* without a message the name may have the whole line */
    g_object_set (gtk_layout_manager_get_layout_child (gtk_widget_get_layout_manager (GTK_WIDGET (self)), self->name),
                  "column-span", message ? 1 : 3, NULL);
}

static void
show_marks (QuantityScale *self)
{
  gtk_scale_clear_marks (GTK_SCALE (self->slider));
  for (int i = 0; i < self->mark_count; i++) {
    g_autofree char *text = number_shown (unit_from_si (self->unit, self->marks[i]), 0);
    gtk_scale_add_mark (GTK_SCALE (self->slider), position_of (self, self->marks[i]), GTK_POS_BOTTOM, text);
  }
}

static void
quantity_scale_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (quantity_scale_parent_class)->dispose (object);
}

static void
quantity_scale_class_init (QuantityScaleClass *class)
{
  G_OBJECT_CLASS (class)->dispose = quantity_scale_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_GRID_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "quantityscale");
  signals[MOVED] = g_signal_new ("moved", QUANTITY_SCALE_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
quantity_scale_init (QuantityScale *self)
{
  self->most = 1;
  self->step = 0.01;
  self->power = 1;
}

static void
place (QuantityScale *self, GtkWidget *child, int column, int row, int columns)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  GtkLayoutChild *position;

  gtk_widget_set_parent (child, GTK_WIDGET (self));
  position = gtk_layout_manager_get_layout_child (layout, child);
  g_object_set (position, "column", column, "row", row, "column-span", columns, NULL);
}

static void
make_children (QuantityScale *self, const char *name)
{
  self->name = gtk_label_new (name);
  gtk_label_set_xalign (GTK_LABEL (self->name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->name), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (self->name, "input-name");
  self->message = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->message), 1);
  gtk_label_set_ellipsize (GTK_LABEL (self->message), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (self->message, "wrong-message");
  gtk_widget_set_visible (self->message, FALSE);
  self->adjustment = gtk_adjustment_new (0, 0, 1, 0.005, 0.05, 0);
  self->slider = gtk_scale_new (GTK_ORIENTATION_HORIZONTAL, self->adjustment);
  gtk_scale_set_draw_value (GTK_SCALE (self->slider), FALSE);
  gtk_widget_set_hexpand (self->slider, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->slider), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  self->entry = measure_entry_new (self->quantity, name);
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), ENTRY_CHARACTERS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), ENTRY_CHARACTERS);
  gtk_editable_set_alignment (GTK_EDITABLE (self->entry), 1);
  gtk_widget_set_valign (self->entry, GTK_ALIGN_CENTER);
  gtk_widget_set_halign (self->entry, GTK_ALIGN_END);
}

GtkWidget *
quantity_scale_new (const char *name, enum quantity quantity, double power, gboolean compact)
{
  QuantityScale *self = g_object_new (QUANTITY_SCALE_TYPE, NULL);

  self->quantity = quantity;
  self->power = power;
  self->unit = unit_shown (quantity, NULL);
  make_children (self, name);
  if (compact) {
    gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), COMPACT_CHARACTERS);
    gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), COMPACT_CHARACTERS);
    gtk_widget_add_css_class (GTK_WIDGET (self), "compact");
    place (self, self->name, 0, 0, 1);
    place (self, self->slider, 1, 0, 1);
    place (self, self->entry, 2, 0, 1);
    place (self, self->message, 0, 1, 3);
  } else {
    gtk_widget_set_hexpand (self->message, TRUE);
    place (self, self->name, 0, 0, 3);
    place (self, self->message, 1, 0, 2);
    place (self, self->slider, 0, 1, 2);
    place (self, self->entry, 2, 1, 1);
  }
  g_object_set (gtk_widget_get_layout_manager (GTK_WIDGET (self)), "column-spacing", 12, NULL);
  g_signal_connect_swapped (self->adjustment, "value-changed", G_CALLBACK (slider_moved), self);
  g_signal_connect_swapped (self->entry, "committed", G_CALLBACK (entry_committed), self);
  g_signal_connect_swapped (self->entry, "notify::message", G_CALLBACK (message_changed), self);
  return GTK_WIDGET (self);
}

void
quantity_scale_set_range (QuantityScale *self, double least, double most, double step)
{
  g_return_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self) && most > least);
  self->least = least;
  self->most = most;
  self->step = step;
  gtk_adjustment_set_step_increment (self->adjustment, step / (most - least));
  gtk_adjustment_set_page_increment (self->adjustment, 10 * step / (most - least));
  self->value = CLAMP (self->value, least, most);
  show_marks (self);
  show_value (self);
}

static void
use_unit (QuantityScale *self, const struct unit *unit)
{
  self->unit = unit;
  measure_entry_set_fallback (PLATELIFT_MEASURE_ENTRY (self->entry), unit);
  show_marks (self);
  show_value (self);
}

void
quantity_scale_set_units (QuantityScale *self, const struct unit_choices *choices)
{
  g_return_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self));
  if (!self->own_unit)
    use_unit (self, unit_shown (self->quantity, choices));
}

void
quantity_scale_set_unit (QuantityScale *self, const struct unit *unit)
{
  g_return_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self) && unit && unit->quantity == self->quantity);
  self->own_unit = TRUE;
  use_unit (self, unit);
}

void
quantity_scale_set_value (QuantityScale *self, double value)
{
  g_return_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self));
  self->value = CLAMP (value, self->least, self->most);
  show_value (self);
}

double
quantity_scale_get_value (QuantityScale *self)
{
  g_return_val_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self), 0);
  return self->value;
}

void
quantity_scale_set_marks (QuantityScale *self, const double *marks, int count)
{
  g_return_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self));
  self->mark_count = MIN (count, MARKS_MAX);
  for (int i = 0; i < self->mark_count; i++)
    self->marks[i] = marks[i];
  show_marks (self);
}

GtkWidget *
quantity_scale_get_slider (QuantityScale *self)
{
  g_return_val_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self), NULL);
  return self->slider;
}

GtkWidget *
quantity_scale_get_entry (QuantityScale *self)
{
  g_return_val_if_fail (PLATELIFT_IS_QUANTITY_SCALE (self), NULL);
  return self->entry;
}
