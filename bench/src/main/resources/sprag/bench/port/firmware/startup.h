/* What comes before the first line of any program on this chip: the floating-point unit, and the values of variables. */
#ifndef STARTUP_H
#define STARTUP_H

#include <stdint.h>

/* where chip.ld puts them */
extern uint32_t data_begin, data_end, data_from, bss_begin, bss_end, stack_top;

int main(void);
void reset(void);
void stopped(void);

/* To be called first in reset(), and only there. */
static inline void prepare(void) {
    *(volatile uint32_t *)0xE000ED88U |= 0xFU << 20; /* the floating-point unit is off after a reset */
    __asm__ volatile("dsb\n isb");
    uint32_t *from = &data_from;
    for (uint32_t *to = &data_begin; to < &data_end; to++) {
        *to = *from;
        from++;
    }
    for (uint32_t *to = &bss_begin; to < &bss_end; to++) {
        *to = 0;
    }
}

#endif
