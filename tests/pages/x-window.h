/* The X window behind a surface. In a file of its own, as X11's header has a type of the same name as our window's. */
#ifndef TESTS_PAGES_X_WINDOW_H
#define TESTS_PAGES_X_WINDOW_H

#include <gdk/gdk.h>

unsigned long x_window (GdkSurface *surface);

#endif
