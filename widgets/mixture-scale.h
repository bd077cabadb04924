/* The mixture on its scale: lambda and air/fuel ratio from rich to lean, the car's usable window drawn in, a pointer at
 * the present value. */
#ifndef WIDGETS_MIXTURE_SCALE_H
#define WIDGETS_MIXTURE_SCALE_H

#include <gtk/gtk.h>

#define MIXTURE_SCALE_TYPE (mixture_scale_get_type ())
G_DECLARE_FINAL_TYPE (MixtureScale, mixture_scale, PLATELIFT, MIXTURE_SCALE, GtkWidget)

struct mixture {
  double lambda;         /* 0 where it is not defined */
  double stoichiometric; /* air/fuel ratio at lambda 1 */
  double rich, lean;     /* ends of the usable window */
};

GtkWidget *mixture_scale_new (void);
void mixture_scale_show (MixtureScale *self, const struct mixture *mixture);

#endif
