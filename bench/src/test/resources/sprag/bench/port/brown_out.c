/*
 * Takes the power away at each write of memory.c, of a first tick and of the first tick after it, and looks whether a latch is lost.
 * gcc calls a function before each write when it compiles memory.c with -fsanitize=thread; these functions are here, not in its library.
 */
#include "memory.h"
#include "board.h"
#include <setjmp.h>
#include <stdio.h>
#include <string.h>

enum { LATCH = 0x5200, NEVER = 1000 };

extern volatile uint8_t memory_kept[32];

static jmp_buf power_gone;
static int writes_left = NEVER;

static void before_write(void) {
    if (writes_left == 0) {
        longjmp(power_gone, 1);
    }
    writes_left--;
}

void __tsan_init(void);
void __tsan_func_entry(void *from);
void __tsan_func_exit(void);
void __tsan_read4(void *place);
void __tsan_read8(void *place);
void __tsan_write4(void *place);
void __tsan_write8(void *place);
void __tsan_volatile_read4(void *place);
void __tsan_volatile_read8(void *place);
void __tsan_volatile_write4(void *place);
void __tsan_volatile_write8(void *place);

void __tsan_init(void) {
}

void __tsan_func_entry(void *from) {
    (void)from;
}

void __tsan_func_exit(void) {
}

void __tsan_read4(void *place) {
    (void)place;
}

void __tsan_read8(void *place) {
    (void)place;
}

void __tsan_write4(void *place) {
    (void)place;
}

void __tsan_write8(void *place) {
    (void)place;
}

void __tsan_volatile_read4(void *place) {
    (void)place;
}

void __tsan_volatile_read8(void *place) {
    (void)place;
}

void __tsan_volatile_write4(void *place) {
    (void)place;
    before_write();
}

void __tsan_volatile_write8(void *place) {
    (void)place;
    before_write();
}

/* Remembers until so many writes are done. Gives whether it came to its end. */
static bool keep(int64_t packed, int writes) {
    if (setjmp(power_gone) != 0) {
        writes_left = NEVER;
        return false;
    }
    writes_left = writes;
    memory_keep(packed);
    writes_left = NEVER;
    return true;
}

/* What the first tick after a start remembers: a memory that was lost is a latch. */
static int64_t woken(void) {
    return memory_remembered() == 0 ? 0 : LATCH;
}

static int lost;
static int cuts;

/* From what is remembered, a latch comes. Once one write of it is done, no loss of power may take it away. */
static void latch_comes(const char *from) {
    uint8_t before[32];
    (void)memcpy(before, (const void *)memory_kept, sizeof(before));
    bool complete = false;
    for (int first = 1; !complete; first++) {
        bool second_complete = false;
        for (int second = 0; !second_complete; second++) {
            (void)memcpy((void *)memory_kept, before, sizeof(before));
            complete = keep(LATCH, first);
            second_complete = keep(woken(), second);
            cuts++;
            if (memory_remembered() == 0) {
                (void)printf("%s: the latch is lost after %d and %d writes\n", from, first, second);
                lost++;
            }
        }
    }
}

void sprag_impossible(void) {
}

int main(void) {
    memory_make();
    latch_comes("a new memory");
    memory_keep(LATCH);
    memory_keep(0);
    latch_comes("a memory whose latch was taken back");
    memory_keep(LATCH);
    latch_comes("a memory that holds a latch");
    memory_kept[0] ^= 4U;
    latch_comes("a memory with one copy damaged");
    (void)printf("%d losses of power, %d latches lost\n", cuts, lost);
    return lost == 0 ? 0 : 1;
}
