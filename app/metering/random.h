/* Random numbers that are the same everywhere: PCG-XSH-RR 64/32 (O'Neill 2014, HMC-CS-2014-0905). One seed gives 2^63
 * streams that do not overlap in use: each thing to be drawn has a stream of its own, so that drawing one more leaves the
 * others as they were. */
#ifndef METERING_RANDOM_H
#define METERING_RANDOM_H

#include <stdint.h>

struct random_stream {
  uint64_t state, increment;
};

void random_start (struct random_stream *stream, uint64_t seed, uint64_t sequence);

/* A sequence's number from a name (FNV-1a, 64 bits). */
uint64_t random_sequence (const char *name);

uint32_t random_bits (struct random_stream *stream);

/* In (0, 1), neither end: 53 bits of two draws. */
double random_uniform (struct random_stream *stream);

/* Standard normal (Box and Muller 1958): two uniform numbers each, whatever the value. */
double random_normal (struct random_stream *stream);

#endif
