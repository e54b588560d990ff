/*
 * A microcontroller on a desk: runs a board's own firmware, instruction by instruction, in real time, with its serial line on
 * a pseudo-terminal. For tests; needs libsimavr-dev.
 *
 *     microcontroller MCU FIRMWARE.hex LINK BOOT_MS
 *
 * The far end of the line is a symbolic link LINK. As a real board does, it starts anew whenever its port is opened, and a
 * boot loader eats what comes in the first BOOT_MS. Commands, one a line on standard input; every one is answered, with "ok"
 * or the value:
 *
 *     high PORT BIT      a wire at the supply          volts CHANNEL MILLIVOLTS
 *     low PORT BIT       a wire at ground              pull    the cable is out: the line is gone
 *     open PORT BIT      nothing connected             plug    and back; the board starts anew
 *     get PORT BIT       "out 0", "out 1", "in 0" or "in 1"
 *     since PORT BIT     microseconds from the last command that changed an input to the last change of this pin, -1 before
 *     freeze, thaw       the clock of the board stands still, goes on
 *     reset              as the button does
 *     keep               from now on it does not start anew when its port is opened; what is in the line is gone
 */
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "avr_adc.h"
#include "avr_ioport.h"
#include "avr_uart.h"
#include "sim_avr.h"
#include "sim_hex.h"

enum { HZ = 16000000, SLICE_US = 250, PORTS = 12 };

typedef struct {
    uint8_t driven, level; /* from outside */
    uint8_t ddr, shown;
    uint64_t changed_us[8];
} side;

static avr_t *mcu;
static avr_irq_t *rx;
static side sides[PORTS];
static int line = -1, spare = -1, opened, room = 1, frozen, kept, boot_ms;
static uint64_t boot_until_us, input_us;
static const char *link_name;
static uint8_t waiting[4096];
static unsigned waiting_at, waiting_end;

static uint64_t now_us(void) { return mcu->cycle / (HZ / 1000000); }

static uint64_t wall_us(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (uint64_t)t.tv_sec * 1000000 + t.tv_nsec / 1000;
}

static void die(const char *what) {
    fprintf(stderr, "microcontroller: %s: %s\n", what, strerror(errno));
    exit(1);
}

static void said(avr_irq_t *irq, uint32_t value, void *param) {
    uint8_t byte = value;
    if (line >= 0 && opened && write(line, &byte, 1) < 0 && errno != EAGAIN && errno != EIO) {
        die("write");
    }
}

static void has_room(avr_irq_t *irq, uint32_t value, void *param) { room = 1; }
static void is_full(avr_irq_t *irq, uint32_t value, void *param) { room = 0; }

static void pin(avr_irq_t *irq, uint32_t value, void *param) {
    side *s = &sides[(intptr_t)param >> 3];
    int bit = (intptr_t)param & 7;
    if ((s->shown >> bit & 1) != (value & 1)) {
        s->shown ^= 1 << bit;
        s->changed_us[bit] = now_us();
    }
}

static void direction(avr_irq_t *irq, uint32_t value, void *param) { ((side *)param)->ddr = value; }

static void outside(int port, int bit, int driven, int level) {
    side *s = &sides[port];
    s->driven = (s->driven & ~(1 << bit)) | driven << bit;
    s->level = (s->level & ~(1 << bit)) | level << bit;
    avr_ioport_external_t all = {.name = 'A' + port, .mask = s->driven, .value = s->level};
    avr_ioctl(mcu, AVR_IOCTL_IOPORT_SET_EXTERNAL('A' + port), &all);
    avr_irq_t *irq = avr_io_getirq(mcu, AVR_IOCTL_IOPORT_GETIRQ('A' + port), bit);
    avr_ioport_state_t state;
    avr_ioctl(mcu, AVR_IOCTL_IOPORT_GETSTATE('A' + port), &state);
    if (irq && !(state.ddr >> bit & 1)) {
        avr_raise_irq(irq, driven ? level : state.port >> bit & 1);
    }
    input_us = now_us();
}

static void restart(void) {
    avr_reset(mcu);
    waiting_at = waiting_end = 0;
    room = 1;
    for (int p = 0; p < PORTS; p++) {
        sides[p].ddr = 0;
    }
    boot_until_us = now_us() + boot_ms * 1000;
}

static void plug(void) {
    char name[128];
    struct termios raw;
    if (openpty(&line, &spare, name, NULL, NULL) < 0) {
        die("openpty");
    }
    tcgetattr(spare, &raw);
    cfmakeraw(&raw);
    tcsetattr(spare, TCSANOW, &raw);
    close(spare);
    fcntl(line, F_SETFL, O_NONBLOCK);
    unlink(link_name);
    if (symlink(name, link_name) < 0) {
        die("symlink");
    }
    opened = 0;
}

static void pull(void) {
    close(line);
    unlink(link_name);
    line = -1;
    opened = 0;
}

/* The line carries a byte in some 170 us at 57,600 baud; a slice is shorter than two, so nothing waits long here. */
static void serve_line(void) {
    if (line < 0) {
        return;
    }
    struct pollfd p = {.fd = line, .events = POLLIN};
    poll(&p, 1, 0);
    int is_open = !(p.revents & POLLHUP);
    if (is_open && !opened && !kept) {
        restart();
    }
    opened = is_open;
    if (waiting_at == waiting_end) {
        waiting_at = waiting_end = 0;
        ssize_t got = read(line, waiting, sizeof waiting);
        waiting_end = got > 0 ? got : 0;
    }
    if (now_us() < boot_until_us) {
        waiting_at = waiting_end = 0;
    }
    while (room && waiting_at < waiting_end) {
        avr_raise_irq(rx, waiting[waiting_at++]);
    }
}

