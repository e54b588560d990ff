/* The line to the simulated car. Two files have these functions: uart.c for a serial line, host.c for the emulator's own. */
#ifndef LINE_H
#define LINE_H

#include <stdbool.h>
#include <stdint.h>

void line_start(void);
bool line_has_byte(void);
uint8_t line_take(void);
void line_send(const uint8_t *bytes, uint32_t count);

/* Called by start.c when a byte has come over the serial line. */
void byte_came(void);

#endif /* LINE_H */
