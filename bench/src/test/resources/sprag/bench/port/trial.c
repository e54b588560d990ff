/* For trials of the example: stops its loop, damages its memory, and tells after the restart how long it took. */
#include "memory.h"
#include <stdbool.h>

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define CLOCK REGISTER(0x40000004U)
#define LAMPS REGISTER(0x40028000U)

enum { STOP = 1, STOP_DEAF = 2, DAMAGE_NEWER = 3, DAMAGE_BOTH = 4, CLEAR_BOTH = 5 };

void board_trial(uint16_t what);
void board_started(void);
void board_ticked(void);
void board_stopped(void);

extern volatile uint8_t memory_kept[32];

/* In clocks since the loop stopped: when the outputs were seen released, and when it was last alive. */
__attribute__((section(".kept"))) static volatile uint32_t released_after;
__attribute__((section(".kept"))) static volatile uint32_t alive_until;
/* What the pins were when the loop stopped. */
__attribute__((section(".kept"))) static volatile uint32_t lamps_before;

static uint32_t stopped_at;
/* The loop stops at the end of the next tick. Then no time of the trial depends on how busy the host is. */
static uint16_t stops_as;

static void look(void) {
    for (volatile int i = 0; i < 20000; i++) { /* emulated devices are slow to ask */
    }
    uint32_t now = stopped_at - CLOCK;
    if (LAMPS == 0U && released_after == 0U) {
        released_after = now;
    }
    alive_until = now;
}

static void hang(void) {
    stopped_at = CLOCK;
    lamps_before = LAMPS;
    released_after = 0;
    for (;;) {
        look();
    }
}

/* Once nothing may be trusted: goes on to look. */
void board_stopped(void) {
    for (;;) {
        look();
    }
}

void board_trial(uint16_t what) {
    if (what == DAMAGE_NEWER) {
        memory_kept[memory_newer() * 16] ^= 4U;
    }
    if (what == DAMAGE_BOTH) {
        memory_kept[0] ^= 4U;
        memory_kept[16] ^= 4U;
    }
    if (what == CLEAR_BOTH) {
        for (uint32_t i = 0; i < 32U; i++) {
            memory_kept[i] = 0;
        }
    }
    if (what == STOP || what == STOP_DEAF) {
        stops_as = what;
    } else {
        hang();
    }
}

void board_ticked(void) {
    if (stops_as == STOP_DEAF) {
        __asm__ volatile("cpsid i");
    }
    if (stops_as != 0U) {
        hang();
    }
}

static void tell(uint32_t number) {
    for (int i = 0; i < 4; i++) {
        REGISTER(0x40004000U) = (number >> (24 - 8 * i)) & 0xFFU;
    }
}

void board_started(void) {
    if (memory_starts() > 1U) {
        tell(released_after);
        tell(alive_until);
        tell(lamps_before);
    }
}
