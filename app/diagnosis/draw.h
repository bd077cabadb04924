/* Random numbers by counter: the same seed and number give the same value in any order, on any thread. */
#ifndef DIAGNOSIS_DRAW_H
#define DIAGNOSIS_DRAW_H

#include <math.h>
#include <stdint.h>

/* SplitMix64 (Steele, Lea and Flood 2014), its constants from memory. */
static inline uint64_t
draw_bits (uint64_t seed, uint64_t number)
{
  uint64_t z = seed * 0xd1342543de82ef95u + (number + 1) * 0x9e3779b97f4a7c15u;

  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

/* In (0, 1), never an end. */
static inline double
draw_uniform (uint64_t seed, uint64_t number)
{
  return ((double) (draw_bits (seed, number) >> 12) + 0.5) * 0x1p-52;
}

/* Standard normal (Box and Muller 1958). */
static inline double
draw_normal (uint64_t seed, uint64_t number)
{
  double radius = sqrt (-2 * log (draw_uniform (seed, 2 * number)));

  return radius * cos (6.283185307179586 * draw_uniform (seed, 2 * number + 1));
}

#endif
