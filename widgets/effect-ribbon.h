/* The chain of effects in a row: what was changed, and what that moved, each with its value before and after. */
#ifndef WIDGETS_EFFECT_RIBBON_H
#define WIDGETS_EFFECT_RIBBON_H

#include "chain.h"
#include "units.h"

#include <gtk/gtk.h>

#define EFFECT_RIBBON_TYPE (effect_ribbon_get_type ())
G_DECLARE_FINAL_TYPE (EffectRibbon, effect_ribbon, PLATELIFT, EFFECT_RIBBON, GtkWidget)

GtkWidget *effect_ribbon_new (void);

/* Shows the links in their order. Where there are none, hint (translated) stands instead. after is what follows the last
 * link in words, or NULL. */
void effect_ribbon_show (EffectRibbon *self, const struct chain_link *links, int count,
                         const struct unit_choices *choices, const char *hint, const char *after);

/* The chain as a sentence for a screen reader. Caller frees. */
char *effect_ribbon_sentence (const struct chain_link *links, int count, const struct unit_choices *choices);

#endif
