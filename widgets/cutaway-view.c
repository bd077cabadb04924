#include "cutaway-view.h"

#include "drawn.h"
#include "part-answer.h"
#include "part-target.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define FLOW_SECONDS 4.0    /* that the marks move after a change: under the 5 s after which motion must offer a pause */
#define PHASE_SECONDS 1.2   /* one mark's way to the next */
#define TARGET_MARGIN 6     /* px round a part's box, so that thin parts can be met */
#define CARD_GAP 14         /* px between a part and its card */
#define CARD_WIDTH 300      /* px */

struct _CutawayView {
  GtkWidget parent_instance;
  struct scene scene;
  struct car car;
  struct conditions conditions;
  struct state state;
  struct unit_choices units;
  gboolean ready; /* a state has been shown */

  cairo_surface_t *still; /* the cached parts, at device scale; NULL = to be drawn anew */
  int still_scale;

  GtkWidget *targets[SCENE_PARTS];
  int pointed; /* part whose card is shown, or -1 */
  int last_focused;
  GtkWidget *card, *card_name, *card_purpose, *card_values;

  gboolean motion_allowed, keep_moving;
  guint tick, told_source;
  gint64 last_frame, still_after; /* µs on the frame clock */
};

enum { LAID_OUT, SIGNALS };
static guint signals[SIGNALS];

G_DEFINE_FINAL_TYPE (CutawayView, cutaway_view, GTK_TYPE_WIDGET)

static void
drop_still (CutawayView *self)
{
  g_clear_pointer (&self->still, cairo_surface_destroy);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* ---- motion ---- */

static gboolean
something_flows (CutawayView *self)
{
  return self->ready && self->state.outcome == OUTCOME_SOLVED
         && (self->state.air_flow > 0 || self->state.pump_flow > 0);
}

static gboolean
may_move (CutawayView *self)
{
  gboolean animations = FALSE;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animations, NULL);
  return self->motion_allowed && animations && (self->scene.layers & LAYER_FLOW) && something_flows (self)
         && gtk_widget_get_mapped (GTK_WIDGET (self));
}

static gboolean
frame (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  CutawayView *self = PLATELIFT_CUTAWAY_VIEW (widget);
  gint64 now = gdk_frame_clock_get_frame_time (clock);

  if (!self->still_after)
    self->still_after = now + (gint64) (FLOW_SECONDS * G_USEC_PER_SEC);
  if (!may_move (self) || (!self->keep_moving && now > self->still_after)) {
    self->tick = 0;
    return G_SOURCE_REMOVE;
  }
  if (self->last_frame) {
    double turns = (double) (now - self->last_frame) / (PHASE_SECONDS * G_USEC_PER_SEC);
    self->scene.phase = fmod (self->scene.phase + turns, 1);
  }
  self->last_frame = now;
  gtk_widget_queue_draw (widget);
  return G_SOURCE_CONTINUE;
}

static void
set_moving (CutawayView *self)
{
  self->still_after = 0;
  if (self->tick || !may_move (self))
    return;
  self->last_frame = 0;
  self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), frame, NULL, NULL);
}

static void
stop_moving (CutawayView *self)
{
  if (self->tick)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
}

/* ---- the card of the part that is pointed at ---- */

static GtkWidget *
card_cell (const char *text, double xalign, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), (float) xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css);
  return label;
}

static void
fill_card_values (CutawayView *self)
{
  g_autofree char *values = part_answer_values (&self->scene, (enum scene_part_id) self->pointed);
  g_auto (GStrv) lines = g_strsplit (values, "\n", -1);
  GtkWidget *child;
  int row = 0;

  while ((child = gtk_widget_get_first_child (self->card_values)))
    gtk_grid_remove (GTK_GRID (self->card_values), child);
  for (char **line = lines; *line; line++) {
    g_auto (GStrv) pair = g_strsplit (*line, "\t", 2);
    if (g_strv_length (pair) < 2)
      continue;
    GtkWidget *name = card_cell (pair[0], 0, "soft");
    gtk_widget_set_hexpand (name, TRUE);
    gtk_grid_attach (GTK_GRID (self->card_values), name, 0, row, 1, 1);
    gtk_grid_attach (GTK_GRID (self->card_values), card_cell (pair[1], 1, "card-value"), 1, row++, 1, 1);
  }
}

