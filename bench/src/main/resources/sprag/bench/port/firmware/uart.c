/* A serial line, with an interrupt for each byte that comes. */
#include "line.h"

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define UART_DATA REGISTER(0x40004000U)
#define UART_STATE REGISTER(0x40004004U)
#define UART_CONTROL REGISTER(0x40004008U)
#define UART_INTERRUPT REGISTER(0x4000400CU)
#define UART_DIVIDER REGISTER(0x40004010U)

enum { MOST = 256 };

static volatile uint8_t come[MOST];
static volatile uint32_t in;
static volatile uint32_t out;

void line_start(void) {
    UART_DIVIDER = 16;
    UART_CONTROL = 11;          /* send, receive, and an interrupt for each byte that has come */
    REGISTER(0xE000E100U) = 1U; /* let that interrupt through */
}

/* What does not fit is lost; the checksum of its frame will say so. */
void byte_came(void) {
    UART_INTERRUPT = 2;
    uint8_t byte = (uint8_t)UART_DATA;
    if (in - out < (uint32_t)MOST) {
        come[in % (uint32_t)MOST] = byte;
        in++;
    }
}

bool line_has_byte(void) {
    return in != out;
}

uint8_t line_take(void) {
    uint8_t byte = come[out % (uint32_t)MOST];
    out++;
    return byte;
}

void line_send(const uint8_t *bytes, uint32_t count) {
    for (uint32_t i = 0; i < count; i++) {
        while ((UART_STATE & 1U) != 0U) {
        }
        UART_DATA = bytes[i];
    }
}
