/* Whether compiler and options keep the arithmetic of Java. Volatile values keep the compiler from computing it in advance. */
#include "board.h"

static bool no_fused_multiplication(void) {
    volatile sprag_real a = (sprag_real)1.0000001192092896;
    volatile sprag_real b = (sprag_real)0.9999999403953552;
    sprag_real product = a * b;
    volatile sprag_real rounded = product;
    sprag_real rest = (a * b) - rounded;
    return rest >= 0 && rest <= 0;
}

static bool unknown_is_seen(void) {
    volatile sprag_real zero = 0;
    volatile sprag_real nothing = 0;
    sprag_real unknown = zero / nothing;
    bool sensed = isnan(unknown) && !(unknown >= zero) && !(unknown <= zero);
    return sensed && sprag_to_int(unknown) == 0;
}

static bool integers_wrap(void) {
    volatile int32_t most = INT32_MAX;
    /* -fwrapv is needed, and this is how its absence is found. */
    /* cppcheck-suppress integerOverflow */
    int32_t next = most + 1;
    /* cppcheck-suppress invalidTestForOverflow */
    /* cppcheck-suppress integerOverflow */
    bool kept = most + 1 < most;
    return next == INT32_MIN && kept;
}

static bool conversion_saturates(void) {
    volatile sprag_real large = (sprag_real)1e30;
    volatile sprag_real part = (sprag_real)-2.75;
    return sprag_to_int(large) == INT32_MAX && sprag_to_int(-large) == INT32_MIN && sprag_to_int(part) == -2;
}

static bool shifts_are_masked(void) {
    volatile int32_t count = 65;
    volatile int32_t minus = -8;
    return sprag_shift_left64(INT64_C(1), count) == 2 && sprag_shift_right32(minus, 1) == -4
            && sprag_shift_right_unsigned32(minus, 28) == 15;
}

bool sprag_self_test(void) {
    return no_fused_multiplication() && unknown_is_seen() && integers_wrap() && conversion_saturates() && shifts_are_masked();
}