static void
show_card (CutawayView *self, int part)
{
  self->pointed = part;
  gtk_widget_set_child_visible (self->card, part >= 0);
  if (part >= 0) {
    gtk_label_set_text (GTK_LABEL (self->card_name), gettext (scene_parts[part].name));
    gtk_label_set_text (GTK_LABEL (self->card_purpose), gettext (scene_parts[part].purpose));
    fill_card_values (self);
  }
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
part_pointed (PartTarget *target, gboolean pointed, CutawayView *self)
{
  int part = (int) part_target_part (target);

  if (pointed) {
    if (gtk_widget_is_focus (GTK_WIDGET (target)))
      self->last_focused = part;
    show_card (self, part);
  } else if (self->pointed == part)
    show_card (self, -1);
}

static void
make_card (CutawayView *self)
{
  self->card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->card_name = card_cell (NULL, 0, "card-name");
  self->card_purpose = card_cell (NULL, 0, "card-purpose");
  self->card_values = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->card_values), 12);
  gtk_grid_set_row_spacing (GTK_GRID (self->card_values), 2);
  gtk_box_append (GTK_BOX (self->card), self->card_name);
  gtk_box_append (GTK_BOX (self->card), self->card_purpose);
  gtk_box_append (GTK_BOX (self->card), self->card_values);
  gtk_widget_add_css_class (self->card, "part-card");
  gtk_widget_set_can_target (self->card, FALSE); /* the pointer looks through it at the parts */
  gtk_widget_set_parent (self->card, GTK_WIDGET (self));
  gtk_widget_set_child_visible (self->card, FALSE);
}

/* ---- allocation ---- */

static void
allocate_child (GtkWidget *child, double x, double y, double width, double height)
{
  GskTransform *at = gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) x, (float) y));

  gtk_widget_allocate (child, MAX (1, (int) width), MAX (1, (int) height), -1, at);
}

/* Small parts lie over large ones, whatever the order of the table. */
static void
order_targets (CutawayView *self, const struct scene_box *boxes)
{
  int order[SCENE_PARTS];

  for (int i = 0; i < SCENE_PARTS; i++) {
    int j = i;
    for (; j > 0 && boxes[order[j - 1]].width * boxes[order[j - 1]].height < boxes[i].width * boxes[i].height; j--)
      order[j] = order[j - 1];
    order[j] = i;
  }
  for (int i = 0; i < SCENE_PARTS; i++) {
    GtkWidget *target = self->targets[order[i]];
    GtkWidget *before = i ? self->targets[order[i - 1]] : NULL;
    if (gtk_widget_get_prev_sibling (target) != before)
      gtk_widget_insert_after (target, GTK_WIDGET (self), before);
  }
}

static void
allocate_targets (CutawayView *self)
{
  struct scene_box boxes[SCENE_PARTS];

  for (int i = 0; i < SCENE_PARTS; i++) {
    double x, y;
    scene_part_box (&self->scene, (enum scene_part_id) i, &boxes[i]);
    x = floor (boxes[i].x - TARGET_MARGIN);
    y = floor (boxes[i].y - TARGET_MARGIN);
    gtk_widget_set_child_visible (self->targets[i], TRUE);
    part_target_set_origin (PLATELIFT_PART_TARGET (self->targets[i]), x, y);
    allocate_child (self->targets[i], x, y, boxes[i].width + 2 * TARGET_MARGIN, boxes[i].height + 2 * TARGET_MARGIN);
  }
  order_targets (self, boxes);
}

static void
allocate_card (CutawayView *self, int width, int height)
{
  int card_width, card_height;
  struct scene_box box;
  double x, y;

  gtk_widget_measure (self->card, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &card_width, NULL, NULL);
  card_width = MIN (MAX (card_width, CARD_WIDTH), (int) (CARD_WIDTH * self->scene.type_scale));
  gtk_widget_measure (self->card, GTK_ORIENTATION_VERTICAL, card_width, NULL, &card_height, NULL, NULL);
  scene_part_box (&self->scene, (enum scene_part_id) self->pointed, &box);
  x = box.x + box.width + CARD_GAP;
  if (x + card_width > width)
    x = box.x - CARD_GAP - card_width;
  if (x < 0) /* too wide for either side: the corner that the part leaves free */
    x = box.x + box.width / 2 < width / 2.0 ? width - card_width : 0;
  y = CLAMP (box.y + box.height / 2 - card_height / 2.0, 4, MAX (4, height - card_height - 4));
  allocate_child (self->card, round (x), round (y), card_width, card_height);
}

