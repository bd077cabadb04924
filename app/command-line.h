/* What the program is asked on the command line, checked to the last value before anything is done. */
#ifndef APP_COMMAND_LINE_H
#define APP_COMMAND_LINE_H

#include "conditions.h"

#include <glib.h>

/* What is asked for; COMMAND_WINDOW when nothing without a window is. */
enum command {
  COMMAND_WINDOW,
  COMMAND_HELP,
  COMMAND_VERSION,
  COMMAND_LIST_CARS,
  COMMAND_LIST_FAULTS,
  COMMAND_MIXTURE, /* also with picture alone */
  COMMAND_CHECK
};

struct command_line {
  enum command command;
  gboolean report;   /* the mixture is printed, not only drawn */
  gboolean json;
  gboolean all;
  char *car;         /* NULL: not given. File names are in the file system's encoding. */
  char *picture;
  char *check;
  struct conditions conditions; /* usual where not given */
  GArray *faults;    /* of struct fault_dose: put into the car before it is solved */
  char **files;      /* for the window; NULL-terminated */
  char *help;        /* the help text, translated */
};

/* Reads argv; on FALSE error holds a sentence that begins with the option meant. */
gboolean command_line_read (int argc, char **argv, struct command_line *line, GError **error);
void command_line_clear (struct command_line *line);

/* Every condition that the command line and the reports speak of: its unit there and its JSON key. In the order of
 * condition_table; NULL for a condition that has none (a test holds that there is one for every row). */
struct condition_words {
  const char *key;         /* of struct condition */
  const char *unit_symbol; /* of documents/units.h */
  const char *json_key;
  const char *argument;    /* how the help names the value */
};
extern const struct condition_words condition_words[];
extern const int condition_words_count;
const struct condition_words *condition_words_find (const char *key);

/* The condition's value in that unit with as few decimals as it needs (at most three), and the unit. Caller frees. */
char *condition_shown (const struct condition *condition, double si);

#endif
