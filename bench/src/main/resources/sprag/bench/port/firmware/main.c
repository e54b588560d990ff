/*
 * An example of a board: the supervisor on an emulated Cortex-M4F (mps2-an386). Its readings come over a serial line and its commands
 * go back there, by Modbus RTU, so that the simulated car can stand at the other end. A real board reads pins instead.
 *
 * DANGER: an example for the emulator. It drives two lamps where a car has contactors, and nothing here is certified.
 *
 *   registers        what                                                        by function
 *   0x0000 ...       readings, 4 registers each: a double, high word first       16 (write)
 *   0x1000           a tick: writing its number lets the supervisor decide once  23 (write and read)
 *   0x2000 ...       commands, 4 registers each, then 4 of the packed state      23 or 3 (read)
 *   0x3000 ...       of this program, 2 registers each, in the order of "told"    3 (read)
 *   0x4000           0x4E57: begin with a new memory, once it is lost; the act   16 (write)
 *                    of somebody who has looked at the car
 *   0x4001           for trials: see board_trial                                 16 (write)
 *
 * The outputs are released when no tick was completed for SILENT_MS, and by every reset. Once they fell by silence no tick is taken
 * any more: the supervisor would close contactors, which it believes closed, onto a bus that has emptied since. The watchdog is then
 * not fed, and after the reset the car begins anew, with the key. The watchdog is fed by a complete tick, and before the first one by
 * waiting for it. After WATCHDOG_MS it releases the outputs, after twice that it resets.
 */
#include "board.h"
#include "line.h"
#include "memory.h"
#include "reset.h"
#include "state.h"
#include <string.h>

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define LAMPS REGISTER(0x40028000U)

enum { STATION = 1, SILENT_MS = 50, CLOCKS_PER_MS = 25000, WATCHDOG_MS = 80, MOST_BYTES = 256, NEW_MEMORY = 0x4E57 };

/* Called by start.c: by interrupts, and when the processor gives up. */
void clock_ticked(void);
void board_trial(uint16_t what);
void board_started(void);
void board_ticked(void);
void board_released(void);
void board_stopped(void);
void release_for_good(void);

enum { SIGNALS = sprag_Signal_ROW_COUNT, OUTPUTS = sprag_Output_ROW_COUNT };

static uint16_t read_from_line[4 * SIGNALS];
static uint16_t commands[4 * (OUTPUTS + 1)];
static uint32_t ticks;
static uint32_t worst;
static uint32_t last;
static volatile uint32_t silent_ms;
static volatile bool released = true;
static volatile bool fell_silent;
static bool computes_well;

/* ---- the hardware of the emulated board ---- */

static void start_hardware(void) {
    line_start();
    REGISTER(0x40000008U) = UINT32_MAX; /* timer: reload, value, on */
    REGISTER(0x40000004U) = UINT32_MAX;
    REGISTER(0x40000000U) = 1;
    REGISTER(0xE000E014U) = CLOCKS_PER_MS - 1; /* an interrupt every millisecond */
    REGISTER(0xE000E018U) = 0;
    REGISTER(0xE000E010U) = 7;
    REGISTER(0x40008C00U) = 0x1ACCE551U; /* watchdog: unlock, time (once: stopped() is called; twice: it resets), on */
    REGISTER(0x40008000U) = WATCHDOG_MS * CLOCKS_PER_MS;
    REGISTER(0x40008008U) = 3;
}

static void feed_watchdog(void) {
    REGISTER(0x4000800CU) = 1;
}

/* Waits for the next byte. */
static uint8_t receive(void) {
    uint32_t fed_ms = silent_ms;
    while (!line_has_byte()) {
        if (released && !fell_silent && silent_ms != fed_ms) {
            feed_watchdog(); /* nothing was switched on yet, and waiting is all there is to do */
            fed_ms = silent_ms;
        }
    }
    return line_take();
}

/* Two lamps stand for the pins: contactors and relay, and what draws or charges. A board with pins sets each of them here. */
static void set_pins(void) {
    bool closed = sprag_Commands_isOn(&sprag_commands, sprag_Output_NEGATIVE_CONTACTOR)
            || sprag_Commands_isOn(&sprag_commands, sprag_Output_PRECHARGE_RELAY)
            || sprag_Commands_isOn(&sprag_commands, sprag_Output_POSITIVE_CONTACTOR);
    bool power = sprag_Commands_isOn(&sprag_commands, sprag_Output_INVERTER_ENABLE)
            || sprag_Commands_isOn(&sprag_commands, sprag_Output_CHARGER_ENABLE);
    LAMPS = (closed ? 1U : 0U) | (power ? 2U : 0U);
}

