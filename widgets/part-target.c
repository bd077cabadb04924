#include "part-target.h"

#include "part-answer.h"

#include <glib/gi18n.h>

#define REACH 5.0 /* px that the pointer may be beside a thin part */

struct _PartTarget {
  GtkWidget parent_instance;
  const struct scene *scene;
  enum scene_part_id part;
  double x, y;
  gboolean hovered, focused;
};

enum { POINTED, SIGNALS };
static guint signals[SIGNALS];

G_DEFINE_FINAL_TYPE (PartTarget, part_target, GTK_TYPE_WIDGET)

/* A surface to measure paths on; nothing is ever drawn on it. */
static cairo_t *
measuring_context (void)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  return cr;
}

static gboolean
part_target_contains (GtkWidget *widget, double x, double y)
{
  PartTarget *self = PLATELIFT_PART_TARGET (widget);
  cairo_t *cr = measuring_context ();
  gboolean hit;

  scene_part_outline (cr, self->scene, self->part);
  cairo_set_line_width (cr, 2 * REACH);
  hit = cairo_in_fill (cr, x + self->x, y + self->y) || cairo_in_stroke (cr, x + self->x, y + self->y);
  cairo_destroy (cr);
  return hit;
}

static void
say_pointed (PartTarget *self, gboolean before)
{
  gboolean now = self->hovered || self->focused;

  if (now == before)
    return;
  if (now) {
    g_autofree char *sentence = part_answer_sentence (self->scene, self->part);
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  }
  g_signal_emit (self, signals[POINTED], 0, now);
}

static void
entered (PartTarget *self)
{
  gboolean before = self->hovered || self->focused;
  self->hovered = TRUE;
  say_pointed (self, before);
}

static void
left (PartTarget *self)
{
  gboolean before = self->hovered || self->focused;
  self->hovered = FALSE;
  say_pointed (self, before);
}

static void
focus_changed (GtkEventControllerFocus *focus, GParamSpec *pspec, PartTarget *self)
{
  gboolean before = self->hovered || self->focused;
  self->focused = gtk_event_controller_focus_is_focus (focus);
  say_pointed (self, before);
}

static void
pressed (PartTarget *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
part_target_class_init (PartTargetClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->contains = part_target_contains;
  gtk_widget_class_set_css_name (widget_class, "parttarget");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  signals[POINTED] = g_signal_new ("pointed", PART_TARGET_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                   G_TYPE_BOOLEAN);
}

static void
part_target_init (PartTarget *self)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  g_signal_connect_swapped (motion, "enter", G_CALLBACK (entered), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (left), self);
  g_signal_connect (focus, "notify::is-focus", G_CALLBACK (focus_changed), self);
  g_signal_connect_swapped (click, "pressed", G_CALLBACK (pressed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
}

GtkWidget *
part_target_new (const struct scene *scene, enum scene_part_id part)
{
  PartTarget *self = g_object_new (PART_TARGET_TYPE, NULL);

  self->scene = scene;
  self->part = part;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, gettext (scene_parts[part].name),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, gettext (scene_parts[part].purpose), -1);
  return GTK_WIDGET (self);
}

enum scene_part_id
part_target_part (PartTarget *self)
{
  g_return_val_if_fail (PLATELIFT_IS_PART_TARGET (self), PART_FUNNEL);
  return self->part;
}

void
part_target_set_origin (PartTarget *self, double x, double y)
{
  g_return_if_fail (PLATELIFT_IS_PART_TARGET (self));
  self->x = x;
  self->y = y;
}
