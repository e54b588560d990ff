/* Memory that keeps its contents without power. On this emulated board a part of the RAM that no reset clears stands for it. */
#include "memory.h"
#include "board.h"

typedef struct {
    int64_t packed;
    uint32_t number;
    uint32_t check;
} Kept;

/* volatile, so that each write happens, and in this order */
__attribute__((section(".kept"))) volatile Kept memory_kept[2];
__attribute__((section(".kept"))) static uint32_t starts;

static uint32_t check_of(const volatile Kept *k) {
    uint32_t sum = 0x5A17U;
    uint32_t parts[3] = {(uint32_t)(uint64_t)k->packed, (uint32_t)((uint64_t)k->packed >> 32), k->number};
    for (int i = 0; i < 3; i++) {
        sum = (sum ^ parts[i]) * 2654435761U;
        sum ^= sum >> 15;
    }
    return sum;
}

static bool is_sound(const volatile Kept *k) {
    return k->check == check_of(k);
}

int memory_newer(void) {
    bool second = is_sound(&memory_kept[1])
            && (!is_sound(&memory_kept[0]) || (int32_t)(memory_kept[1].number - memory_kept[0].number) > 0);
    return second ? 1 : 0;
}

uint32_t memory_sound_copies(void) {
    return (is_sound(&memory_kept[0]) ? 1U : 0U) + (is_sound(&memory_kept[1]) ? 1U : 0U);
}

int64_t memory_remembered(void) {
    uint32_t sound = memory_sound_copies();
    int64_t packed = memory_kept[memory_newer()].packed;
    /* a damaged copy may be the beginning of a latch */
    bool lost = sound == 0U || (sound == 1U && packed == 0);
    return lost ? SPRAG_MEMORY_LOST : packed;
}

static void write(int copy, int64_t packed, uint32_t number) {
    volatile Kept *place = &memory_kept[copy];
    place->check = ~check_of(place); /* unsound until it is complete, whatever an earlier loss of power has left */
    place->packed = packed;
    place->number = number;
    place->check = check_of(place);
}

void memory_keep(int64_t packed) {
    uint32_t sound = memory_sound_copies();
    int now = memory_newer();
    bool same = (memory_kept[now].packed != 0) == (packed != 0);
    if (sound == 2U && same) {
        return; /* the rest of the number changes often, and would wear a memory out; only the latch is asked for */
    }
    write(1 - now, packed, sound == 0U ? 1U : memory_kept[now].number + 1U);
}

void memory_make(void) {
    write(0, 0, 1);
    write(1, 0, 2);
}

void memory_count_start(void) {
    starts++;
}

uint32_t memory_starts(void) {
    return starts;
}
