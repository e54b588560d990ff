/*
 * The Logic of the vehicle {{{vehicle}}} with its promises, for SPIN (version 6){{{without}}}.
 *
 *   spin -a logic.pml
 *   gcc -w -DSAFETY -DNOREDUCE -DNOFAIR -o pan pan.c
 *   ./pan -c0 -m1000000
 *
 * A promise holds when "assert(0)" on its line is among the statements that SPIN lists as unreached, and
 * SPIN did not say that the search was cut short. When "else" on its line is unreached, too, no tick was
 * ever one that the promise speaks of. Without -c0, SPIN stops at the first broken promise, and
 * "spin -t -p logic.pml" shows the way to it.
 *
 * Part 1 is made from the rows of the program. Parts 2 and 3 are a second statement, written by hand from
 * the documents: no line of them is made from the program's code.
 */

/* ---- Part 1: made from the rows ---- */

{{#constants}}
#define {{{name}}} {{{value}}}
{{/constants}}

/* Waits of the vehicle, in ticks of {{{tickMs}}} ms. */
{{#waits}}
#define {{{name}}} {{{value}}} /* {{{key}}} */
{{/waits}}
/* The same as the promises have them. They differ only when a wait was changed to see what breaks. */
{{#promised}}
#define {{{name}}} {{{value}}}
{{/promised}}

/* How the vehicle is built. */
{{#build}}
#define {{{name}}} {{{value}}} /* {{{key}}} */
{{/build}}

/* Which contactor is closed in which step. */
#define NEGATIVE_CLOSED(s) ({{{negative}}})
#define RELAY_CLOSED(s)    ({{{relay}}})
#define POSITIVE_CLOSED(s) ({{{positive}}})

/* Every way from one state to another; whether an interlock opens everything at once on it. */
{{#transitions}}
#define {{{name}}}_FROM {{{from}}}
#define {{{name}}}_TO {{{to}}}
#define {{{name}}}_OPENS {{{opens}}}
{{/transitions}}

/* Interlocks that only a sequence of steps can see: whether they are in place, and what ends them. */
{{#sequenced}}
#define RULE_{{{name}}} {{{inPlace}}}
#define RESET_{{{name}}} {{{reset}}}
{{/sequenced}}

/* What Logic may be told. A fact is OPEN until it is asked for: then it has any of its values, and keeps it for the tick. */
#define NO 0
#define YES 1
#define OPEN 3
{{#facts}}
unsigned {{{name}}} : 2 = OPEN; /* {{{meaning}}} */
{{/facts}}

inline forget_facts() {
{{#facts}}
  {{{name}}} = OPEN;
{{/facts}}
  skip
}

/* ---- Part 2: what Logic does in a tick ---- */

/* What is remembered from tick to tick. */
byte state = OFF;
byte step = IDLE;
int ticks;
byte charge = WAITING;
byte latched = NO_RESET;
byte torque_latched = NO_RESET;
byte engaged = NEUTRAL;
bit key_seen_off;
bit start_seen_released;
bit key_seen_on;

/* What a tick permits, and what is known within it. */
#define NO_TORQUE 0
#define RAMP_TO_ZERO 1
#define FOLLOW_PEDAL 2
#define NOTHING 7
unsigned torque : 3;
unsigned torque_engaged : 3;
bit inverter;
bit limited;
bit charging;
unsigned acts : 3 = NOTHING;   /* what the interlock that acts does */
unsigned ends : 3 = NO_RESET;   /* what it takes to end that */
bit failed;  /* the contactor sequence tripped over something */
bit opens;   /* an interlock opened everything at once */
bit ramps;
bit directed;
bit refused;
bit at_rest;
bit chosen;
bit stop_asked;
unsigned closed : 3;

/* What was before the tick. */
unsigned was_state : 3;
unsigned was_step : 4;
int was_ticks;
unsigned was_charge : 3;
unsigned was_latched : 3;
unsigned was_torque_latched : 3;
unsigned was_engaged : 3;

/* To ask for a fact, as a guard and as a statement. */
#define IS(f)  d_step { f != NO -> f = YES }
#define NOT(f) d_step { f != YES -> f = NO }
#define ASK(f) if :: IS(f) :: NOT(f) fi
#define VALUE(f, v) d_step { f == OPEN || f == v -> f = v }
#define ASK_BUS if :: VALUE(bus_level, DISCHARGED) :: VALUE(bus_level, PARTIAL) :: VALUE(bus_level, CHARGED) fi
#define ASK_LEVER if :: VALUE(direction, NEUTRAL) :: VALUE(direction, FORWARD) :: VALUE(direction, REVERSE) fi

/* A row of the interlocks: asked in order, and the first whose cause is there acts. */
#define WHEN(f, does, until, there)   if :: d_step { f != NO -> f = YES; acts = does; ends = until } goto there :: NOT(f) fi
#define UNLESS(f, does, until, there) if :: d_step { f != YES -> f = NO; acts = does; ends = until } goto there :: IS(f) fi

#define STRONGER(of, than) of = (than > of -> than : of)
#define ENTER(s) d_step { step = s; ticks = 0 }
#define GO(way) d_step { assert(state == way##_FROM); state = way##_TO; opens = way##_OPENS }

#define MORE(a, b) (a > b -> a : b)
#define FIRST_TEST (TESTS_NEGATIVE -> TEST_NEGATIVE : TEST_POSITIVE)
#define OVERLAPS MORE(CLOSE, OVERLAP_ASKED)
#define SPINS MORE(WAIT, SPIN_ASKED)
#define SECOND_TEST MORE(WELD_TEST, CLOSE)
/* No tick is counted beyond the longest time that a step is compared with. */
#define COUNTED(s) ((s == TEST_NEGATIVE || s == TEST_POSITIVE) -> SECOND_TEST : \
  ((s == TEST_PAUSE || s == OPEN_POSITIVE || s == OPEN_NEGATIVE) -> RELEASE : \
  (s == RAISE_BUS -> TIMEOUT : (s == OVERLAP -> OVERLAPS : (s == RAMP_DOWN -> SPINS : (s == IDLE -> WAIT : 0))))))

inline begin_tick() {
  d_step {
    was_state = state; was_step = step; was_ticks = ticks; was_charge = charge;
    was_latched = latched; was_torque_latched = torque_latched; was_engaged = engaged;
    ticks = (ticks + 1 < COUNTED(step) -> ticks + 1 : COUNTED(step))
  }
}

/* Nothing of a tick is left for the next but what is remembered. */
inline end_tick() {
  d_step {
    forget_facts();
    was_state = OFF; was_step = IDLE; was_ticks = 0; was_charge = WAITING;
    was_latched = NO_RESET; was_torque_latched = NO_RESET; was_engaged = NEUTRAL;
    torque = NO_TORQUE; torque_engaged = NEUTRAL; inverter = 0; limited = 0; charging = 0;
    acts = NOTHING; ends = NO_RESET; failed = 0; opens = 0; ramps = 0; directed = 0; refused = 0; at_rest = 0;
    chosen = 0; stop_asked = 0; closed = 0
  }
}

inline latch() {
  if
  :: ends >= KEY_CYCLE -> STRONGER(latched, ends)
  :: else
  fi
}

/* Everything opens at once. */
inline open_all() {
  d_step { step = IDLE; ticks = 0; charge = WAITING; torque_latched = NO_RESET; engaged = NEUTRAL; key_seen_on = 0 }
}

inline trip(until) { d_step { failed = 1; acts = OPEN_NOW; ends = until } }

/* The way down, from wherever the sequence is. Nothing closes that is open. */
inline begin_lowering() {
  if
  :: step == OVERLAP || step == HOLD -> ENTER(RAMP_DOWN)
  :: step == RAISE_BUS -> ENTER(OPEN_POSITIVE)
  :: step == TEST_NEGATIVE || step == TEST_PAUSE || step == TEST_POSITIVE -> ENTER(OPEN_NEGATIVE)
  :: else
  fi
}

/* One tick of the way down. */
inline lower() {
  if
  :: step == RAMP_DOWN ->
     if
     :: ticks >= SPINS -> ENTER(OPEN_POSITIVE)
     :: ticks < SPINS ->
        if
        :: IS(back_emf_high)
        :: NOT(back_emf_high) ->
           if
           :: ticks >= WAIT -> ENTER(OPEN_POSITIVE)
           :: ticks < WAIT -> if :: IS(current_low) -> ENTER(OPEN_POSITIVE) :: NOT(current_low) fi
           fi
        fi
     fi
  :: step == OPEN_POSITIVE -> if :: ticks >= RELEASE -> ENTER(OPEN_NEGATIVE) :: else fi
  :: step == OPEN_NEGATIVE -> if :: ticks >= RELEASE -> ENTER(BLEED) :: else fi
  :: step == BLEED -> ASK_BUS; if :: bus_level == DISCHARGED -> ENTER(IDLE) :: else fi
  :: else
  fi
}

/* A part of the weld test: the bus must stay dead for so long. */
inline test(rule, until, lasts, next) {
  ASK_BUS;
  if
  :: bus_level != DISCHARGED && rule -> trip(until)
  :: else -> if :: ticks >= lasts -> ENTER(next) :: else fi
  fi
}

/* One tick of the way up, towards HOLD. */
inline raise() {
  if
  :: step == TEST_NEGATIVE -> test(RULE_NEGATIVE_WELD_FOUND, RESET_NEGATIVE_WELD_FOUND, WELD_TEST, TEST_PAUSE)
  :: step == TEST_PAUSE -> test(RULE_POSITIVE_WELD_FOUND, RESET_POSITIVE_WELD_FOUND, RELEASE, TEST_POSITIVE)
  :: step == TEST_POSITIVE ->
     test(RULE_POSITIVE_WELD_FOUND, RESET_POSITIVE_WELD_FOUND, SECOND_TEST, RAISE_BUS);
     if
     :: step == RAISE_BUS && RULE_CONTACTOR_NOT_CLOSED ->
        if :: IS(negative_confirmed) :: NOT(negative_confirmed) -> trip(RESET_CONTACTOR_NOT_CLOSED) fi
     :: else
     fi
  :: step == RAISE_BUS -> charge_bus()
  :: step == OVERLAP ->
     if
     :: ticks >= OVERLAPS && RULE_CONTACTOR_NOT_CLOSED ->
        if :: IS(positive_confirmed) -> ENTER(HOLD) :: NOT(positive_confirmed) -> trip(RESET_CONTACTOR_NOT_CLOSED) fi
     :: ticks >= OVERLAPS && !RULE_CONTACTOR_NOT_CLOSED -> ENTER(HOLD)
     :: else
     fi
  :: else
  fi
}

/* The precharge: charged, flat and long enough ends it; reversed, overloaded, too fast, stalled or too slow is a trip. */
inline charge_bus() {
  if
  :: RULE_PRECHARGE_REVERSED -> if :: IS(bus_reversed) -> trip(RESET_PRECHARGE_REVERSED) :: NOT(bus_reversed) fi
  :: else
  fi;
  if
  :: !failed && RULE_RESISTOR_OVERLOADED -> if :: IS(resistor_overloaded) -> trip(RESET_RESISTOR_OVERLOADED) :: NOT(resistor_overloaded) fi
  :: else
  fi;
  if
  :: !failed -> ASK_BUS
  :: else
  fi;
  if
  :: failed
  :: !failed && bus_level == CHARGED && ticks < FAST && RULE_PRECHARGE_FAST -> trip(RESET_PRECHARGE_FAST)
  :: !failed && bus_level == CHARGED && !(ticks < FAST && RULE_PRECHARGE_FAST) ->
     if
     :: ticks >= LEAST -> if :: IS(bus_flat) -> ENTER(OVERLAP) :: NOT(bus_flat) fi
     :: else
     fi
  :: !failed && bus_level != CHARGED ->
     if
     :: RULE_PRECHARGE_STALLED -> if :: IS(bus_stalled) -> trip(RESET_PRECHARGE_STALLED) :: NOT(bus_stalled) fi
     :: else
     fi
  fi;
  if
  :: !failed && step == RAISE_BUS && ticks >= TIMEOUT && RULE_PRECHARGE_SLOW -> trip(RESET_PRECHARGE_SLOW)
  :: else
  fi
}

/* Torque ends and the contactors open in order. A torque latch that needs the key survives, unless the key is off. */
inline give_up() {
  latch();
  if
  :: torque_latched == KEY_CYCLE -> if :: IS(key_off) :: NOT(key_off) -> STRONGER(latched, KEY_CYCLE) fi
  :: else
  fi;
  begin_lowering();
  torque_latched = NO_RESET;
  engaged = NEUTRAL
}

/* Whether torque may follow the pedal, and which way. */
inline drive() {
  if
  :: acts == ZERO_TORQUE -> STRONGER(torque_latched, ends)
  :: acts != ZERO_TORQUE && torque_latched == BRAKED_RELEASE ->
     ASK(pedal_released);
     if
     :: pedal_released == YES -> if :: IS(brake_pressed) -> torque_latched = NO_RESET :: NOT(brake_pressed) fi
     :: else
     fi
  :: acts != ZERO_TORQUE && torque_latched == PEDAL_RELEASE ->
     if :: IS(pedal_released) -> torque_latched = NO_RESET :: NOT(pedal_released) fi
  :: else
  fi;
  ASK_LEVER;
  if
  :: direction == NEUTRAL -> STRONGER(torque_latched, PEDAL_RELEASE)
  :: direction != NEUTRAL && direction == engaged -> directed = 1
  :: direction != NEUTRAL && direction != engaged && !RULE_DIRECTION_ROLLING -> engaged = direction; directed = 1
  :: direction != NEUTRAL && direction != engaged && RULE_DIRECTION_ROLLING ->
     if
     :: NOT(standstill)
     :: IS(standstill) -> if :: IS(pedal_released) -> engaged = direction; directed = 1 :: NOT(pedal_released) fi
     fi
  fi;
  if
  :: directed && acts != ZERO_TORQUE && torque_latched == NO_RESET -> torque = FOLLOW_PEDAL
  :: else
  fi;
  torque_engaged = engaged;
  inverter = 1;
  limited = (acts == LIMIT)
}

inline begin_ending() {
  charge = ENDING;
  if
  :: CHARGER_NEEDS_BUS -> begin_lowering()
  :: else -> ENTER(IDLE)
  fi
}

/* What becomes of the charge while a plug is there. */
inline go_on_charging() {
  refused = (acts != NOTHING && acts != LIMIT);
  if
  :: was_charge == WAITING ->
     if
     :: refused -> charge = REFUSED
     :: else ->
        if
        :: NOT(charge_due) -> charge = FINISHED
        :: IS(charge_due) ->
           ASK(charge_offered);
           if
           :: charge_offered == YES -> if :: IS(plug_held) -> begin_charge() :: NOT(plug_held) fi
           :: else
           fi
        fi
     fi
  :: was_charge == CHARGING -> charge_on()
  :: was_charge == ENDING && CHARGER_NEEDS_BUS -> lower(); if :: step == IDLE -> charge = WAITING :: else fi
  :: was_charge == ENDING && !CHARGER_NEEDS_BUS ->
     if
     :: ticks >= WAIT -> charge = WAITING; ENTER(IDLE)
     :: else -> if :: IS(current_low) -> charge = WAITING; ENTER(IDLE) :: NOT(current_low) fi
     fi
  :: was_charge == FINISHED -> if :: IS(charge_due) -> charge = WAITING :: NOT(charge_due) fi
  :: was_charge == REFUSED && !refused -> if :: IS(charge_retry) -> charge = WAITING :: NOT(charge_retry) fi
  :: was_charge == REFUSED && refused
  fi
}

inline begin_charge() {
  if
  :: !CHARGER_NEEDS_BUS -> charge = CHARGING; ENTER(IDLE)
  :: else -> ASK_BUS; if :: bus_level == DISCHARGED -> charge = CHARGING; ENTER(FIRST_TEST) :: else fi
  fi
}

inline charge_on() {
  if
  :: refused
  :: else ->
     if
     :: RULE_PLUG_PULLED ->
        if
        :: NOT(plug_seen) -> refused = 1
        :: IS(plug_seen) -> if :: IS(plug_released) -> refused = 1 :: NOT(plug_released) fi
        fi
     :: else
     fi
  fi;
  if :: refused :: else -> if :: IS(plug_held) :: NOT(plug_held) -> refused = 1 fi fi;
  if :: refused :: else -> if :: IS(charge_offered) :: NOT(charge_offered) -> refused = 1 fi fi;
  if :: refused :: else -> if :: IS(charge_done) -> refused = 1 :: NOT(charge_done) fi fi;
  if
  :: refused -> begin_ending()
  :: !refused && CHARGER_NEEDS_BUS -> raise()
  :: !refused && !CHARGER_NEEDS_BUS
  fi
}

inline off() {
  if
  :: IS(key_off) -> if :: IS(key_on) :: NOT(key_on) -> key_seen_off = 1 fi
  :: NOT(key_off)
  fi;
  if
  :: acts != NOTHING -> latch(); open_all(); GO(FAULT_WHILE_OFF)
  :: else ->
     if
     :: IS(plug_seen) -> charge = WAITING; GO(PLUGGED_WHILE_OFF)
     :: NOT(plug_seen) ->
        ASK(key_on);
        if
        :: key_on == YES && (key_seen_off || !RULE_KEY_NEVER_OFF) -> start_seen_released = 0; GO(KEY_TURNED_ON)
        :: else
        fi
     fi
  fi
}

inline ignition() {
  if
  :: acts != NOTHING && ends == SERVICE -> latch(); open_all(); GO(FAULT_AT_KEY_ON)
  :: else ->
     if
     :: IS(plug_seen) -> charge = WAITING; GO(PLUGGED_AT_KEY_ON)
     :: NOT(plug_seen) ->
        if
        :: NOT(key_on) -> GO(KEY_TURNED_OFF)
        :: IS(key_on) -> if :: IS(start_released) -> start_seen_released = 1 :: NOT(start_released) -> start() fi
        fi
     fi
  fi
}

inline start() {
  if
  :: NOT(start_requested)
  :: IS(start_requested) ->
     if
     :: start_seen_released || !RULE_START_HELD ->
        if :: RULE_BUS_NOT_DISCHARGED -> ASK_BUS :: else fi;
        if
        :: (bus_level == DISCHARGED || !RULE_BUS_NOT_DISCHARGED) && acts == NOTHING -> ENTER(FIRST_TEST); GO(STARTED)
        :: else
        fi
     :: else
     fi
  fi
}

inline precharge() {
  if
  :: acts == OPEN_NOW -> latch(); open_all(); GO(START_FAILED)
  :: acts != OPEN_NOW && acts != NOTHING -> give_up(); GO(START_GIVEN_UP)
  :: acts == NOTHING ->
     if
     :: NOT(key_on) -> give_up(); GO(START_GIVEN_UP)
     :: IS(key_on) ->
        raise();
        if
        :: failed -> latch(); open_all(); GO(START_FAILED)
        :: !failed && step == HOLD ->
           torque_latched = (RULE_PEDAL_AT_ENABLE -> BRAKED_RELEASE : NO_RESET);
           engaged = NEUTRAL;
           GO(CONNECTED)
        :: else
        fi
     fi
  fi
}

inline drive_enable() {
  if
  :: acts == OPEN_NOW -> latch(); open_all(); GO(OPENED_DRIVING)
  :: acts == STOP_THEN_OPEN -> give_up(); GO(STOP_DRIVING)
  :: else ->
     if
     :: IS(key_on) -> drive()
     :: NOT(key_on) ->
        ramps = (acts != ZERO_TORQUE && torque_latched == NO_RESET);
        if :: acts == ZERO_TORQUE -> STRONGER(torque_latched, ends) :: else fi;
        torque = (ramps -> RAMP_TO_ZERO : NO_TORQUE);
        inverter = ramps;
        ends = NO_RESET;
        give_up();
        GO(KEY_OFF_DRIVING)
     fi
  fi
}

inline rundown() {
  if
  :: acts == OPEN_NOW -> latch(); open_all(); GO(OPENED_RUNNING_DOWN)
  :: else ->
     latch();
     ASK(plug_seen);
     lower();
     ramps = (step == RAMP_DOWN && latched == NO_RESET && plug_seen == NO);
     torque = (ramps -> RAMP_TO_ZERO : NO_TORQUE);
     inverter = ramps;
     if
     :: step == IDLE && latched != NO_RESET -> open_all(); GO(RUN_DOWN_LATCHED)
     :: step == IDLE && latched == NO_RESET && plug_seen == YES -> charge = WAITING; GO(RUN_DOWN_PLUGGED)
     :: step == IDLE && latched == NO_RESET && plug_seen == NO ->
        if :: IS(key_on) -> start_seen_released = 0; GO(RUN_DOWN_KEY_ON) :: NOT(key_on) -> GO(RUN_DOWN_KEY_OFF) fi
     :: else
     fi
  fi
}

inline charge_lockout() {
  at_rest = (step == IDLE && charge != CHARGING && charge != ENDING);
  if
  :: acts == OPEN_NOW && (!at_rest || ends == SERVICE) -> latch(); open_all(); GO(OPENED_CHARGING)
  :: else ->
     if :: acts != NOTHING && (!at_rest || ends == SERVICE) -> latch() :: else fi;
     if
     :: at_rest && latched != NO_RESET -> open_all(); GO(CHARGE_LATCHED)
     :: !(at_rest && latched != NO_RESET) ->
        if :: at_rest -> ASK(plug_seen) :: else fi;
        if
        :: at_rest && plug_seen == NO -> charge = WAITING; GO(UNPLUGGED)
        :: else ->
           go_on_charging();
           if
           :: failed -> latch(); open_all(); GO(OPENED_CHARGING)
           :: else ->
              charging = (charge == CHARGING && (!CHARGER_NEEDS_BUS || step == HOLD));
              limited = (charging && acts != NOTHING)
           fi
        fi
     fi
  fi
}

inline fault() {
  latch();
  if
  :: IS(key_on) -> key_seen_on = 1
  :: NOT(key_on) ->
     if
     :: latched == SERVICE -> ASK(service_reset)
     :: else
     fi;
     if
     :: acts == NOTHING && (latched == SERVICE -> service_reset == YES : key_seen_on) ->
        if
        :: IS(key_off) -> latched = NO_RESET; key_seen_on = 0; key_seen_off = 1; GO(RESET_DONE)
        :: NOT(key_off)
        fi
     :: else
     fi
  fi
}

/* ---- Part 3: the promises ---- */

/* In a promise a fact that nobody asked for may have any value, so what must not be true has to be known to be false. */
#define never(f) (f == NO)
#define always(f) (f == YES)
#define seen(f) (f == YES)
#define known_off(f) (f == NO)
#define maybe(f) (f != NO)
#define maybe_not(f) (f != YES)

#define was(s) (was_state == s)
#define now_in(s) (state == s)
#define goes(a, b) (was_step == a && step == b)
#define lasted (was_ticks + 1)
#define negative NEGATIVE_CLOSED(step)
#define relay RELAY_CLOSED(step)
#define positive POSITIVE_CLOSED(step)
#define any_closed (negative || relay || positive)
#define has_torque (torque != NO_TORQUE)
#define follows (torque == FOLLOW_PEDAL)
#define ramping (torque == RAMP_TO_ZERO)
#define live (any_closed || inverter || has_torque || charging)
#define goes_on (state == PRECHARGE || state == DRIVE_ENABLE)
#define goes_up (step == TEST_NEGATIVE || step == TEST_PAUSE || step == TEST_POSITIVE || step == RAISE_BUS || step == OVERLAP || goes(OVERLAP, HOLD))
#define starts (was(IGNITION) && now_in(PRECHARGE))
#define begins (was_step == IDLE && any_closed)
#define closes_positive (positive && !POSITIVE_CLOSED(was_step))
#define closes ((negative && !NEGATIVE_CLOSED(was_step)) || (relay && !RELAY_CLOSED(was_step)) || closes_positive)
#define keeps_raising (was_step == RAISE_BUS && (step == RAISE_BUS || step == OVERLAP))
#define is_test(s) (s == TEST_NEGATIVE || s == TEST_PAUSE || s == TEST_POSITIVE)
#define tests_on (is_test(was_step) && (is_test(step) || step == RAISE_BUS))
#define full_torque (follows && !limited)
#define was_working (was_step != IDLE || was_charge == CHARGING || was_charge == ENDING)
#define enters_fault (now_in(FAULT) && !was(FAULT))
#define begins_charge (was_charge != CHARGING && charge == CHARGING)
#define key_is_seen_off (seen(key_off) && !seen(key_on))
#define wakes (closes || charging)
#define restful (state == OFF || state == IGNITION || state == FAULT)

#define P_OVERLAPS MORE(P_CLOSE, P_OVERLAP_ASKED)
#define P_SPINS MORE(P_WAIT, P_SPIN_ASKED)
#define P_SECOND_TEST MORE(P_WELD_TEST, P_CLOSE)
#define P_OPENING (P_SPINS + P_RELEASE)
#define P_RAISING (P_TIMEOUT + P_OVERLAPS)
#define P_STARTING (P_WELD_TEST + P_RELEASE + P_SECOND_TEST + P_RAISING)
#define P_ENDING_CHARGE (CHARGER_NEEDS_BUS -> P_OPENING : 0)

/* Which step may follow which, and what is closed in each: stated here without a look at the rows. */
#define STEP_FOLLOWS ( \
  (was_step == IDLE && step == (TESTS_NEGATIVE -> TEST_NEGATIVE : TEST_POSITIVE)) || \
  (was_step != IDLE && step == IDLE) || \
  goes(TEST_NEGATIVE, TEST_PAUSE) || goes(TEST_NEGATIVE, OPEN_NEGATIVE) || \
  goes(TEST_PAUSE, TEST_POSITIVE) || goes(TEST_PAUSE, OPEN_NEGATIVE) || \
  goes(TEST_POSITIVE, RAISE_BUS) || goes(TEST_POSITIVE, OPEN_NEGATIVE) || \
  goes(RAISE_BUS, OVERLAP) || goes(RAISE_BUS, OPEN_POSITIVE) || \
  goes(OVERLAP, HOLD) || goes(OVERLAP, RAMP_DOWN) || goes(HOLD, RAMP_DOWN) || \
  goes(RAMP_DOWN, OPEN_POSITIVE) || goes(OPEN_POSITIVE, OPEN_NEGATIVE) || goes(OPEN_NEGATIVE, BLEED))
#define CONTACTS_ARE_RIGHT ( \
  negative == (step == TEST_POSITIVE || step == RAISE_BUS || step == OVERLAP || step == HOLD || step == RAMP_DOWN || step == OPEN_POSITIVE) && \
  relay == (step == TEST_NEGATIVE || step == RAISE_BUS || step == OVERLAP) && \
  positive == (step == OVERLAP || step == HOLD || step == RAMP_DOWN))

#define pedal_is_sound (never(pedal_out_of_range) && never(pedal_shorted) && never(pedal_reference_wrong) && never(pedal_disagrees))
#define sighted (never(readings_lost) && never(link_lost) && never(loop_late))
#define traction_is_safe (never(cut_loop_open) && never(crash_seen) && never(lv_lost) && never(negative_welded) && never(positive_welded) && never(precharge_welded))
#define seen_to_end_a_drive ( \
  seen(cut_loop_open) || seen(crash_seen) || seen(lv_lost) || seen(negative_welded) || seen(positive_welded) || seen(precharge_welded) || \
  seen(plug_seen) || seen(cover_loop_open) || seen(pack_overheated) || seen(pack_overvoltage) || seen(pack_undervoltage) || \
  seen(cell_overvoltage) || seen(cell_undervoltage) || seen(pack_overcurrent) || seen(readings_lost) || seen(link_lost) || seen(loop_late) || \
  seen(gate_vetoed) || seen(bus_lost) || seen(negative_dropped) || seen(positive_dropped) || seen(torque_unasked))
#define nothing_keeps_the_fault (traction_is_safe && never(bus_still_live) && never(charger_runs_on) && never(cover_loop_open) && \
  never(pack_overheated) && never(pack_overvoltage) && never(cell_overvoltage) && sighted && never(gate_vetoed) && \
  never(charge_overvoltage) && never(isolation_low))
#define no_cause_needs_release (never(inverter_faulted) && never(inverter_not_ready) && never(pedal_with_brake) && never(direction_conflict) && \
  never(bus_overvoltage) && never(motor_overheated) && never(inverter_overheated) && never(coolant_overheated) && never(discharge_withdrawn))
#define seen_to_need_release (seen(inverter_faulted) || seen(inverter_not_ready) || seen(pedal_with_brake) || seen(direction_conflict) || \
  seen(bus_overvoltage) || seen(motor_overheated) || seen(inverter_overheated) || seen(coolant_overheated) || seen(discharge_withdrawn))
#define seen_to_need_the_key (seen(pedal_out_of_range) || seen(pedal_shorted) || seen(pedal_reference_wrong) || seen(pedal_disagrees) || seen(speed_lost))
#define seen_to_need_service (seen(crash_seen) || seen(negative_welded) || seen(positive_welded) || seen(precharge_welded) || seen(gate_vetoed))

/* What may be true and may be false in this tick, of the causes after which the key must be turned. */
#define undervoltage(what) (what(pack_undervoltage) || what(cell_undervoltage))
#define cycle_cause(what) (what(cut_loop_open) || what(lv_lost) || what(cover_loop_open) || what(pack_overheated) || what(pack_overvoltage) || \
  what(cell_overvoltage) || what(pack_overcurrent) || what(readings_lost) || what(link_lost) || what(loop_late) || what(negative_dropped) || what(positive_dropped))
#define trip_cause(what) ( \
  (was(PRECHARGE) && (cycle_cause(what) || undervoltage(what))) || \
  (was(DRIVE_ENABLE) && (cycle_cause(what) || what(bus_lost) || what(torque_unasked) || undervoltage(what))) || \
  (was(RUNDOWN) && (cycle_cause(what) || what(bus_lost) || what(torque_unasked))) || \
  (was(CHARGE_LOCKOUT) && (cycle_cause(what) || what(charger_runs_on) || what(charge_overvoltage) || what(bus_lost))))
#define CHOOSE(may_be, may_not_be) if :: (may_be) -> chosen = 1 :: (may_not_be) -> chosen = 0 fi

#define wishes_to_stop ( \
  ((was(PRECHARGE) || was(DRIVE_ENABLE)) && (!goes_on || known_off(key_on) || seen(plug_seen))) || \
  (was_charge == CHARGING && (charge != CHARGING || seen(charge_done) || known_off(charge_offered) || known_off(plug_seen) || known_off(plug_held))) || \
  ((was(PRECHARGE) || was(DRIVE_ENABLE) || was_charge == CHARGING) && (seen(cover_loop_open) || seen(cut_loop_open))))

/* Each run watches one promise about several ticks, or those about single ticks. */
#define SINGLE_TICKS 0
{{#histories}}
#define {{{name}}} {{{value}}}
{{/histories}}
#ifdef WATCHED
byte watched = WATCHED;
#else
byte watched;
#endif
int memory;

/* A promise about single ticks: the ticks of which it speaks, and what it demands of them. */
#define PROMISE(name, of, demanded) :: (of) -> if :: (demanded) :: else -> assert(false) fi
/* A promise that remembers one bit: when it looks at all, what sets it, what clears it, and what must not be while it is set. */
#define LATCH(name, looks, sets, clears, forbidden) :: watched == name && (looks || memory != 0) -> if \
  :: memory != 0 && !(clears) && (forbidden) -> memory = 0; assert(false) \
  :: memory != 0 && !(clears) && !(forbidden) \
  :: else -> memory = ((sets) -> 1 : 0) fi
/* A promise that something follows within so many ticks. */
#define WITHIN(name, limit, cause, answer) :: watched == name && (memory > 0 || (cause)) -> if \
  :: !(answer) && memory >= (limit) -> memory = 0; assert(false) \
  :: !(answer) && memory < (limit) -> memory = memory + 1 \
  :: (answer) -> memory = 0 fi
/* A promise about something that must come first. */
#define FIRST(name, looks, before, forbidden, after) :: watched == name && (looks || memory != 0) -> if \
  :: !(before) && (forbidden) -> memory = 0; assert(false) \
  :: else -> memory = ((after) -> 1 : 0) fi
/* After a fact only a service reset helps. */
#define SERVICED(name, f) :: watched == name -> ASK(f); \
  CHOOSE(memory != 0 && maybe(key_off) && maybe_not(key_on) && maybe(service_reset) && f == NO, memory == 0 || maybe_not(key_off) || maybe(key_on) || maybe_not(service_reset) || f == YES); \
  if \
  :: memory != 0 && !chosen && wakes -> memory = 0; assert(false) \
  :: else -> memory = ((f == YES || (memory != 0 && !chosen)) -> 1 : 0) fi

inline judge() {
  if
  :: watched == SINGLE_TICKS -> judge_tick()
  :: else -> look_back()
  fi
}

inline judge_tick() {
  if
  PROMISE(DEAD_ON_CUT_OFF, live, never(cut_loop_open) && never(crash_seen))
  PROMISE(DEAD_ON_A_WELD, live, never(negative_welded) && never(positive_welded))
  PROMISE(DEAD_ON_A_STUCK_RELAY, live, never(precharge_welded))
  PROMISE(DEAD_WITHOUT_12_V, live, never(lv_lost))
  PROMISE(DEAD_ON_A_VETO, live, never(gate_vetoed))
  PROMISE(DEAD_AT_REST, restful, !live)
  PROMISE(BUS_DIES, any_closed && !was(PRECHARGE) && !was(DRIVE_ENABLE), never(bus_still_live))
  PROMISE(BLEED_ENDS_DEAD, goes(BLEED, IDLE), opens || bus_level == DISCHARGED)
  PROMISE(COVER_STOPS, goes_on, never(cover_loop_open))

  PROMISE(NO_TORQUE_WITH_A_PLUG, has_torque || inverter, never(plug_seen))
  PROMISE(NO_DRIVE_WITH_A_PLUG, goes_on, never(plug_seen))
  PROMISE(NO_CHARGE_WHILE_ROLLING, charging, never(rolling_plugged))
  PROMISE(PLUG_LOCKS_OUT, (was(OFF) || was(IGNITION)) && !now_in(CHARGE_LOCKOUT) && !now_in(FAULT), never(plug_seen))
  PROMISE(NO_TORQUE_WHILE_LOCKED, was(CHARGE_LOCKOUT) || now_in(CHARGE_LOCKOUT), !has_torque && !inverter)

  PROMISE(PEDAL_ONLY_IN_DRIVE, follows, was(DRIVE_ENABLE) && now_in(DRIVE_ENABLE) && step == HOLD && inverter)
  PROMISE(RAMP_ONLY_IN_RUNDOWN, ramping, now_in(RUNDOWN) && step == RAMP_DOWN)
  PROMISE(RAMP_ONLY_FROM_TORQUE, ramping && was(DRIVE_ENABLE), was_torque_latched == NO_RESET && no_cause_needs_release && pedal_is_sound && never(speed_lost))
  PROMISE(TORQUE_NEEDS_THE_KEY, follows, always(key_on))
  PROMISE(TORQUE_NEEDS_A_PEDAL, follows, pedal_is_sound)
  PROMISE(BRAKE_WINS, follows, never(pedal_with_brake))
  PROMISE(STUCK_PEDAL_IS_SPARED, follows, never(pedal_still))
  PROMISE(TORQUE_NEEDS_OBEDIENCE, follows, never(inverter_faulted) && never(inverter_not_ready) && never(torque_unasked))
  PROMISE(START_IS_BRAKED, starts, always(brake_pressed) && always(pedal_released))
  PROMISE(START_PEDAL_IS_SOUND, starts, never(pedal_rest_wrong) && pedal_is_sound)

  PROMISE(ONE_DIRECTION, follows, (direction == FORWARD || direction == REVERSE) && direction == torque_engaged && torque_engaged == engaged)
  PROMISE(CLEAR_DIRECTION, follows, never(direction_conflict))
  PROMISE(NO_TURNING_WHILE_ROLLING, engaged != was_engaged && engaged != NEUTRAL, always(standstill) && always(pedal_released))
  PROMISE(DRIVE_IS_KEPT, was(DRIVE_ENABLE) && !now_in(DRIVE_ENABLE), never(key_on) || seen_to_end_a_drive)
  PROMISE(DRIVE_STAYS_CONNECTED, was(DRIVE_ENABLE) && now_in(DRIVE_ENABLE), step == HOLD && inverter)
  PROMISE(SPEED_IS_KNOWN, follows || starts, never(speed_lost) && never(speed_doubted))

  PROMISE(CURRENT_IS_AGREED, full_torque || starts, never(currents_apart))
  PROMISE(CURRENT_AT_CHARGE, charging, never(currents_apart))

  PROMISE(INSULATION_AT_REST, goes_up, never(isolation_low))
  PROMISE(INSULATION_KNOWN_TO_GO, starts, never(isolation_silent))
  PROMISE(INSULATION_WARNED, full_torque, never(isolation_low) && never(isolation_silent))
  PROMISE(INSULATION_AT_CHARGE, charging, never(isolation_low) && never(isolation_silent))
  PROMISE(INSULATION_KNOWN, full_torque || starts, never(isolation_silent))
  PROMISE(INSULATION_KNOWN_CHARGE, charging, never(isolation_silent))

  PROMISE(POSITIVE_ON_FULL_BUS, closes_positive, was_step == RAISE_BUS && bus_level == CHARGED && always(bus_flat))
  PROMISE(PRECHARGE_IS_LONG_ENOUGH, closes_positive, lasted >= P_LEAST && lasted >= P_FAST)
  PROMISE(FAST_IS_NO_PROOF, keeps_raising, lasted >= P_FAST || bus_level == DISCHARGED || bus_level == PARTIAL)
  PROMISE(BUS_MUST_RISE, keeps_raising, never(bus_reversed))
  PROMISE(STALL_ENDS_IT, keeps_raising, never(bus_stalled) || bus_level == CHARGED)
  PROMISE(RESISTOR_IS_SPARED, keeps_raising, never(resistor_overloaded))
  PROMISE(RESISTOR_IS_COOL, begins, never(resistor_spent))
  PROMISE(BUS_IS_DEAD_AT_START, begins, bus_level == DISCHARGED)
  PROMISE(WELD_TEST_COUNTS, tests_on, bus_level == DISCHARGED)
  PROMISE(WELD_TEST_LASTS, tests_on && was_step != step, lasted >= (was_step == TEST_NEGATIVE -> P_WELD_TEST : (was_step == TEST_PAUSE -> P_RELEASE : P_SECOND_TEST)))
  PROMISE(NEGATIVE_IS_CLOSED, goes(TEST_POSITIVE, RAISE_BUS), always(negative_confirmed))
  PROMISE(POSITIVE_IS_CLOSED, goes(OVERLAP, HOLD), always(positive_confirmed) && lasted >= P_OVERLAPS)
  PROMISE(CONTACTORS_AS_THE_STEP, true, CONTACTS_ARE_RIGHT)
  PROMISE(STEPS_IN_ORDER, was_step != step, STEP_FOLLOWS)
  PROMISE(OPENS_IN_ORDER, step == IDLE && (was_step == OVERLAP || was_step == HOLD || was_step == RAMP_DOWN), opens)
  PROMISE(CURRENT_IS_LOW_TO_OPEN, goes(RAMP_DOWN, OPEN_POSITIVE), lasted >= P_WAIT || always(current_low))
  PROMISE(WAIT_FOR_CURRENT_ENDS, goes(RAMP_DOWN, RAMP_DOWN), lasted < P_WAIT || always(back_emf_high))
  PROMISE(RELEASE_IS_AWAITED, goes(OPEN_POSITIVE, OPEN_NEGATIVE) || goes(OPEN_NEGATIVE, BLEED), lasted >= P_RELEASE)
  PROMISE(CONTACTS_ARE_TRUE, follows || (charging && CHARGER_NEEDS_BUS), never(bus_lost) && never(negative_dropped) && never(positive_dropped))
  PROMISE(CONTACTS_STAY_CLOSED, goes_up && !begins, never(negative_dropped) && never(positive_dropped))

  PROMISE(PACK_ENDS_DRIVE, goes_on, never(pack_overheated) && never(pack_overvoltage) && never(pack_undervoltage) && never(cell_overvoltage) && never(cell_undervoltage))
  PROMISE(OVERCURRENT_ENDS_IT, goes_on && !was(IGNITION), never(pack_overcurrent))
  PROMISE(MONITOR_ENDS_TORQUE, follows || (goes_on && !was(DRIVE_ENABLE)), never(discharge_withdrawn))
  PROMISE(PACK_IS_SPARED, full_torque, never(pack_warm) && never(pack_cool) && never(pack_full) && never(pack_low) && never(charge_withdrawn) && never(pack_sensor_lost))
  PROMISE(PACK_IS_SPARED_AT_CHARGE, charging && !limited, never(pack_warm) && never(pack_cool) && never(pack_full))
  PROMISE(PACK_ENDS_CHARGE, charging, never(pack_overheated) && never(pack_overvoltage) && never(cell_overvoltage) && never(pack_overcurrent) && never(charge_overvoltage) && never(charger_runs_on))
  PROMISE(PACK_MAY_BE_CHARGED, charging, never(pack_too_cold) && never(pack_too_warm_to_charge) && never(pack_sensor_lost) && never(charge_withdrawn) && never(charge_too_long))
  PROMISE(CHARGE_ENDS_WHEN_DONE, charging && was_charge == CHARGING, never(charge_done))
  PROMISE(CHARGE_IS_WANTED, begins_charge, always(charge_due))

  PROMISE(CHARGE_END_IS_AWAITED, was_charge == ENDING && charge != ENDING && !now_in(FAULT), (CHARGER_NEEDS_BUS -> !any_closed : (lasted >= P_WAIT || always(current_low))))
  PROMISE(FINISHED_STAYS, was_charge == FINISHED && charge != FINISHED && was(CHARGE_LOCKOUT) && now_in(CHARGE_LOCKOUT), always(charge_due))
  PROMISE(REFUSED_STAYS, was_charge == REFUSED && charge != REFUSED && was(CHARGE_LOCKOUT) && now_in(CHARGE_LOCKOUT), always(charge_retry))
  PROMISE(CHARGE_IS_OFFERED, charging, always(plug_seen) && always(charge_offered))
  PROMISE(CHARGE_IS_HELD, charging, always(plug_held))
  PROMISE(LOCK_IS_SOUND, charging, never(plug_unlocked))
  PROMISE(PLUG_IS_GIVEN, charging, never(plug_wanted))
  PROMISE(CHARGE_IS_CONNECTED, charging, step == (CHARGER_NEEDS_BUS -> HOLD : IDLE))
  PROMISE(COVER_ENDS_CHARGE, charging, never(cover_loop_open))
  PROMISE(INLET_IS_SOUND, charging, never(pilot_invalid) && never(proximity_invalid) && never(proximity_missing) && never(chargers_lost) && never(charger_above_limit))
  PROMISE(HEAT_ENDS_TORQUE, follows || starts, never(motor_overheated) && never(inverter_overheated) && never(coolant_overheated))
  PROMISE(HEAT_LIMITS_TORQUE, full_torque, never(motor_warm) && never(inverter_warm) && never(coolant_warm) && never(cooling_lost) && never(drive_sensor_lost))
  PROMISE(HEAT_ENDS_CHARGE, charging, never(charger_overheated))
  PROMISE(LOW_12_V_LIMITS, ((follows || charging) && !limited) || starts, never(lv_low))

  PROMISE(BLIND_ENDS_DRIVE, goes_on, sighted)
  PROMISE(BLIND_ENDS_CHARGE, charging, sighted && never(monitor_silent))
  PROMISE(BLIND_ENDS_CLOSING, goes_up, sighted)
  PROMISE(SILENCE_LIMITS, full_torque || starts, never(monitor_silent))

  PROMISE(KEY_WAKES, was(OFF) && now_in(IGNITION), always(key_on))
  PROMISE(KEY_HOLDS_THE_DRIVE, goes_on, always(key_on))
  PROMISE(START_IS_ASKED_FOR, starts, always(key_on) && always(start_requested))
  PROMISE(CLOSING_IS_ASKED_FOR, begins && !starts, was(CHARGE_LOCKOUT) && always(plug_seen) && always(charge_offered))
  PROMISE(LATCH_ENDS_IN_FAULT, latched != NO_RESET, state == FAULT || state == RUNDOWN || state == CHARGE_LOCKOUT)
  PROMISE(FAULT_IS_KEPT, was(FAULT) && !now_in(FAULT), always(key_off) && never(key_on) && nothing_keeps_the_fault)
  PROMISE(SERVICE_IS_ASKED_FOR, was(FAULT) && !now_in(FAULT) && was_latched == SERVICE, always(service_reset))
  PROMISE(BUS_VOLTAGE_ENDS_REGEN, follows, never(bus_overvoltage))
  PROMISE(OVERSPEED_LIMITS, full_torque, never(overspeed))
  PROMISE(PACK_ANCHORS_THE_MOTOR, goes(RAMP_DOWN, OPEN_POSITIVE), lasted >= P_SPINS || never(back_emf_high))

  :: true
  fi
}

inline look_back() {
  if
  FIRST(KEY_OFF_FIRST, (was(OFF) || was(IGNITION) || state != was_state), memory != 0, starts, memory != 0 || key_is_seen_off)
  FIRST(START_RELEASED_FIRST, was(IGNITION), memory != 0, starts, now_in(IGNITION) && (memory != 0 || seen(start_released)))
  FIRST(BRAKED_RELEASE_FIRST, was(DRIVE_ENABLE), memory != 0 || (seen(pedal_released) && seen(brake_pressed)), follows, now_in(DRIVE_ENABLE) && (memory != 0 || (seen(pedal_released) && seen(brake_pressed))))
  LATCH(RELEASE_AFTER_A_CAUSE, was(DRIVE_ENABLE), seen_to_need_release, seen(pedal_released) || !now_in(DRIVE_ENABLE), follows)
  LATCH(RELEASE_AFTER_NEUTRAL, was(DRIVE_ENABLE), direction == NEUTRAL, seen(pedal_released) || !now_in(DRIVE_ENABLE), follows)
  LATCH(KEY_AFTER_A_FALSE_PEDAL, was(DRIVE_ENABLE), was(DRIVE_ENABLE) && seen_to_need_the_key && !key_is_seen_off, key_is_seen_off, follows || starts)
  :: watched == NO_RAMP_AFTER_A_TRIP && ((was_working && !enters_fault) || memory != 0) -> CHOOSE(trip_cause(maybe), !trip_cause(seen));
     if
     LATCH(NO_RAMP_AFTER_A_TRIP, true, seen_to_need_service || chosen, !now_in(RUNDOWN) && !now_in(PRECHARGE), has_torque)
     fi
  :: watched == KEY_AFTER_A_TRIP && (was_working || enters_fault || memory != 0) -> CHOOSE(trip_cause(maybe), !trip_cause(seen));
     if
     :: memory != 0 && wakes -> memory = 0; assert(false) /* KEY_AFTER_A_TRIP */
     :: !(memory != 0 && wakes) && (enters_fault || (was_working && chosen)) -> memory = 1
     :: !(memory != 0 && wakes) && !(enters_fault || (was_working && chosen)) ->
        if
        :: memory == 0 || (key_is_seen_off && (memory == 2 || seen(service_reset))) -> memory = 0
        :: else -> memory = ((memory == 2 || seen(key_on)) -> 2 : 1)
        fi
     fi
  SERVICED(SERVICE_AFTER_A_CRASH, crash_seen)
  SERVICED(SERVICE_AFTER_A_WELD, negative_welded)
  SERVICED(SERVICE_AFTER_A_WELD_POS, positive_welded)
  SERVICED(SERVICE_AFTER_A_STUCK, precharge_welded)
  SERVICED(SERVICE_AFTER_A_VETO, gate_vetoed)
  LATCH(SERVICE_AFTER_LEAKAGE, (was(PRECHARGE) || was(CHARGE_LOCKOUT) || was(FAULT)), (was(PRECHARGE) || was(CHARGE_LOCKOUT) || was(FAULT)) && seen(isolation_low), key_is_seen_off && seen(service_reset), wakes)
  :: watched == SERVICE_AFTER_LIVE_BUS && ((!was(PRECHARGE) && !was(DRIVE_ENABLE)) || memory != 0) ->
     if :: was(PRECHARGE) || was(DRIVE_ENABLE) :: else -> ASK(bus_still_live) fi;
     if
     LATCH(SERVICE_AFTER_LIVE_BUS, true, !was(PRECHARGE) && !was(DRIVE_ENABLE) && seen(bus_still_live), key_is_seen_off && seen(service_reset), wakes)
     fi
  LATCH(SERVICE_AFTER_WELD_TEST, (is_test(was_step) && now_in(FAULT) && (bus_level == PARTIAL || bus_level == CHARGED)), is_test(was_step) && now_in(FAULT) && (bus_level == PARTIAL || bus_level == CHARGED), key_is_seen_off && seen(service_reset), wakes)
  :: watched == A_STOP_CLOSES_NOTHING -> /* bits 1, 2 and 4: what was closed; 8: a stop was asked for */
     closed = negative + 2 * relay + 4 * positive;
     stop_asked = (wishes_to_stop || (memory >= 8 && !((memory & 7) == 0 && (starts || (begins_charge && seen(charge_offered))))));
     if
     :: stop_asked && (closed & (7 - (memory & 7))) != 0 -> memory = 0; assert(false) /* A_STOP_CLOSES_NOTHING */
     :: else -> memory = closed + 8 * stop_asked
     fi
  WITHIN(OPENS_IN_TIME, P_OPENING, !was(RUNDOWN) && now_in(RUNDOWN), !any_closed)
  WITHIN(RISE_ENDS_IN_TIME, P_RAISING, was_step != RAISE_BUS && step == RAISE_BUS, !relay)
  WITHIN(CHARGE_ENDS_IN_TIME, P_ENDING_CHARGE, was_charge != ENDING && charge == ENDING, !any_closed && !charging)
  WITHIN(START_ENDS_IN_TIME, P_STARTING, starts, !now_in(PRECHARGE))
  :: else
  fi
}

/* ---- One tick after the other; part 1 lists the interlocks of each state in their order ---- */

active proctype logic() {
#ifndef WATCHED
  select (watched : 0 .. {{{lastHistory}}});
#endif
  do
  :: atomic {
    begin_tick();
    if
{{#states}}
    :: state == {{{name}}} ->
{{#rows}}
       {{{ask}}}({{{fact}}}, {{{does}}}, {{{until}}}, {{{there}}}); /* {{{id}}} */
{{/rows}}
{{{there}}}:
       {{{body}}}()
{{/states}}
    fi;
    judge();
    end_tick()
  }
  od
}
