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

__attribute__((section(".vectors"), used)) static void *const vectors[17] = {
    &stack_top, (void *)reset, (void *)stopped, (void *)stopped, (void *)stopped, (void *)stopped, (void *)stopped, 0, 0, 0, 0,
    (void *)stopped, (void *)stopped, 0, (void *)stopped, (void *)clock_ticked,
    (void *)byte_came
};
