/** What the laws call on fixed point: sums, products and quotients between formats, as a header of C. */
export const fixedPointFile = 'fixed_point.h';

export const fixedPointText = `/*
 * Steps between fixed-point formats: words of 32 bits, products of 64. A format is named by its fraction n: a word w stands for
 * w times 2 to the power of -n. Results are rounded to nearest, halves away from zero, and saturate at the ends of a word.
 * No shift of a negative number, no overflow: the same on every compiler of C99 with 64-bit integers.
 */
#ifndef FIXED_POINT_H
#define FIXED_POINT_H

#include <stdint.h>

/* x with \`from\` bits of fraction, as a word with \`to\` of them. */
static inline int32_t fitted(int64_t x, int from, int to) {
  const int64_t size = x < 0 ? -x : x;
  int64_t whole;
  if (to < from) {
    const int down = from - to;
    whole = down > 62 ? 0 : (size / ((int64_t)1 << down)) + ((size >> (down - 1)) & 1);
  } else {
    const int up = to - from;
    whole = size == 0 ? 0 : up > 31 || size > (INT32_MAX >> up) ? INT32_MAX : size << up;
  }
  if (whole > INT32_MAX) {
    whole = INT32_MAX;
  }
  return (int32_t)(x < 0 ? -whole : whole);
}

static inline int32_t moved(int32_t a, int a_n, int n) {
  return fitted(a, a_n, n);
}

static inline int64_t raised(int32_t a, int up) {
  return (int64_t)a * ((int64_t)1 << up);
}

static inline int32_t sumOf(int32_t a, int a_n, int32_t b, int b_n, int n) {
  /* Of two that lie further apart than a word is long, the finer is rounded first. */
  const int coarse = a_n < b_n ? a_n : b_n;
  const int fine = a_n < b_n ? b_n : a_n;
  const int at = fine - coarse > 31 ? coarse + 31 : fine;
  const int64_t left = a_n > at ? fitted(a, a_n, at) : raised(a, at - a_n);
  const int64_t right = b_n > at ? fitted(b, b_n, at) : raised(b, at - b_n);
  return fitted(left + right, at, n);
}

static inline int32_t differenceOf(int32_t a, int a_n, int32_t b, int b_n, int n) {
  return sumOf(a, a_n, -b, b_n, n);
}

static inline int32_t productOf(int32_t a, int a_n, int32_t b, int b_n, int n) {
  return fitted((int64_t)a * b, a_n + b_n, n);
}

/* Over 0 it is the largest word. */
static inline int32_t quotientOf(int32_t a, int a_n, int32_t b, int b_n, int n) {
  if (b == 0) {
    return a < 0 ? -INT32_MAX : a > 0 ? INT32_MAX : 0;
  }
  const int wanted = n + b_n - a_n;
  const int up = wanted > 31 ? 31 : wanted < 0 ? 0 : wanted;
  const int64_t dividend = raised(a, up);
  const int64_t size = dividend < 0 ? -dividend : dividend;
  const int64_t divisor = b < 0 ? -(int64_t)b : b;
  const int64_t whole = (size + divisor / 2) / divisor;
  return fitted((a < 0) != (b < 0) ? -whole : whole, a_n + up - b_n, n);
}

/* The nearest whole number. */
static inline int32_t nearestWhole(int32_t a, int a_n, int n) {
  return fitted(fitted(a, a_n, 0), 0, n);
}

/* Which of two is greater: the sign of a - b. */
static inline int32_t orderOf(int32_t a, int a_n, int32_t b, int b_n) {
  /* One count of the coarser is more than all of the finer where they lie further apart than a word is long. */
  if (a_n - b_n > 31 && b != 0) {
    return b > 0 ? -1 : 1;
  }
  if (b_n - a_n > 31 && a != 0) {
    return a > 0 ? 1 : -1;
  }
  const int at = a_n > b_n ? a_n : b_n;
  const int64_t left = a == 0 ? 0 : raised(a, at - a_n);
  const int64_t right = b == 0 ? 0 : raised(b, at - b_n);
  return left > right ? 1 : left < right ? -1 : 0;
}

#endif
`;
