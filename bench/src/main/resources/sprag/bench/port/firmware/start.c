/* What runs before main: values of variables, and the floating-point unit. */
#include <stdint.h>

extern uint32_t data_begin, data_end, data_from, bss_begin, bss_end, stack_top;

int main(void);
void reset(void);
void clock_ticked(void);
void byte_came(void);
void release_for_good(void);
void stopped(void);

void reset(void) {
    /* the floating-point unit is off after a reset */
    *(volatile uint32_t *)0xE000ED88U |= 0xFU << 20;
    __asm__ volatile("dsb\n isb");
    uint32_t *from = &data_from;
    for (uint32_t *to = &data_begin; to < &data_end; to++) {
        *to = *from;
        from++;
    }
    for (uint32_t *to = &bss_begin; to < &bss_end; to++) {
        *to = 0;
    }
    (void)main();
    stopped();
}

/* A fault of the processor, or the watchdog's first call: nothing more runs, and the watchdog resets. */
void stopped(void) {
    release_for_good();
}

typedef struct {
    uint32_t *stack;
    void (*handlers[16])(void); /* reset, faults and exceptions by their number, then the first interrupt of the board */
} Vectors;

__attribute__((section(".vectors"), used)) static const Vectors vectors = {
    &stack_top, {reset, stopped, stopped, stopped, stopped, stopped, 0, 0, 0, 0, stopped, stopped, 0, stopped, clock_ticked, byte_came}
};