static void lose_what_comes(void) {
    waiting_at = waiting_end = 0;
    while (line >= 0 && read(line, waiting, sizeof waiting) > 0) {
        /* nobody listens */
    }
}

static void obey(char *text) {
    char what[16], port = 'A';
    int a = 0, b = 0;
    if (sscanf(text, "volts %d %d", &a, &b) == 2) {
        avr_raise_irq(avr_io_getirq(mcu, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_ADC0 + a), b);
        input_us = now_us();
    } else if (sscanf(text, "%15s %c %d", what, &port, &b) >= 1) {
        side *s = &sides[(port - 'A') % PORTS];
        if (!strcmp(what, "high") || !strcmp(what, "low")) {
            outside(port - 'A', b, 1, what[0] == 'h');
        } else if (!strcmp(what, "open")) {
            outside(port - 'A', b, 0, 0);
        } else if (!strcmp(what, "get")) {
            printf("%s %d\n", s->ddr >> b & 1 ? "out" : "in", s->shown >> b & 1);
            fflush(stdout);
            return;
        } else if (!strcmp(what, "since")) {
            printf("%lld\n", s->changed_us[b] < input_us ? -1LL : (long long)(s->changed_us[b] - input_us));
            fflush(stdout);
            return;
        } else if (!strcmp(what, "pull")) {
            pull();
        } else if (!strcmp(what, "plug")) {
            plug();
            restart();
        } else if (!strcmp(what, "reset")) {
            restart();
        } else if (!strcmp(what, "keep")) {
            kept = 1;
        } else if (!strcmp(what, "freeze") || !strcmp(what, "thaw")) {
            frozen = what[0] == 'f';
        } else {
            printf("unknown: %s\n", what);
            fflush(stdout);
            return;
        }
    }
    printf("ok\n");
    fflush(stdout);
}

static void listen_to_stdin(void) {
    static char text[256];
    static unsigned length;
    char c;
    struct pollfd p = {.fd = 0, .events = POLLIN};
    while (poll(&p, 1, 0) > 0) {
        if (read(0, &c, 1) <= 0) {
            unlink(link_name);
            exit(0);
        }
        if (c == '\n') {
            text[length] = 0;
            obey(text);
            length = 0;
        } else if (length < sizeof text - 1) {
            text[length++] = c;
        }
    }
}

int main(int argc, char **argv) {
    if (argc != 5) {
        fprintf(stderr, "usage: microcontroller MCU FIRMWARE.hex LINK BOOT_MS\n");
        return 2;
    }
    link_name = argv[3];
    boot_ms = atoi(argv[4]);
    mcu = avr_make_mcu_by_name(argv[1]);
    if (!mcu) {
        return 2;
    }
    avr_init(mcu);
    uint32_t size, start;
    uint8_t *code = read_ihex_file(argv[2], &size, &start);
    if (!code) {
        return 2;
    }
    mcu->frequency = HZ;
    mcu->vcc = mcu->avcc = mcu->aref = 5000;
    mcu->log = 0;
    memcpy(mcu->flash + start, code, size);
    mcu->pc = start;
    mcu->codeend = mcu->flashend;
    uint32_t flags = 0;
    avr_ioctl(mcu, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    rx = avr_io_getirq(mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    avr_irq_register_notify(avr_io_getirq(mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), said, NULL);
    avr_irq_register_notify(avr_io_getirq(mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XON), has_room, NULL);
    avr_irq_register_notify(avr_io_getirq(mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XOFF), is_full, NULL);
    for (int p = 0; p < PORTS; p++) {
        for (int b = 0; b < 8; b++) {
            avr_irq_t *irq = avr_io_getirq(mcu, AVR_IOCTL_IOPORT_GETIRQ('A' + p), b);
            if (irq) {
                avr_irq_register_notify(irq, pin, (void *)(intptr_t)(p << 3 | b));
            }
        }
        avr_irq_t *irq = avr_io_getirq(mcu, AVR_IOCTL_IOPORT_GETIRQ('A' + p), IOPORT_IRQ_DIRECTION_ALL);
        if (irq) {
            avr_irq_register_notify(irq, direction, &sides[p]);
        }
    }
    plug();
    printf("ready\n");
    fflush(stdout);
    uint64_t lag_us = wall_us() - now_us();
    for (;;) {
        listen_to_stdin();
        if (frozen) {
            lose_what_comes();
        } else {
            serve_line();
        }
        uint64_t until = mcu->cycle + (uint64_t)SLICE_US * (HZ / 1000000);
        while (!frozen && mcu->cycle < until) {
            int state = avr_run(mcu);
            if (state == cpu_Done || state == cpu_Crashed) {
                fprintf(stderr, "microcontroller: the firmware crashed at %x\n", mcu->pc);
                return 1;
            }
        }
        if (frozen) {
            usleep(SLICE_US);
            lag_us = wall_us() - now_us();
            continue;
        }
        int64_t ahead = (int64_t)(now_us() + lag_us - wall_us());
        if (ahead > 0) {
            usleep(ahead);
        } else if (ahead < -200000) {
            lag_us = wall_us() - now_us(); /* the machine stalled: the board stalls with it */
        }
    }
}
