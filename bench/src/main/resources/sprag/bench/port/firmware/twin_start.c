/*
 * For the emulator only: starts a program that reads and writes as on a computer, by way of the emulator ("Semihosting for AArch32
 * and AArch64", Arm; the C library does it).
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

extern uint32_t data_begin, data_end, data_from, bss_begin, bss_end, stack_top;

int main(void);
void reset(void);
void stopped(void);
void initialise_monitor_handles(void);

void reset(void) {
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
    initialise_monitor_handles();
    if (freopen("/dev/stdin", "rb", stdin) == NULL || freopen("/dev/stdout", "wb", stdout) == NULL) {
        exit(7);
    }
    exit(main());
}

/* A fault of the processor. */
void stopped(void) {
    exit(8);
}

typedef struct {
    uint32_t *stack;
    void (*handlers[6])(void); /* reset and the faults by their number */
} Vectors;

__attribute__((section(".vectors"), used)) static const Vectors vectors = {
    &stack_top, {reset, stopped, stopped, stopped, stopped, stopped}
};
