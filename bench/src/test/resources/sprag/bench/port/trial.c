/* For trials of the example: stops its loop, damages its memory, and tells after the restart how long it took. */
#include "memory.h"
#include "board.h"

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define CLOCK REGISTER(0x40000004U)
#define LAMPS REGISTER(0x40028000U)

enum { STOP = 1, STOP_DEAF = 2, DAMAGE_NEWER = 3, DAMAGE_BOTH = 4, CLEAR_BOTH = 5, HOLD = 6, GO = 7, LATE = 8, TOO_LATE = 9, STOP_IN_STEP = 10 };
enum { CLOCKS_PER_MS = 25000, WATCHDOG_MS = 80 };

void board_trial(uint16_t what);
void board_started(void);
void board_ticked(void);
void board_released(void);
void board_stopped(void);

extern volatile uint8_t memory_kept[32];

/* In clocks since the last whole tick: when the outputs were seen released, and when it was last alive. */
__attribute__((section(".kept"))) static volatile uint32_t released_after;
__attribute__((section(".kept"))) static volatile uint32_t alive_until;
/* What the pins were then. */
__attribute__((section(".kept"))) static volatile uint32_t lamps_before;

static uint32_t whole_at;
/* The loop stops in the next tick. Then no time of the trial depends on how busy the host is. */
static uint16_t stops_as;
/* For how long the clock has run since the last whole tick, while it is held. */
static uint32_t ran;
static bool held;

/* Nothing counts while the host gets ready: neither silence nor watchdog. */
static void hold(void) {
    REGISTER(0xE000E010U) = 0;
    REGISTER(0x40008000U) = UINT32_MAX;
    held = true;
}

static void go_on(void) {
    whole_at = CLOCK + ran;
    lamps_before = LAMPS;
    released_after = 0;
    held = false;
    REGISTER(0x40008000U) = WATCHDOG_MS * CLOCKS_PER_MS;
    REGISTER(0xE000E010U) = 7;
}

static void late(uint32_t ms) {
    go_on();
    while (whole_at - CLOCK < ms * CLOCKS_PER_MS) {
    }
    ran = whole_at - CLOCK;
    hold();
}

static void look(void) {
    for (volatile int i = 0; i < 20000; i++) { /* emulated devices are slow to ask */
    }
    uint32_t now = whole_at - CLOCK;
    if (LAMPS == 0U && released_after == 0U) {
        released_after = now;
    }
    alive_until = now;
}

static void hang(void) {
    if (held) {
        go_on();
    }
    for (;;) {
        look();
    }
}

void board_released(void) {
    if (LAMPS == 0U && released_after == 0U) {
        released_after = whole_at - CLOCK;
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
    switch (what) {
    case STOP:
    case STOP_DEAF:
    case STOP_IN_STEP:
        stops_as = what;
        break;
    case HOLD:
        hold();
        break;
    case GO:
        go_on();
        break;
    case LATE:
        late(40);
        break;
    case TOO_LATE:
        late(60);
        break;
    default:
        hang();
    }
}

void sprag_Diagnostics_begin(int64_t newTick) {
    (void)newTick;
    if (stops_as == STOP_IN_STEP) {
        hang();
    }
}

void board_ticked(void) {
    ran = 0;
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
