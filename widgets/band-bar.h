/* A reading held against its band: the band with its limits, the expected value as a dashed line, the reading as a
 * diamond with its guard width. Told by shape and number, never by colour alone. */
#ifndef WIDGETS_BAND_BAR_H
#define WIDGETS_BAND_BAR_H

#include "units.h"

#include <gtk/gtk.h>

#define BAND_BAR_TYPE (band_bar_get_type ())
G_DECLARE_FINAL_TYPE (BandBar, band_bar, PLATELIFT, BAND_BAR, GtkWidget)

#define BAND_BAR_VALUES_MAX 8

struct band_picture {
  gboolean has_band, has_expected;
  double low, high; /* SI; an absent limit is -INFINITY or INFINITY */
  double expected;
  double values[BAND_BAR_VALUES_MAX]; /* one reading, or one a cylinder */
  int names[BAND_BAR_VALUES_MAX];     /* the cylinders' numbers; not used where there is one */
  int count;
  double guard;                       /* SI, to either side of a reading */
  const struct unit *unit;
};

GtkWidget *band_bar_new (void);
void band_bar_show (BandBar *self, const struct band_picture *picture);

#endif
