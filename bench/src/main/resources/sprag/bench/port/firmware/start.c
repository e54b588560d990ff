/* What runs before main: values of variables, and the floating-point unit. */
#include "startup.h"

void clock_ticked(void);
void byte_came(void);
void release_for_good(void);

void reset(void) {
    prepare();
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
