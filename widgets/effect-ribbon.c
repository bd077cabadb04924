#include "effect-ribbon.h"

#include "value-text.h"

#include <glib/gi18n.h>
#include <string.h>

/* One place in the row: the arrow that leads to it, the name, the values. Kept and reused while the numbers run. */
struct chip {
  GtkWidget *box, *arrow, *name, *values;
};

struct _EffectRibbon {
  GtkWidget parent_instance;
  GtkWidget *row, *hint, *chain, *after;
  struct chip chips[CHAIN_LINKS_MAX];
  int made;
};

G_DEFINE_FINAL_TYPE (EffectRibbon, effect_ribbon, GTK_TYPE_WIDGET)

/* Where the table's name is long for a chip, the trade's short one. */
static const struct {
  const char *key, *name;
} short_names[] = {
  { "block_temperature", N_("Coolant") },
  { "coolant", N_("Coolant") },
  { "minutes", N_("Time since start") },
  { "bimetal_temperature", N_("Bimetal") },
  { "bimetal_force", N_("Bimetal force") },
  { "bimetal_deflection", N_("Bimetal bends") },
  { "load_position", N_("Load diaphragm") },
  { "load_force", N_("Spring force lost") },
  { "base_pressure", N_("Regulator holds") },
  { "plate_drop", N_("Drop at the plate") },
  { "plunger_force", N_("Plunger force") },
  { "flow_area", N_("Flow area") },
  { "slot_opening", N_("Slot opening") },
  { "slot_drop", N_("Drop at the slot") },
  { "valve_opening", N_("Valve opening") },
  { "upper_pressure", N_("Upper chamber") },
  { "line_pressure", N_("Nozzle line") },
  { "fuel_volume_flow", N_("Fuel flow") },
  { "pump_pressure", N_("After the pump") },
  { "relief_flow", N_("Regulator returns") },
  { "return_flow", N_("Return flow") },
};

static const char *
link_name (const struct chain_link *link)
{
  const char *key = link->kind == CHAIN_CONDITION ? link->condition->key : link->value->key;

  for (gsize i = 0; i < G_N_ELEMENTS (short_names); i++)
    if (strcmp (short_names[i].key, key) == 0)
      return gettext (short_names[i].name);
  return gettext (link->kind == CHAIN_CONDITION ? link->condition->name : link->value->name);
}

static enum quantity
link_quantity (const struct chain_link *link)
{
  return link->kind == CHAIN_CONDITION ? link->condition->quantity : link->value->quantity;
}

/* Inputs as they were set, all else as computed. */
static void
link_values (const struct chain_link *link, const struct unit_choices *choices, char **before, char **after)
{
  if (link->kind == CHAIN_CONDITION) {
    *before = value_text_set (link->before, unit_shown (link_quantity (link), choices), false);
    *after = value_text_set (link->after, unit_shown (link_quantity (link), choices), true);
  } else
    value_text_pair (link->before, link->after, link_quantity (link), choices, before, after);
}

static GtkWidget *
chip_label (const char *css, GtkWidget *box)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
make_chip (EffectRibbon *self, struct chip *chip)
{
  chip->arrow = gtk_label_new (NULL);
  gtk_widget_add_css_class (chip->arrow, "chain-arrow");
  gtk_box_append (GTK_BOX (self->chain), chip->arrow);
  chip->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_add_css_class (chip->box, "chain-link");
  chip->name = chip_label ("chain-name", chip->box);
  chip->values = chip_label ("chain-values", chip->box);
  gtk_box_append (GTK_BOX (self->chain), chip->box);
}

static void
show_link (struct chip *chip, const struct chain_link *link, gboolean follows, gboolean first,
           const struct unit_choices *choices)
{
  g_autofree char *before = NULL, *after = NULL, *values = NULL;

  link_values (link, choices, &before, &after);
  /* Translators: a value before and after a change. */
  values = g_strdup_printf (_("%s → %s"), before, after);
  gtk_label_set_text (GTK_LABEL (chip->name), link_name (link));
  gtk_label_set_text (GTK_LABEL (chip->values), values);
  gtk_label_set_text (GTK_LABEL (chip->arrow), first ? "" : follows ? "▸" : "·");
  gtk_widget_set_visible (chip->arrow, !first);
  gtk_widget_set_visible (chip->box, TRUE);
  if (link->kind == CHAIN_CONDITION)
    gtk_widget_add_css_class (chip->box, "cause");
  else
    gtk_widget_remove_css_class (chip->box, "cause");
}

static void
effect_ribbon_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (effect_ribbon_parent_class)->dispose (object);
}

static void
effect_ribbon_class_init (EffectRibbonClass *class)
{
  G_OBJECT_CLASS (class)->dispose = effect_ribbon_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "effectribbon");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
effect_ribbon_init (EffectRibbon *self)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  self->row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  self->hint = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->hint, "soft");
  gtk_box_append (GTK_BOX (self->row), self->hint);
  self->chain = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (self->row), self->chain);
  self->after = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->after, "soft");
  gtk_box_append (GTK_BOX (self->row), self->after);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_AUTOMATIC, GTK_POLICY_NEVER);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->row);
  gtk_widget_set_parent (scrolled, GTK_WIDGET (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Chain of effects"), -1);
}

GtkWidget *
effect_ribbon_new (void)
{
  return g_object_new (EFFECT_RIBBON_TYPE, NULL);
}

void
effect_ribbon_show (EffectRibbon *self, const struct chain_link *links, int count, const struct unit_choices *choices,
                    const char *hint, const char *after)
{
  g_return_if_fail (PLATELIFT_IS_EFFECT_RIBBON (self) && count <= CHAIN_LINKS_MAX);
  for (; self->made < count; self->made++)
    make_chip (self, &self->chips[self->made]);
  for (int i = 0; i < count; i++)
    show_link (&self->chips[i], &links[i], links[i].cause >= 0, i == 0, choices);
  for (int i = count; i < self->made; i++) {
    gtk_widget_set_visible (self->chips[i].arrow, FALSE);
    gtk_widget_set_visible (self->chips[i].box, FALSE);
  }
  gtk_label_set_text (GTK_LABEL (self->hint), hint ? hint : "");
  gtk_widget_set_visible (self->hint, count == 0);
  gtk_label_set_text (GTK_LABEL (self->after), after ? after : "");
  gtk_widget_set_visible (self->after, after != NULL);
}

char *
effect_ribbon_sentence (const struct chain_link *links, int count, const struct unit_choices *choices)
{
  GString *text = g_string_new (NULL);

  for (int i = 0; i < count; i++) {
    g_autofree char *before = NULL, *after = NULL;
    link_values (&links[i], choices, &before, &after);
    if (i)
      g_string_append (text, "; ");
    /* Translators: name of a value, its value before and after a change. */
    g_string_append_printf (text, _("%s from %s to %s"), link_name (&links[i]), before, after);
  }
  return g_string_free (text, FALSE);
}
