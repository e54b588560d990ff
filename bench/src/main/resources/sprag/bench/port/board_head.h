/*
 * What the maker of a board has to know. One page; everything else is made from the Java sources.
 *
 * Every tick (sprag_tick_ms), in this order:
 *
 *     sprag_Readings_clear(&sprag_readings);                          a signal that is not set is unknown, which is safe
 *     sprag_Readings_set_double(&sprag_readings, sprag_Signal_PEDAL_A_V, 0.71);        in the unit of the signal
 *     sprag_Readings_set_boolean(&sprag_readings, sprag_Signal_KEY_ON, true);
 *     ... every signal that the vehicle has, LOOP_OVERRUN and LINK_LOST included
 *     sprag_Supervisor_step(&sprag_supervisor, tick, &sprag_readings, &sprag_commands);
 *     sprag_Commands_isOn(&sprag_commands, sprag_Output_NEGATIVE_CONTACTOR)            for each switch
 *     sprag_Commands_get(&sprag_commands, sprag_Output_TORQUE_REQUEST_NM)              for each quantity
 *     then, and only then, feed the watchdog
 *
 * Once, before the first tick: sprag_self_test() must be true, else release everything and stop. Then
 * sprag_Supervisor_wake(&sprag_supervisor, remembered) with the number that sprag_LogicState_pack gave before power went; a number
 * that cannot be read back is given as SPRAG_MEMORY_LOST. A latch that needs service survives that way.
 *
 * DANGER: what these outputs switch can kill, start a fire and move a car. The outputs must fall by themselves when this program
 * stops: a watchdog outside of it, and contactors that open without current. docs/porting.md says the rest.
 */
#ifndef SPRAG_BOARD_H
#define SPRAG_BOARD_H

#include "commands.h"
#include "logic_state.h"
#include "output.h"
#include "readings.h"
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
