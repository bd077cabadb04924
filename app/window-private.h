/* What the files of the window share. */
#ifndef APP_WINDOW_PRIVATE_H
#define APP_WINDOW_PRIVATE_H

#include "job-store.h"
#include "readings-page.h"
#include "window.h"

struct _Window {
  GtkApplicationWindow parent_instance;
  Preferences *preferences;
  Theme *theme;
  JobStore *store;
  GtkWidget *header, *title, *subtitle, *switcher, *menu, *stack, *cutaway, *readings;
  GtkWidget *recovery, *recovery_text;
  char *recovery_record;       /* path of the record that is offered, or NULL */
  GMenu *recent;
  GtkFileChooserNative *chooser; /* while it is open */
  GtkCssProvider *type;
  double type_scale;
  gboolean closing; /* asked and answered: nothing holds the window */
};

/* window-files.c: actions of jobs and their files. */
void window_add_file_actions (Window *self);
void window_show_file (Window *self);     /* title, mark of unsaved work, what undo and redo may do */
void window_offer_recovery (Window *self);
void window_fill_recent (Window *self);
gboolean window_ask_to_close (Window *self); /* TRUE: stay, a question is open */

#endif
