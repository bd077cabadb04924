/* Words for what a state is: stable ones for machines, sentences for people. */
#ifndef APP_STATE_WORDS_H
#define APP_STATE_WORDS_H

#include "state.h"

struct regime_word {
  unsigned regime;      /* one bit of enum regime */
  const char *key;      /* stable, ASCII */
  const char *sentence; /* marked for translation */
};

extern const struct regime_word regime_words[];
extern const int regime_word_count;

/* Stable ASCII word for an outcome: "solved", "too-much-air"... Static. */
const char *outcome_key (enum outcome outcome);

/* The suffix of a JSON key whose value is in the SI unit of that quantity: "pa", "kg_per_s"; "" for a number without a
 * unit. Static. */
const char *quantity_key_suffix (enum quantity quantity);

#endif
