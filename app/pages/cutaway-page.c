#include "cutaway-page.h"

#include "cutaway-view.h"
#include "effect-ribbon.h"
#include "mixture-scale.h"
#include "mixture-words.h"
#include "number-text.h"
#include "quantity-scale.h"
#include "status-line.h"

#include <glib/gi18n.h>
#include <math.h>

#define SCREW_TURNS 3.0 /* to either side of where the data leave the screw */
#define PROJECTED 1.3 /* type scale from which the page is laid out for the last row */

/* The inputs in their order on the page. least and most narrow what the model allows to what a car meets; 0, 0 leaves
 * the model's own limits. */
static const struct page_input {
  const char *key;
  const char *unit;  /* one that the choices do not change, or NULL */
  double power;      /* of the slider */
  double least, most, step;
  gboolean more;     /* behind the disclosure */
  double marks[8];
  int mark_count;
} page_inputs[] = {
  { "air", NULL, 2, 0, 0, 0.5 / 3600, FALSE, { 0 }, 0 },
  { "coolant", NULL, 1, -30, 120, 1, FALSE, { -20, 20, 50, 80, 110 }, 5 },
  { "minutes", "min", 1, 0, 600, 6, FALSE, { 0, 120, 300, 600 }, 4 },
  { "vacuum", NULL, 1, 0, 80000, 500, FALSE, { 0, 20000, 40000, 60000, 80000 }, 5 },
  { "ambient", NULL, 1, -30, 50, 1, TRUE, { 0 }, 0 },
  { "fuel", NULL, 1, -30, 60, 1, TRUE, { 0 }, 0 },
  { "altitude", "m", 1, 0, 3000, 50, TRUE, { 0 }, 0 },
  { "humidity", "%", 1, 0, 1, 0.05, TRUE, { 0 }, 0 },
  { "voltage", NULL, 1, 6, 15, 0.1, TRUE, { 0 }, 0 },
};

struct _CutawayPage {
  GtkWidget parent_instance;
  OperatingPoint *point;
  struct unit_choices choices;
  gboolean reduced_motion;
  gboolean setting; /* the sliders are being set by the program */

  GtkWidget *bar, *car, *back, *magnifier, *layers, *view, *ribbon, *block, *inputs, *more, *more_button, *mixture;
  GtkWidget *lambda, *lambda_name, *ratio, *words, *scale, *ends, *rich, *lean, *status;
  GtkWidget *scales[G_N_ELEMENTS (page_inputs)];
  GtkWidget *screw;
  GSimpleActionGroup *actions;
};

G_DEFINE_FINAL_TYPE (CutawayPage, cutaway_page, GTK_TYPE_WIDGET)

static const struct {
  const char *action;
  unsigned layer;
  gboolean shown; /* at the start */
} layer_actions[] = {
  { "layer-pressures", LAYER_PRESSURES, TRUE },   { "layer-flow", LAYER_FLOW, TRUE },
  { "layer-labels", LAYER_LABELS, TRUE },         { "layer-forces", LAYER_FORCES, FALSE },
  { "layer-dimensions", LAYER_DIMENSIONS, TRUE },
};

/* ---- what is shown ---- */

static void
show_magnifier (CutawayPage *self)
{
  double factor = 1;
  g_autofree char *number = NULL, *label = NULL;

  if (cutaway_view_scene (PLATELIFT_CUTAWAY_VIEW (self->view))->width > 0)
    factor = scene_movement_factor (cutaway_view_scene (PLATELIFT_CUTAWAY_VIEW (self->view)));
  number = number_shown (factor, factor == floor (factor) ? 0 : 1);
  /* Translators: by how much the drawing exaggerates small movements. */
  label = g_strdup_printf (_("_Movement × %s"), number);
  if (g_strcmp0 (gtk_menu_button_get_label (GTK_MENU_BUTTON (self->magnifier)), label) == 0)
    return;
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->magnifier), label);
  gtk_menu_button_set_use_underline (GTK_MENU_BUTTON (self->magnifier), TRUE);
}

static void
show_mixture (CutawayPage *self)
{
  const struct state *state = operating_point_state (self->point);
  const struct car *car = operating_point_car (self->point);
  gboolean defined = mixture_defined (state);
  struct mixture mixture = { defined ? state->lambda : 0, state->stoichiometric, car->engine.lambda_rich,
                             car->engine.lambda_lean };
  g_autofree char *lambda = defined ? number_shown (state->lambda, 3) : g_strdup ("–");
  g_autofree char *ratio = number_shown (state->air_fuel_ratio, 1);
  /* Translators: kilograms of air for one kilogram of fuel. */
  g_autofree char *ratio_text = defined ? g_strdup_printf (_("air/fuel %s : 1"), ratio) : g_strdup (_("air/fuel –"));
  g_autofree char *words = mixture_words (car, state);

  gtk_label_set_text (GTK_LABEL (self->lambda), lambda);
  gtk_label_set_text (GTK_LABEL (self->ratio), ratio_text);
  gtk_label_set_text (GTK_LABEL (self->words), words);
  gtk_widget_set_tooltip_text (self->words, words);
  mixture_scale_show (PLATELIFT_MIXTURE_SCALE (self->scale), &mixture);
}

