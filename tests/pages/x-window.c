#include "x-window.h"

#include <gdk/x11/gdkx.h>

unsigned long
x_window (GdkSurface *surface)
{
  return gdk_x11_surface_get_xid (surface);
}