/* Not from inside the allocation: who listens changes labels. */
static gboolean
tell_laid_out (gpointer data)
{
  CutawayView *self = data;

  self->told_source = 0;
  g_signal_emit (self, signals[LAID_OUT], 0);
  return G_SOURCE_REMOVE;
}

static void
cutaway_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CutawayView *self = PLATELIFT_CUTAWAY_VIEW (widget);

  if (width != self->scene.width || height != self->scene.height)
    g_clear_pointer (&self->still, cairo_surface_destroy);
  self->scene.width = width;
  self->scene.height = height;
  if (!self->ready)
    return;
  if (!self->told_source && !self->still)
    self->told_source = g_idle_add (tell_laid_out, self);
  allocate_targets (self);
  if (self->pointed >= 0)
    allocate_card (self, width, height);
}

static void
cutaway_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                      int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 480 : 240;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 960 : 540;
}

/* ---- drawing ---- */

static void
draw_still (CutawayView *self, int scale)
{
  cairo_t *cr;

  self->still = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) self->scene.width * scale,
                                            (int) self->scene.height * scale);
  cairo_surface_set_device_scale (self->still, scale, scale);
  self->still_scale = scale;
  cr = cairo_create (self->still);
  drawn_colour (cr, GTK_WIDGET (self), "paper");
  cairo_paint (cr);
  scene_draw_still (cr, &self->scene);
  cairo_destroy (cr);
}

static void
draw_pointed (CutawayView *self, cairo_t *cr)
{
  if (self->pointed < 0)
    return;
  cairo_new_path (cr);
  scene_part_outline (cr, &self->scene, (enum scene_part_id) self->pointed);
  drawn_colour (cr, GTK_WIDGET (self), "paper");
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (cr, 5);
  cairo_stroke_preserve (cr);
  drawn_colour (cr, GTK_WIDGET (self), "accent");
  cairo_set_line_width (cr, 2.5);
  cairo_stroke (cr);
}

static void
cutaway_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CutawayView *self = PLATELIFT_CUTAWAY_VIEW (widget);
  int scale = gtk_widget_get_scale_factor (widget);
  cairo_t *cr;

  if (!self->ready || self->scene.width < 1 || self->scene.height < 1)
    return;
  if (self->still && self->still_scale != scale)
    g_clear_pointer (&self->still, cairo_surface_destroy);
  if (!self->still)
    draw_still (self, scale);
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) self->scene.width, (float) self->scene.height));
  cairo_set_source_surface (cr, self->still, 0, 0);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_paint (cr);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
  cairo_save (cr);
  scene_draw_moving (cr, &self->scene);
  cairo_restore (cr);
  draw_pointed (self, cr);
  cairo_destroy (cr);
  if (self->pointed >= 0)
    gtk_widget_snapshot_child (widget, self->card, snapshot);
}

/* ---- focus: one stop for Tab, arrows from part to part ---- */

static gboolean
cutaway_view_focus (GtkWidget *widget, GtkDirectionType direction)
{
  CutawayView *self = PLATELIFT_CUTAWAY_VIEW (widget);
  gboolean inside = gtk_widget_get_focus_child (widget) != NULL;

  if (!self->ready)
    return FALSE;
  if (direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD)
    return inside ? FALSE : gtk_widget_grab_focus (self->targets[self->last_focused]);
  if (!inside)
    return gtk_widget_grab_focus (self->targets[self->last_focused]);
  GTK_WIDGET_CLASS (cutaway_view_parent_class)->focus (widget, direction);
  return TRUE; /* at the edge the focus stays: arrows never leave the drawing */
}