static void
show_chain (CutawayPage *self)
{
  struct chain_link links[CHAIN_LINKS_MAX];
  int count = operating_point_chain (self->point, links);
  gboolean moves_nothing = count > 0;

  for (int i = 0; i < count; i++)
    if (links[i].kind != CHAIN_CONDITION)
      moves_nothing = FALSE;
  effect_ribbon_show (PLATELIFT_EFFECT_RIBBON (self->ribbon), links, count, &self->choices,
                      _("Move a control: what it changes, and what that moves, is told here link by link."),
                      moves_nothing ? _("moves nothing on the way to the mixture") : NULL);
}

static void
show_inputs (CutawayPage *self)
{
  self->setting = TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (page_inputs); i++) {
    const struct condition *condition = condition_find (page_inputs[i].key);
    QuantityScale *scale = PLATELIFT_QUANTITY_SCALE (self->scales[i]);
    double value = operating_point_get (self->point, condition);
    if (quantity_scale_get_value (scale) != value)
      quantity_scale_set_value (scale, value);
  }
  if (quantity_scale_get_value (PLATELIFT_QUANTITY_SCALE (self->screw)) != operating_point_get_screw (self->point))
    quantity_scale_set_value (PLATELIFT_QUANTITY_SCALE (self->screw), operating_point_get_screw (self->point));
  self->setting = FALSE;
}

static void
show_all (CutawayPage *self)
{
  GAction *back = g_action_map_lookup_action (G_ACTION_MAP (self->actions), "back-to-start");

  cutaway_view_show (PLATELIFT_CUTAWAY_VIEW (self->view), operating_point_car (self->point),
                     operating_point_conditions (self->point), operating_point_state (self->point));
  show_inputs (self);
  show_mixture (self);
  show_chain (self);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (back), !operating_point_at_start (self->point));
}

/* Once the state has settled it is said in words: announcing every frame would drown a screen reader. */
static void
say_state (CutawayPage *self)
{
  g_autofree char *sentence
      = state_sentence (operating_point_car (self->point), operating_point_conditions (self->point),
                        operating_point_state (self->point), &self->choices);
  struct chain_link links[CHAIN_LINKS_MAX];
  int count = operating_point_chain (self->point, links);
  g_autofree char *chain = effect_ribbon_sentence (links, count, &self->choices);

  status_line_say (PLATELIFT_STATUS_LINE (self->status), sentence);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->ribbon), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, chain, -1);
  show_magnifier (self);
}

/* ---- inputs ---- */

static void
input_moved (QuantityScale *scale, CutawayPage *self)
{
  if (self->setting)
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (page_inputs); i++)
    if (self->scales[i] == GTK_WIDGET (scale))
      operating_point_set (self->point, condition_find (page_inputs[i].key), quantity_scale_get_value (scale));
}

static void
screw_moved (QuantityScale *scale, CutawayPage *self)
{
  if (!self->setting)
    operating_point_set_screw (self->point, quantity_scale_get_value (scale));
}

static void
set_ranges (CutawayPage *self)
{
  const struct car *car = &operating_point_vehicle (self->point)->car;

  self->setting = TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (page_inputs); i++) {
    const struct page_input *input = &page_inputs[i];
    QuantityScale *scale = PLATELIFT_QUANTITY_SCALE (self->scales[i]);
    if (g_str_equal (input->key, "air")) {
      double marks[] = { 0, car->engine.idle_air, 0.2 * car->engine.full_air, 0.5 * car->engine.full_air,
                         car->engine.full_air };
      quantity_scale_set_range (scale, 0, car->engine.full_air, input->step);
      quantity_scale_set_marks (scale, marks, G_N_ELEMENTS (marks));
    } else {
      quantity_scale_set_range (scale, input->least, input->most, input->step);
      quantity_scale_set_marks (scale, input->marks, input->mark_count);
    }
  }
  quantity_scale_set_range (PLATELIFT_QUANTITY_SCALE (self->screw), -SCREW_TURNS, SCREW_TURNS, 0.125);
  self->setting = FALSE;
}

