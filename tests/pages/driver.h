/* Drives the real window with real X events (xdotool) from inside the process, so that a test can also look at what is
 * shown. Every wait is for a condition; a wait that lasts too long fails the test with what it waited for. */
#ifndef TESTS_PAGES_DRIVER_H
#define TESTS_PAGES_DRIVER_H

#include "application.h"
#include "window.h"

#include <gtk/gtk.h>

/* Puts HOME and its folders into a fresh temporary place, starts the application, shows its window at width x height and
 * waits for its first frame; once a process. driver_stop destroys the window and proves that nothing holds it. The
 * folders can be made before, to put something into them; driver_forget removes them. */
void driver_make_home (void);
void driver_await_manager (void); /* driver_start does; before another program's window is started */
Window *driver_start (int width, int height);
void driver_stop (void);
void driver_forget (void);
const char *driver_home (void);
void driver_resize (int width, int height);

#define wait_until(condition) \
  G_STMT_START { \
    gint64 driver_end_ = g_get_monotonic_time () + 15 * G_USEC_PER_SEC; \
    while (!(condition)) { \
      if (g_get_monotonic_time () > driver_end_) \
        g_error ("%s:%d: waited in vain for: %s", __FILE__, __LINE__, #condition); \
      driver_turn (); \
    } \
  } G_STMT_END

/* One turn of the main loop, some milliseconds at most. */
void driver_turn (void);
/* Until the program has drawn what is due and nothing more waits. */
void driver_settle (void);

/* Real events. across and down are shares of the widget. */
void driver_move_to (GtkWidget *widget, double across, double down);
void driver_click (GtkWidget *widget);
void driver_drag (GtkWidget *widget, double from, double to);
void driver_key (const char *keys);   /* "ctrl+z", "Return" */
void driver_type (const char *text);
/* Clicks into the entry, replaces its text and presses Enter. */
void driver_fill (GtkWidget *entry, const char *text);

/* The first widget below root, itself included, of that buildable name or of that type; NULL where there is none. */
GtkWidget *driver_named (GtkWidget *root, const char *name);
GtkWidget *driver_typed (GtkWidget *root, GType type, int number);
/* The open window of that type name, or NULL. */
GtkWidget *driver_window (const char *type_name);
/* The text of all visible labels below root, a line each. Caller frees. */
char *driver_text (GtkWidget *root);

/* Runs the program without its window and gives its standard output; argv without the program, NULL-terminated. The
 * status in status where that is not NULL. Caller frees. */
char *driver_program (const char *const *argv, int *status);

/* Frames that the window has painted so far. */
unsigned driver_frames (void);
/* A picture of the window's content. */
void driver_picture (const char *path);

#endif
