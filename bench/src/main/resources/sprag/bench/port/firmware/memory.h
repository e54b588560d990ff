/*
 * What must survive a loss of power: the latch that only a service takes back. Two copies, each with a checksum, written one after
 * the other. So one of them is sound whenever the power goes.
 */
#ifndef MEMORY_H
#define MEMORY_H

#include <stdint.h>

/* What to wake up with. SPRAG_MEMORY_LOST when no copy is sound, or when one is damaged and the other holds no latch. */
int64_t memory_remembered(void);
/* Remembers a latch, or with 0 that there is none. Nothing is written while that stays so. */
void memory_keep(int64_t packed);
/* Both copies anew, without a latch. */
void memory_make(void);
/* 0, 1 or 2. */
uint32_t memory_sound_copies(void);
/* The copy that holds what is remembered: 0 or 1, and 0 when none is sound. */
int memory_newer(void);

void memory_count_start(void);
/* How often the program has begun while there was power for this memory. */
uint32_t memory_starts(void);

#endif /* MEMORY_H */
