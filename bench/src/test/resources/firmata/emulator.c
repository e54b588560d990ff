/*
 * Runs the firmware of a board, instruction by instruction, inside the Java program of a test. Needs libsimavr-dev.
 *
 * The emulator has no clock of its own. It runs exactly as many cycles as advance() asks for and then stands still, so a
 * machine that stalls makes a test slower and changes nothing else. Bytes go in with give() and come out with take(). The class
 * Emulator in package sprag.bench.hand.emulated calls the functions at the end of this file.
 */
#include <jni.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "avr_adc.h"
#include "avr_extint.h"
#include "avr_ioport.h"
#include "avr_uart.h"
#include "sim_avr.h"
#include "sim_hex.h"

enum { HZ = 16000000, CYCLES_PER_US = HZ / 1000000, LOOK_AT_LINE_US = 100, PORTS = 12, QUEUE = 1 << 16, EXTINTS = 8 };
/* So many cycles at most without looking at what is outside; what the chip's own timers do stays exact. Half the work of one by one. */
enum { RUN_CYCLES = 10 * CYCLES_PER_US };

/* One I/O port: what a test drives from outside, and what the firmware does. */
typedef struct {
    uint8_t driven, level;
    uint8_t outputs, shown;
    uint64_t changed_us[8];
} side;

typedef struct {
    uint8_t bytes[QUEUE];
    uint32_t first, after_last; /* the difference is the length; both wrap round at 2^32, a multiple of QUEUE */
} queue;

typedef struct board board;

/* What the listener of one pin needs to know. */
typedef struct {
    board *b;
    side *s;
    int bit;
} pin;

struct board {
    avr_t *mcu;
    avr_irq_t *rx;
    side sides[PORTS];
    pin pins[PORTS][8];
    queue to_chip, from_chip;
    int has_room;
    uint64_t due_cycle, boots_until_us, input_us;
};

static uint32_t length(const queue *q) { return q->after_last - q->first; }

static int put(queue *q, uint8_t byte) {
    if (length(q) == QUEUE) {
        return 0;
    }
    q->bytes[q->after_last++ % QUEUE] = byte;
    return 1;
}

static uint8_t pop(queue *q) { return q->bytes[q->first++ % QUEUE]; }

static uint64_t now_us(const board *b) { return b->mcu->cycle / CYCLES_PER_US; }

/* Firmware that sleeps must not put the machine to sleep: the cycles are counted all the same. */
static void sleep_not(avr_t *avr, avr_cycle_count_t cycles) {
    (void)avr;
    (void)cycles;
}

static void on_byte(avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    put(&((board *)param)->from_chip, value);
}

static void on_room(avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    (void)value;
    ((board *)param)->has_room = 1;
}

static void on_full(avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    (void)value;
    ((board *)param)->has_room = 0;
}

static void on_pin(avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    pin *p = param;
    if ((p->s->shown >> p->bit & 1) != (value & 1)) {
        p->s->shown ^= 1 << p->bit;
        p->s->changed_us[p->bit] = now_us(p->b);
    }
}

static void on_direction(avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    ((side *)param)->outputs = value;
}

static void feed_line(board *b) {
    if (now_us(b) < b->boots_until_us) {
        b->to_chip.first = b->to_chip.after_last; /* a boot loader reads and forgets what comes */
    }
    while (b->has_room && length(&b->to_chip) > 0) {
        avr_raise_irq(b->rx, pop(&b->to_chip));
    }
}

static void listen(board *b) {
    avr_irq_register_notify(avr_io_getirq(b->mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), on_byte, b);
    avr_irq_register_notify(avr_io_getirq(b->mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XON), on_room, b);
    avr_irq_register_notify(avr_io_getirq(b->mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XOFF), on_full, b);
    for (int p = 0; p < PORTS; p++) {
        for (int bit = 0; bit < 8; bit++) {
            pin *one = &b->pins[p][bit];
            *one = (pin){b, &b->sides[p], bit};
            avr_irq_t *irq = avr_io_getirq(b->mcu, AVR_IOCTL_IOPORT_GETIRQ('A' + p), bit);
            if (irq) {
                avr_irq_register_notify(irq, on_pin, one);
            }
        }
        avr_irq_t *irq = avr_io_getirq(b->mcu, AVR_IOCTL_IOPORT_GETIRQ('A' + p), IOPORT_IRQ_DIRECTION_ALL);
        if (irq) {
            avr_irq_register_notify(irq, on_direction, &b->sides[p]);
        }
    }
}

static board *of(jlong handle) { return (board *)(intptr_t)handle; }

#define JAVA(type, name) JNIEXPORT type JNICALL Java_sprag_bench_hand_emulated_Emulator_##name

