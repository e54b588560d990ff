/*
 * For the emulator only: starts a program that reads and writes as on a computer, by way of the emulator ("Semihosting for AArch32
 * and AArch64", Arm; the C library does it).
 */
#include <stdio.h>
#include <stdlib.h>

#include "startup.h"

void initialise_monitor_handles(void);

void reset(void) {
    prepare();
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