static void release_outputs(void) {
    LAMPS = 0;
    (void)memset(commands, 0, sizeof(commands));
    sprag_Commands_release(&sprag_commands);
    released = true;
}

void clock_ticked(void) {
    silent_ms++;
    if (silent_ms >= SILENT_MS && !released) {
        fell_silent = true;
        release_outputs();
        board_released();
    }
}

/* Nothing may be trusted any more. The watchdog is not fed, so it resets. */
void release_for_good(void) {
    LAMPS = 0;
    board_stopped();
    for (;;) {
    }
}

void sprag_impossible(void) {
    release_for_good();
}

void sprag_Journal_entered(sprag_Transition via) {
    (void)via;
}

void sprag_Journal_acted(sprag_Interlock row) {
    (void)row;
}

void sprag_Diagnostics_survey(sprag_TickFacts *facts) {
    (void)facts;
}

/* Trials of this example bring their own six: they stop the loop, damage the memory and tell how long it took. */
__attribute__((weak)) void sprag_Diagnostics_begin(int64_t newTick) {
    (void)newTick;
}

__attribute__((weak)) void board_trial(uint16_t what) {
    (void)what;
}

__attribute__((weak)) void board_started(void) {
}

__attribute__((weak)) void board_ticked(void) {
}

__attribute__((weak)) void board_released(void) {
}

__attribute__((weak)) void board_stopped(void) {
}

/* ---- a tick ---- */

static void put_double(uint16_t *place, double value) {
    uint64_t bits = 0;
    (void)memcpy(&bits, &value, sizeof(bits));
    for (int i = 0; i < 4; i++) {
        place[i] = (uint16_t)(bits >> (48 - 16 * i));
    }
}

static double get_double(const uint16_t *place) {
    uint64_t bits = 0;
    double value = 0;
    for (int i = 0; i < 4; i++) {
        bits = (bits << 16) | place[i];
    }
    (void)memcpy(&value, &bits, sizeof(value));
    return value;
}

/* Gives false when the outputs have fallen by silence, before this tick or during it. */
static bool decide(void) {
    for (int32_t i = 0; i < SIGNALS; i++) {
        sprag_Readings_set_double(&sprag_readings, i, (sprag_real)get_double(&read_from_line[4 * i]));
    }
    uint32_t before = REGISTER(0x40000004U);
    sprag_Supervisor_step(&sprag_supervisor, (int64_t)ticks, &sprag_readings, &sprag_commands);
    last = before - REGISTER(0x40000004U);
    worst = last > worst ? last : worst;
    for (int32_t i = 0; i < OUTPUTS; i++) {
        put_double(&commands[4 * i], (double)sprag_Commands_get(&sprag_commands, i));
    }
    int64_t packed = sprag_LogicState_pack(sprag_Supervisor_state(&sprag_supervisor));
    for (int i = 0; i < 4; i++) {
        commands[4 * OUTPUTS + i] = (uint16_t)((uint64_t)packed >> (48 - 16 * i));
    }
    ticks++;
    __asm__ volatile("cpsid i" ::: "memory"); /* the outputs are either those of this tick or released, never a mixture */
    bool in_time = !fell_silent;
    if (in_time) {
        set_pins();
        silent_ms = 0;
        released = false;
    } else {
        release_outputs();
    }
    __asm__ volatile("cpsie i" ::: "memory");
    /* after the pins, because a memory may be slow */
    memory_keep(sprag_Supervisor_state(&sprag_supervisor)->latched == sprag_Reset_SERVICE ? packed : 0);
    if (in_time) {
        feed_watchdog();
        board_ticked();
    }
    return in_time;
}

/* ---- Modbus RTU (the "Modbus over serial line" specification, V1.02): functions 3, 16 and 23 ---- */

static uint8_t frame[MOST_BYTES];
static uint8_t reply[MOST_BYTES];

static uint16_t checksum(const uint8_t *bytes, uint32_t length) {
    uint16_t sum = 0xFFFFU;
    for (uint32_t i = 0; i < length; i++) {
        sum = (uint16_t)(sum ^ bytes[i]);
        for (int bit = 0; bit < 8; bit++) {
            sum = (uint16_t)((sum & 1U) != 0U ? (sum >> 1) ^ 0xA001U : sum >> 1);
        }
    }
    return sum;
}

static uint16_t word(uint32_t at) {
    return (uint16_t)(((uint32_t)frame[at] << 8) | frame[at + 1U]);
}

static void answer(uint32_t length) {
    uint16_t sum = checksum(reply, length);
    reply[length] = (uint8_t)sum;
    reply[length + 1U] = (uint8_t)(sum >> 8);
    line_send(reply, length + 2U);
}

