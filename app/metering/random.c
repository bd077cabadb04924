#include "random.h"

#include <math.h>

#define MULTIPLIER 6364136223846793005u /* of the generator's definition */
#define FNV_BASIS 14695981039346656037u
#define FNV_PRIME 1099511628211u
#define TWO_PI 6.28318530717958647692

void
random_start (struct random_stream *stream, uint64_t seed, uint64_t sequence)
{
  stream->state = 0;
  stream->increment = sequence << 1 | 1;
  random_bits (stream);
  stream->state += seed;
  random_bits (stream);
}

uint64_t
random_sequence (const char *name)
{
  uint64_t hash = FNV_BASIS;

  for (; *name; name++)
    hash = (hash ^ (unsigned char) *name) * FNV_PRIME;
  return hash;
}

uint32_t
random_bits (struct random_stream *stream)
{
  uint64_t old = stream->state;
  uint32_t shifted = (uint32_t) ((old >> 18 ^ old) >> 27);
  unsigned turn = (unsigned) (old >> 59);

  stream->state = old * MULTIPLIER + stream->increment;
  return shifted >> turn | shifted << (-turn & 31);
}

double
random_uniform (struct random_stream *stream)
{
  uint64_t high = random_bits (stream), low = random_bits (stream);

  return ((double) ((high << 32 | low) >> 11) + 0.5) * 0x1p-53;
}

double
random_normal (struct random_stream *stream)
{
  double radius = sqrt (-2 * log (random_uniform (stream)));

  return radius * cos (TWO_PI * random_uniform (stream));
}
