/* Which reading to take next: expected information about the fault set, in bits, by minute of work. */
#ifndef DIAGNOSIS_NEXT_READING_H
#define DIAGNOSIS_NEXT_READING_H

#include "posterior.h"
#include "repair-order.h"

#define CANDIDATES_MAX PROCEDURES_MAX

/* What has to be set up, and stays for further readings (bits). */
enum setup {
  SETUP_BRIDGE = 1,        /* pump relay bridged */
  SETUP_GAUGE = 2,         /* gauge and tap in the control line, bled */
  SETUP_RETURN_GLASS = 4,  /* return line into the measuring glass */
  SETUP_PLATE_OPEN = 8,    /* air duct off the plate */
  SETUP_GRADUATES = 16,    /* nozzles out and in graduates */
  SETUP_HEATED = 32,       /* heater has been on: the regulator is no longer cold */
  SETUPS = 6
};

/* Work that a reading takes; minutes are judged, common practice, no source. */
struct effort {
  double minutes;    /* of the reading alone */
  unsigned setups;   /* bits of enum setup that it needs */
  bool needs_cold;   /* a night's soak */
};

extern const double setup_minutes[SETUPS]; /* by the bit's position */
const char *setup_name (enum setup setup);  /* marked for translation; one bit */
const struct effort *reading_effort (enum reading_id id);

/* As things stand in the workshop. */
struct situation {
  unsigned setups;   /* done */
  bool engine_cold;  /* soaked over night and not run since */
  unsigned cleared;  /* bits of enum hazard whose precautions are in place */
};

struct advised {
  int candidate;         /* the caller's number of it */
  double bits;           /* expected information about the fault set */
  double minutes;        /* with what has still to be set up */
  double minutes_saved;  /* expected minutes of repair that it saves, its own minutes not taken off */
  unsigned held_back;    /* hazards whose precautions are not in place: not to be taken */
  bool too_late;         /* needs a cold engine that is there no longer */
  bool perishes;         /* possible now, not after a reading that warms: taken first where it tells anything */
};

enum stop {
  STOP_NOT_YET,          /* the first in the list is worth taking */
  STOP_SURE,             /* the leading set is above 0.90 */
  STOP_SAME_REPAIR,      /* all that remain share one repair */
  STOP_NOT_WORTH,        /* no reading saves as many minutes of repair as it takes, or tells 0.02 bit */
  STOP_HELD_BACK,        /* what is left may not be taken as things stand */
  STOP_NONE_LEFT         /* no candidates */
};
const char *stop_text (enum stop stop); /* a sentence, marked for translation */

struct advice {
  int count;
  struct advised reading[CANDIDATES_MAX]; /* best first; those held back or too late last */
  enum stop stop;
  double expected_minutes; /* of repair, in the order of repairs, with what is known now */
};

/* Minutes of the repair of a fault; judged by its system, common practice, no source. */
double repair_minutes (const struct fault *fault);

/* Repairs by p/c: one entry for every fault of a probability of at least 0.001 (what = index in the signatures' causes
 * of its likeliest place); at most `most`. The number of them. */
int posterior_repairs (const struct posterior *posterior, struct repair *repairs, int most);

/* False where keep_going stopped it or memory was short. Candidates' procedures must have been added to the posterior's
 * signatures; their values are not looked at. */
bool next_reading (struct posterior *posterior, const struct observation *candidates, int count,
                   const struct situation *situation, keep_going go, void *data, struct advice *advice);

/* Expected information in bits of a value whose density under hypothesis i is normal, about the class of i:
 * a grid of at least 41 points. Weights sum to 1; classes are numbered from 0. wrong and its wide normal are mixed in. */
struct outlook {
  double weight, mean, variance;
  int class;
};
double outlook_information (const struct outlook *outlook, int count, int classes, double wrong, double wide_mean,
                            double wide_variance);

#endif
