/* What C leaves open and Java does not: conversions, shifts, the limits of arrays. */
#ifndef SPRAG_JAVA_H
#define SPRAG_JAVA_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __FAST_MATH__
#error "Do not use -ffast-math: an unknown reading is a NaN here, and that option takes the tests for it away."
#endif

/* The type of every quantity. */
typedef REAL sprag_real;

/* No row of an enum. */
#define SPRAG_NONE (-1)
/* A quantity that nobody knows. */
#define SPRAG_UNKNOWN ((sprag_real)NAN)
#define SPRAG_INFINITE ((sprag_real)INFINITY)
#define SPRAG_LENGTH(array) ((int32_t)(sizeof(array) / sizeof((array)[0])))
#define SPRAG_ASSERT(claim) \
    do { \
        if (!(claim)) { \
            sprag_impossible(); \
        } \
    } while (0)

/* Called when memory or program must be damaged. The board's maker writes it: it releases every output and never returns. */
void sprag_impossible(void);

/* An index that is within its array. */
static inline int32_t sprag_index(int32_t index, int32_t length) {
    if (index < 0 || index >= length) {
        sprag_impossible();
        return 0;
    }
    return index;
}

/* The whole part of a quantity; an unknown one gives 0, one that is too large the largest number there is. */
static inline int32_t sprag_to_int(sprag_real value) {
    if (isnan(value)) {
        return 0;
    }
    if (value >= REAL_2147483648) {
        return INT32_MAX;
    }
    return value <= -REAL_2147483648 ? INT32_MIN : (int32_t)value;
}

static inline int32_t sprag_min_int(int32_t a, int32_t b) {
    return a < b ? a : b;
}

static inline int32_t sprag_max_int(int32_t a, int32_t b) {
    return a > b ? a : b;
}

/* As Java: NaN in gives NaN out, and -0 is smaller than 0. */
static inline sprag_real sprag_min_real(sprag_real a, sprag_real b) {
    if (isnan(a) || isnan(b)) {
        return SPRAG_UNKNOWN;
    }
    if (a < b || (!(b < a) && signbit(a))) {
        return a;
    }
    return b;
}

static inline sprag_real sprag_max_real(sprag_real a, sprag_real b) {
    if (isnan(a) || isnan(b)) {
        return SPRAG_UNKNOWN;
    }
    if (a > b || (!(b > a) && !signbit(a))) {
        return a;
    }
    return b;
}

/* Java takes the lowest 5 or 6 bits of the count. */
static inline int32_t sprag_shift_left32(int32_t value, int32_t by) {
    return (int32_t)((uint32_t)value << ((uint32_t)by & 31U));
}

static inline int64_t sprag_shift_left64(int64_t value, int32_t by) {
    return (int64_t)((uint64_t)value << ((uint32_t)by & 63U));
}

/* The sign fills up from above. */
static inline int32_t sprag_shift_right32(int32_t value, int32_t by) {
    uint32_t count = (uint32_t)by & 31U;
    return value >= 0 ? (int32_t)((uint32_t)value >> count) : (int32_t)~(~(uint32_t)value >> count);
}

static inline int64_t sprag_shift_right64(int64_t value, int32_t by) {
    uint32_t count = (uint32_t)by & 63U;
    return value >= 0 ? (int64_t)((uint64_t)value >> count) : (int64_t)~(~(uint64_t)value >> count);
}

/* Zeros fill up from above. */
static inline int32_t sprag_shift_right_unsigned32(int32_t value, int32_t by) {
    return (int32_t)((uint32_t)value >> ((uint32_t)by & 31U));
}

static inline int64_t sprag_shift_right_unsigned64(int64_t value, int32_t by) {
    return (int64_t)((uint64_t)value >> ((uint32_t)by & 63U));
}

static inline void sprag_fill(sprag_real *place, int32_t length, sprag_real value) {
    for (int32_t i = 0; i < length; i++) {
        place[i] = value;
    }
}

static inline void sprag_copy(const sprag_real *from, sprag_real *to, int32_t length) {
    for (int32_t i = 0; i < length; i++) {
        to[i] = from[i];
    }
}

#endif /* SPRAG_JAVA_H */