static void
make_inputs (CutawayPage *self)
{
  g_autoptr (GtkSizeGroup) entries = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  GtkWidget *pair = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (page_inputs); i++) {
    const struct page_input *input = &page_inputs[i];
    const struct condition *condition = condition_find (input->key);
    GtkWidget *scale = quantity_scale_new (gettext (condition->name), condition->quantity, input->power, input->more);
    if (input->unit)
      quantity_scale_set_unit (PLATELIFT_QUANTITY_SCALE (scale), unit_find (input->unit, condition->quantity));
    g_signal_connect (scale, "moved", G_CALLBACK (input_moved), self);
    self->scales[i] = scale;
    if (!input->more)
      gtk_size_group_add_widget (entries, quantity_scale_get_entry (PLATELIFT_QUANTITY_SCALE (scale)));
    if (g_str_equal (input->key, "coolant")) { /* the heater's time beside the block's temperature: both warm the strip */
      pair = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
      gtk_box_set_homogeneous (GTK_BOX (pair), TRUE);
      gtk_box_append (GTK_BOX (self->inputs), pair);
    }
    if (g_str_equal (input->key, "coolant") || g_str_equal (input->key, "minutes"))
      gtk_box_append (GTK_BOX (pair), scale);
    else
      gtk_box_append (GTK_BOX (input->more ? self->more : self->inputs), scale);
  }
  self->screw = quantity_scale_new (_("Screw, turns richer"), QUANTITY_NUMBER, 1, TRUE);
  g_signal_connect (self->screw, "moved", G_CALLBACK (screw_moved), self);
  gtk_box_append (GTK_BOX (self->more), self->screw);
}

/* ---- the car ---- */

static void
car_chosen (GtkDropDown *car, GParamSpec *pspec, CutawayPage *self)
{
  guint selected = gtk_drop_down_get_selected (car);
  const char *const *names = vehicle_shipped ();
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = NULL;

  if (selected == GTK_INVALID_LIST_POSITION)
    return;
  vehicle = vehicle_load (names[selected], problems);
  if (!vehicle) {
    g_autofree char *text = problems_text (problems, names[selected]);
    status_line_say (PLATELIFT_STATUS_LINE (self->status), text);
    return;
  }
  operating_point_set_vehicle (self->point, vehicle);
  set_ranges (self);
  show_all (self);
}

static void
fill_cars (CutawayPage *self)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);

  for (const char *const *name = vehicle_shipped (); *name; name++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autofree struct vehicle *vehicle = vehicle_load (*name, problems);
    gtk_string_list_append (list, vehicle ? vehicle->name : *name);
  }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->car), G_LIST_MODEL (list));
  g_signal_connect (self->car, "notify::selected", G_CALLBACK (car_chosen), self);
  car_chosen (GTK_DROP_DOWN (self->car), NULL, self);
}

/* ---- actions ---- */

static void
back_to_start (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  operating_point_back_to_start (PLATELIFT_CUTAWAY_PAGE (data)->point);
}

static void
show_layers (CutawayPage *self)
{
  unsigned layers = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (layer_actions); i++) {
    g_autoptr (GVariant) state
        = g_action_group_get_action_state (G_ACTION_GROUP (self->actions), layer_actions[i].action);
    if (g_variant_get_boolean (state))
      layers |= layer_actions[i].layer;
  }
  cutaway_view_set_layers (PLATELIFT_CUTAWAY_VIEW (self->view), layers);
}

static void
layer_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  g_simple_action_set_state (action, state);
  show_layers (data);
}

static void
set_motion (CutawayPage *self)
{
  g_autoptr (GVariant) keep = g_action_group_get_action_state (G_ACTION_GROUP (self->actions), "keep-moving");

  cutaway_view_set_motion (PLATELIFT_CUTAWAY_VIEW (self->view), !self->reduced_motion, g_variant_get_boolean (keep));
}

static void
keep_moving_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  g_simple_action_set_state (action, state);
  set_motion (data);
}

static void
magnifier_changed (GSimpleAction *action, GVariant *state, gpointer data)
{
  CutawayPage *self = data;

  g_simple_action_set_state (action, state);
  cutaway_view_set_magnifier (PLATELIFT_CUTAWAY_VIEW (self->view), g_ascii_strtod (g_variant_get_string (state, NULL), NULL));
  show_magnifier (self);
}

static void
add_toggle (CutawayPage *self, const char *name, gboolean on, GCallback changed)
{
  g_autoptr (GSimpleAction) action = g_simple_action_new_stateful (name, NULL, g_variant_new_boolean (on));

  g_signal_connect (action, "change-state", changed, self);
  g_action_map_add_action (G_ACTION_MAP (self->actions), G_ACTION (action));
}

