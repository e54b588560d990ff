/*
 * What the maker of a board has to know. One page; everything else is made from the Java sources.
 *
 * Every tick (sprag_tick_ms), in this order, from one place and never from two at once:
 *
 *     sprag_Readings_clear(&sprag_readings);                          a signal that is not set is unknown, which is safe
 *     sprag_Readings_set_double(&sprag_readings, sprag_Signal_PEDAL_A_V, value);       in the unit of docs/signals.md
 *     sprag_Readings_set_boolean(&sprag_readings, sprag_Signal_KEY_ON, true);          a switch that was really read
 *     ... every signal that the vehicle has; LOOP_OVERRUN and LINK_LOST too: false while all is well
 *     sprag_Supervisor_step(&sprag_supervisor, tick, &sprag_readings, &sprag_commands);
 *     sprag_Commands_isOn(&sprag_commands, sprag_Output_NEGATIVE_CONTACTOR)            for each switch
 *     sprag_Commands_get(&sprag_commands, sprag_Output_TORQUE_REQUEST_NM)              for each quantity
 *     remember the latch, if it has changed; then, and only then, feed the watchdog
 *
 * "tick" counts 0, 1, 2 ... from the start. It is only for the log. In "value" stands what you have measured; NAN is unknown.
 *
 * Once, in this order: release every output. sprag_self_test() must be true, else stop there. Then
 * sprag_Supervisor_wake(&sprag_supervisor, remembered), before the first tick and never again: begin anew by a reset of the chip.
 *
 * What to remember: while sprag_Supervisor_state(&sprag_supervisor)->latched is sprag_Reset_SERVICE, the number that
 * sprag_LogicState_pack(sprag_Supervisor_state(&sprag_supervisor)) gave when that began; else 0. Write it only then. The packed number
 * itself changes many times a second, and would wear a memory out. What cannot be read back is given as SPRAG_MEMORY_LOST.
 *
 * When anything but a tick has released the outputs (a watchdog, a silent line), do not go on with the next tick. The supervisor
 * believes its contactors closed, and would close them onto a bus that has emptied. Reset the chip: the car begins anew, with the key.
 *
 * DANGER: what these outputs switch can kill, start a fire and move a car. The outputs must fall by themselves when this program
 * stops: a watchdog outside of it, and contactors that open without current. docs/porting.md says the rest.
 */
#ifndef SPRAG_BOARD_H
#define SPRAG_BOARD_H

/* For a board whose own program is C++: the libraries come first, then everything in here is C. */
#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#include "commands.h"
#include "logic_state.h"
#include "output.h"
#include "readings.h"
#include "reset.h"
#include "signal.h"
#include "supervisor.h"

/* The only supervisor, its readings and its commands. */
extern sprag_Supervisor sprag_supervisor;
extern sprag_Readings sprag_readings;
extern sprag_Commands sprag_commands;
/* The length of a tick. Every delay is counted in ticks: keep it. */
extern const int32_t sprag_tick_ms;

/* What wakes up latched, because nobody knows what was remembered. */
#define SPRAG_MEMORY_LOST INT64_C(-1)

/* Whether this compiler computes as Java does: rounding, overflow, unknown numbers. */
bool sprag_self_test(void);

/* To be written by the board's maker. sprag_impossible releases every output and never returns. */
void sprag_impossible(void);
/* The following tell what happened, for a log; they may do nothing. */
