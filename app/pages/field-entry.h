/* One typed number of the job: an entry wired to a field of the store, with the message that stays beside text that is
 * no number. */
#ifndef PAGES_FIELD_ENTRY_H
#define PAGES_FIELD_ENTRY_H

#include "job-store.h"
#include "measure-entry.h"

#define FIELD_ENTRY_TYPE (field_entry_get_type ())
G_DECLARE_FINAL_TYPE (FieldEntry, field_entry, PLATELIFT, FIELD_ENTRY, GtkWidget)

/* label is the accessible name; width in characters. The store is referenced. */
GtkWidget *field_entry_new (JobStore *store, int reading, int field, const char *label, int width);
void field_entry_set_reading (FieldEntry *self, int reading);
#define GONE (-2) /* in place of an index: the reading is no more, and what the focus says on leaving has no place to go */

/* Shows what the store holds, except while the person is typing here; force shows it even then (after undo). hint stands
 * in the empty field, or NULL for the unit alone. */
void field_entry_show (FieldEntry *self, const struct unit_choices *choices, const char *hint, gboolean force);

/* The unit meant where none is typed. */
const struct unit *field_unit (const struct draft_job *draft, int reading, int field,
                               const struct unit_choices *choices);

GtkWidget *field_entry_get_entry (FieldEntry *self);

#endif