static bool write_registers(uint32_t address, uint32_t count, uint32_t from) {
    if (address + count <= 4U * (uint32_t)SIGNALS) {
        for (uint32_t i = 0; i < count; i++) {
            read_from_line[address + i] = word(from + 2U * i);
        }
        return true;
    }
    if (address == 0x1000U && count == 1U) {
        return !fell_silent && decide();
    }
    if (address == 0x4000U && count == 1U && word(from) == NEW_MEMORY && memory_sound_copies() == 0U) {
        memory_make();
        sprag_Supervisor_wake(&sprag_supervisor, memory_remembered());
        return true;
    }
    if (address == 0x4001U && count == 1U) {
        board_trial(word(from));
        return true;
    }
    return false;
}

static bool read_registers(uint32_t address, uint32_t count, uint32_t to) {
    uint32_t told[] = {ticks, worst, last, memory_starts(), released ? 1U : 0U, computes_well ? 1U : 0U,
            LAMPS, memory_sound_copies(), (uint32_t)sprag_Supervisor_state(&sprag_supervisor)->state};
    for (uint32_t i = 0; i < count; i++) {
        uint32_t at = address + i;
        uint16_t value = 0;
        if (at >= 0x2000U && at < 0x2000U + 4U * ((uint32_t)OUTPUTS + 1U)) {
            value = commands[at - 0x2000U];
        } else if (at >= 0x3000U && at < 0x3000U + 2U * (uint32_t)(sizeof(told) / sizeof(told[0]))) {
            value = (uint16_t)(told[(at - 0x3000U) / 2U] >> ((at & 1U) != 0U ? 0 : 16));
        } else {
            return false;
        }
        reply[to + 2U * i] = (uint8_t)(value >> 8);
        reply[to + 2U * i + 1U] = (uint8_t)value;
    }
    return true;
}

static void refuse(void) {
    reply[1] |= 0x80U;
    reply[2] = 2; /* no such address */
    answer(3);
}

static void obey(void) {
    bool all = false;
    reply[0] = STATION;
    reply[1] = frame[1];
    if (frame[1] == 16U && frame[6] == 2U * word(4)) {
        all = write_registers(word(2), word(4), 7);
        (void)memcpy(&reply[2], &frame[2], 4);
        if (all) {
            answer(6);
        }
    } else if (frame[1] == 3U && word(4) <= 125U) {
        all = read_registers(word(2), word(4), 3);
        reply[2] = (uint8_t)(2U * word(4));
        if (all) {
            answer(3U + reply[2]);
        }
    } else if (frame[1] == 23U && word(4) <= 125U && frame[10] == 2U * word(8)) {
        all = write_registers(word(6), word(8), 11) && read_registers(word(2), word(4), 3);
        reply[2] = (uint8_t)(2U * word(4));
        if (all) {
            answer(3U + reply[2]);
        }
    }
    if (!all) {
        refuse();
    }
}

/* How long a frame is, as far as its first bytes tell: 0 when no function that is known here begins so. */
static uint32_t length_of(uint32_t have) {
    if (frame[0] != STATION) {
        return 0;
    }
    if (have < 2U) {
        return 2;
    }
    switch (frame[1]) {
    case 3:
        return 8;
    case 16:
        return have < 7U ? 7U : 9U + frame[6];
    case 23:
        return have < 11U ? 11U : 13U + frame[10];
    default:
        return 0;
    }
}

static bool is_sound(uint32_t length) {
    uint16_t sum = checksum(frame, length - 2U);
    return frame[length - 2U] == (uint8_t)sum && frame[length - 1U] == (uint8_t)(sum >> 8);
}

/* Obeys what is complete and gives how many bytes are left. In noise each byte may be the first of a frame. */
static uint32_t take_frames(uint32_t have) {
    while (have > 0U) {
        uint32_t wanted = length_of(have);
        bool may_begin_so = wanted != 0U && wanted <= (uint32_t)MOST_BYTES;
        if (may_begin_so && have < wanted) {
            break;
        }
        uint32_t done = 1;
        if (may_begin_so && is_sound(wanted)) {
            if (computes_well) {
                obey();
            }
            done = wanted;
        }
        have -= done;
        (void)memmove(frame, &frame[done], have);
    }
    return have;
}

int main(void) {
    release_outputs();
    memory_count_start();
    sprag_Supervisor_wake(&sprag_supervisor, memory_remembered());
    computes_well = sprag_self_test();
    start_hardware();
    board_started();
    uint32_t have = 0;
    for (;;) {
        frame[have] = receive();
        have = take_frames(have + 1U);
    }
}