static void
make_actions (CutawayPage *self)
{
  const GActionEntry entries[] = {
    { .name = "back-to-start", .activate = back_to_start },
    { .name = "magnifier", .parameter_type = "s", .state = "'0'", .change_state = magnifier_changed },
  };

  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  for (gsize i = 0; i < G_N_ELEMENTS (layer_actions); i++)
    add_toggle (self, layer_actions[i].action, layer_actions[i].shown, G_CALLBACK (layer_changed));
  add_toggle (self, "keep-moving", FALSE, G_CALLBACK (keep_moving_changed));
  gtk_widget_insert_action_group (GTK_WIDGET (self), "cutaway", G_ACTION_GROUP (self->actions));
}

/* A key is released or the pointer let go: the person's gesture is over. Releasing says nothing while a slider's key is
 * merely repeated, as only real releases arrive. */
static void
gesture_ended (CutawayPage *self)
{
  operating_point_end_gesture (self->point);
}

static void
watch_gestures (CutawayPage *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (gesture_ended), self);
  gtk_widget_add_controller (self->inputs, GTK_EVENT_CONTROLLER (click));
}

static void
cutaway_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cutaway_page_parent_class)->map (widget);
  say_state (PLATELIFT_CUTAWAY_PAGE (widget));
}

static void
cutaway_page_dispose (GObject *object)
{
  CutawayPage *self = PLATELIFT_CUTAWAY_PAGE (object);
  GtkWidget *child;

  if (self->point)
    g_signal_handlers_disconnect_by_data (self->point, self);
  g_clear_object (&self->point);
  g_clear_object (&self->actions);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (cutaway_page_parent_class)->dispose (object);
}

static void
cutaway_page_class_init (CutawayPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = cutaway_page_dispose;
  widget_class->map = cutaway_page_map;
  g_type_ensure (CUTAWAY_VIEW_TYPE);
  g_type_ensure (EFFECT_RIBBON_TYPE);
  g_type_ensure (MIXTURE_SCALE_TYPE);
  g_type_ensure (STATUS_LINE_TYPE);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/platelift/Platelift/cutaway-page.ui");
  gtk_widget_class_set_css_name (widget_class, "cutawaypage");
#define BIND(child) gtk_widget_class_bind_template_child (widget_class, CutawayPage, child)
  BIND (bar);
  BIND (car);
  BIND (back);
  BIND (magnifier);
  BIND (layers);
  BIND (view);
  BIND (ribbon);
  BIND (block);
  BIND (inputs);
  BIND (more);
  BIND (more_button);
  BIND (mixture);
  BIND (lambda);
  BIND (lambda_name);
  BIND (ratio);
  BIND (words);
  BIND (scale);
  BIND (ends);
  BIND (rich);
  BIND (lean);
  BIND (status);
#undef BIND
  /* In the bubble phase, so that an entry keeps its own Backspace. */
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_BackSpace, 0, "cutaway.back-to-start", NULL);
}

static void
cutaway_page_init (CutawayPage *self)
{
  self->point = operating_point_new ();
  make_actions (self);
  gtk_widget_init_template (GTK_WIDGET (self));
  make_inputs (self);
  gtk_widget_set_direction (self->ends, GTK_TEXT_DIR_LTR); /* the scale's numbers run from rich to lean in every script */
  watch_gestures (self);
  show_layers (self);
  g_signal_connect_swapped (self->point, "changed", G_CALLBACK (show_all), self);
  g_signal_connect_swapped (self->point, "settled", G_CALLBACK (say_state), self);
  g_signal_connect_swapped (self->view, "laid-out", G_CALLBACK (show_magnifier), self);
  fill_cars (self);
}

void
cutaway_page_set_units (CutawayPage *self, const struct unit_choices *choices)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_PAGE (self));
  self->choices = *choices;
  for (gsize i = 0; i < G_N_ELEMENTS (page_inputs); i++)
    quantity_scale_set_units (PLATELIFT_QUANTITY_SCALE (self->scales[i]), choices);
  cutaway_view_set_units (PLATELIFT_CUTAWAY_VIEW (self->view), choices);
  show_chain (self);
  say_state (self);
}

void
cutaway_page_set_theme (CutawayPage *self, enum scene_theme theme)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_PAGE (self));
  cutaway_view_set_theme (PLATELIFT_CUTAWAY_VIEW (self->view), theme);
}

void
cutaway_page_set_type_scale (CutawayPage *self, double type_scale)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_PAGE (self));
  cutaway_view_set_type_scale (PLATELIFT_CUTAWAY_VIEW (self->view), type_scale);
  if (type_scale > PROJECTED)
    gtk_widget_add_css_class (GTK_WIDGET (self), "projected");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "projected");
}

void
cutaway_page_set_reduced_motion (CutawayPage *self, gboolean reduced)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_PAGE (self));
  self->reduced_motion = reduced;
  set_motion (self);
}

OperatingPoint *
cutaway_page_point (CutawayPage *self)
{
  g_return_val_if_fail (PLATELIFT_IS_CUTAWAY_PAGE (self), NULL);
  return self->point;
}