static void
cutaway_view_unmap (GtkWidget *widget)
{
  stop_moving (PLATELIFT_CUTAWAY_VIEW (widget));
  GTK_WIDGET_CLASS (cutaway_view_parent_class)->unmap (widget);
}

static void
cutaway_view_dispose (GObject *object)
{
  CutawayView *self = PLATELIFT_CUTAWAY_VIEW (object);
  GtkWidget *child;

  stop_moving (self);
  g_clear_handle_id (&self->told_source, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  g_clear_pointer (&self->still, cairo_surface_destroy);
  G_OBJECT_CLASS (cutaway_view_parent_class)->dispose (object);
}

static void
cutaway_view_class_init (CutawayViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = cutaway_view_dispose;
  widget_class->measure = cutaway_view_measure;
  widget_class->size_allocate = cutaway_view_size_allocate;
  widget_class->snapshot = cutaway_view_snapshot;
  widget_class->focus = cutaway_view_focus;
  widget_class->unmap = cutaway_view_unmap;
  signals[LAID_OUT]
      = g_signal_new ("laid-out", CUTAWAY_VIEW_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "cutawayview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
cutaway_view_init (CutawayView *self)
{
  self->scene = (struct scene) { .car = &self->car, .conditions = &self->conditions, .state = &self->state,
                                 .units = &self->units, .type_scale = 1,
                                 .layers = LAYER_PRESSURES | LAYER_FLOW | LAYER_LABELS };
  self->pointed = -1;
  self->last_focused = PART_PLATE;
  self->motion_allowed = TRUE;
  for (int i = 0; i < SCENE_PARTS; i++) {
    self->targets[i] = part_target_new (&self->scene, (enum scene_part_id) i);
    gtk_widget_set_child_visible (self->targets[i], FALSE);
    g_signal_connect (self->targets[i], "pointed", G_CALLBACK (part_pointed), self);
    gtk_widget_set_parent (self->targets[i], GTK_WIDGET (self));
  }
  make_card (self);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Cutaway of the metering unit"), -1);
}

GtkWidget *
cutaway_view_new (void)
{
  return g_object_new (CUTAWAY_VIEW_TYPE, NULL);
}

void
cutaway_view_show (CutawayView *self, const struct car *car, const struct conditions *conditions,
                   const struct state *state)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self) && car && conditions && state);
  if (!self->ready || memcmp (&self->car, car, sizeof *car) != 0) {
    self->car = *car;
    drop_still (self);
  }
  self->conditions = *conditions;
  self->state = *state;
  self->ready = TRUE;
  if (self->pointed >= 0)
    fill_card_values (self);
  set_moving (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cutaway_view_set_units (CutawayView *self, const struct unit_choices *choices)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self));
  self->units = *choices;
  if (self->pointed >= 0)
    fill_card_values (self);
  drop_still (self);
}

void
cutaway_view_set_theme (CutawayView *self, enum scene_theme theme)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self));
  self->scene.theme = theme;
  drop_still (self);
}

void
cutaway_view_set_layers (CutawayView *self, unsigned layers)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self));
  if (self->scene.layers == layers)
    return;
  self->scene.layers = layers;
  drop_still (self);
  set_moving (self);
}

void
cutaway_view_set_magnifier (CutawayView *self, double magnifier)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self) && magnifier >= 0);
  self->scene.magnifier = magnifier;
  drop_still (self);
}

void
cutaway_view_set_type_scale (CutawayView *self, double type_scale)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self) && type_scale > 0);
  if (self->scene.type_scale == type_scale)
    return;
  self->scene.type_scale = type_scale;
  drop_still (self);
}

void
cutaway_view_set_motion (CutawayView *self, gboolean allowed, gboolean keep)
{
  g_return_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self));
  self->motion_allowed = allowed;
  self->keep_moving = keep;
  if (!allowed)
    stop_moving (self);
  else if (keep)
    set_moving (self);
}

const struct scene *
cutaway_view_scene (CutawayView *self)
{
  g_return_val_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self), NULL);
  return &self->scene;
}

gboolean
cutaway_view_moving (CutawayView *self)
{
  g_return_val_if_fail (PLATELIFT_IS_CUTAWAY_VIEW (self), FALSE);
  return self->tick != 0;
}
