/* A line that says the present state in words, for eyes and for screen readers: its role makes assistive technology
 * announce each new text. */
#ifndef WIDGETS_STATUS_LINE_H
#define WIDGETS_STATUS_LINE_H

#include <gtk/gtk.h>

#define STATUS_LINE_TYPE (status_line_get_type ())
G_DECLARE_FINAL_TYPE (StatusLine, status_line, PLATELIFT, STATUS_LINE, GtkWidget)

void status_line_say (StatusLine *self, const char *text);
const char *status_line_text (StatusLine *self);

#endif