/* 0 when there is no such chip or no such file. */
JAVA(jlong, create)(JNIEnv *env, jclass c, jstring chip, jstring firmware) {
    const char *chip_name = (*env)->GetStringUTFChars(env, chip, NULL);
    const char *file_name = (*env)->GetStringUTFChars(env, firmware, NULL);
    board *b = calloc(1, sizeof *b);
    uint32_t size = 0, start = 0;
    uint8_t *code = read_ihex_file(file_name, &size, &start);
    b->mcu = avr_make_mcu_by_name(chip_name);
    (*env)->ReleaseStringUTFChars(env, chip, chip_name);
    (*env)->ReleaseStringUTFChars(env, firmware, file_name);
    if (!b->mcu || !code) {
        free(b);
        return 0;
    }
    avr_init(b->mcu);
    b->mcu->sleep = sleep_not;
    b->mcu->frequency = HZ;
    b->mcu->vcc = b->mcu->avcc = b->mcu->aref = 5000;
    b->mcu->log = 0;
    b->mcu->run_cycle_limit = RUN_CYCLES;
    memcpy(b->mcu->flash + start, code, size);
    free(code);
    b->mcu->pc = start;
    b->mcu->codeend = b->mcu->flashend;
    uint32_t flags = 0;
    avr_ioctl(b->mcu, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    b->rx = avr_io_getirq(b->mcu, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    b->has_room = 1;
    listen(b);
    return (jlong)(intptr_t)b;
}

JAVA(void, destroy)(JNIEnv *env, jclass c, jlong handle) {
    avr_terminate(of(handle)->mcu);
    free(of(handle));
}

/* As the reset button does; what comes within the first boot_us is lost. */
JAVA(void, restart)(JNIEnv *env, jclass c, jlong handle, jlong boot_us) {
    board *b = of(handle);
    avr_reset(b->mcu);
    for (int i = 0; i < EXTINTS; i++) {
        avr_extint_set_strict_lvl_trig(b->mcu, i, 0); /* else every cycle looks at a low pin, though nothing waits for it */
    }
    b->to_chip.first = b->to_chip.after_last;
    b->from_chip.first = b->from_chip.after_last;
    b->has_room = 1;
    for (int p = 0; p < PORTS; p++) {
        b->sides[p].outputs = 0;
    }
    b->due_cycle = b->mcu->cycle;
    b->boots_until_us = now_us(b) + boot_us;
}

/* Runs so many more microseconds; false when the firmware has crashed. An instruction that ends a cycle late is made up for. */
JAVA(jboolean, advance)(JNIEnv *env, jclass c, jlong handle, jlong us) {
    board *b = of(handle);
    uint64_t end = b->due_cycle + (uint64_t)us * CYCLES_PER_US;
    while (b->due_cycle < end) {
        uint64_t look = b->due_cycle + LOOK_AT_LINE_US * CYCLES_PER_US;
        b->due_cycle = look < end ? look : end;
        feed_line(b);
        while (b->mcu->cycle < b->due_cycle) {
            int state = avr_run(b->mcu);
            if (state == cpu_Done || state == cpu_Crashed) {
                return JNI_FALSE;
            }
        }
    }
    return JNI_TRUE;
}

/* Hands bytes to the chip's line; says how many were taken. */
JAVA(jint, give)(JNIEnv *env, jclass c, jlong handle, jbyteArray bytes, jint count) {
    board *b = of(handle);
    jbyte *from = (*env)->GetByteArrayElements(env, bytes, NULL);
    jint taken = 0;
    while (taken < count && put(&b->to_chip, from[taken])) {
        taken++;
    }
    (*env)->ReleaseByteArrayElements(env, bytes, from, JNI_ABORT);
    return taken;
}

/* Takes what the chip has said; says how many bytes. */
JAVA(jint, take)(JNIEnv *env, jclass c, jlong handle, jbyteArray into) {
    board *b = of(handle);
    jint most = (*env)->GetArrayLength(env, into);
    jbyte *to = (*env)->GetByteArrayElements(env, into, NULL);
    jint given = 0;
    while (given < most && length(&b->from_chip) > 0) {
        to[given++] = pop(&b->from_chip);
    }
    (*env)->ReleaseByteArrayElements(env, into, to, 0);
    return given;
}

/* Joins a pin to ground (0) or to the supply (1), or takes every wire off it (-1). */
JAVA(void, wire)(JNIEnv *env, jclass c, jlong handle, jint port, jint bit, jint level) {
    board *b = of(handle);
    side *s = &b->sides[port];
    int driven = level >= 0;
    s->driven = (s->driven & ~(1 << bit)) | driven << bit;
    s->level = (s->level & ~(1 << bit)) | (level > 0) << bit;
    avr_ioport_external_t all = {.name = 'A' + port, .mask = s->driven, .value = s->level};
    avr_ioctl(b->mcu, AVR_IOCTL_IOPORT_SET_EXTERNAL('A' + port), &all);
    avr_irq_t *irq = avr_io_getirq(b->mcu, AVR_IOCTL_IOPORT_GETIRQ('A' + port), bit);
    avr_ioport_state_t state;
    avr_ioctl(b->mcu, AVR_IOCTL_IOPORT_GETSTATE('A' + port), &state);
    if (irq && !(state.ddr >> bit & 1)) {
        avr_raise_irq(irq, driven ? level : (int)(state.port >> bit & 1));
    }
    b->input_us = now_us(b);
}

JAVA(void, volts)(JNIEnv *env, jclass c, jlong handle, jint channel, jint millivolts) {
    board *b = of(handle);
    avr_raise_irq(avr_io_getirq(b->mcu, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_ADC0 + channel), millivolts);
    b->input_us = now_us(b);
}

JAVA(jboolean, isOutput)(JNIEnv *env, jclass c, jlong handle, jint port, jint bit) {
    return of(handle)->sides[port].outputs >> bit & 1;
}

JAVA(jboolean, isHigh)(JNIEnv *env, jclass c, jlong handle, jint port, jint bit) {
    return of(handle)->sides[port].shown >> bit & 1;
}

/* Microseconds from the last change from outside to the last change of this pin; -1 when the pin has not changed since. */
JAVA(jlong, sinceUs)(JNIEnv *env, jclass c, jlong handle, jint port, jint bit) {
    board *b = of(handle);
    uint64_t changed_us = b->sides[port].changed_us[bit];
    return changed_us < b->input_us ? -1 : (jlong)(changed_us - b->input_us);
}
