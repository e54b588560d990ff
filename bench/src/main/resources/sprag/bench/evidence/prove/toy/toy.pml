/*
 * The toy machine of ToyMachine.java for SPIN. Every way on is one indivisible step, so that SPIN
 * stores no state in between. L is what the timers count to:
 *
 *   spin -a -DL=54 toy.pml && gcc -O2 -w -DSAFETY -DNOFAIR -o pan pan.c && ./pan -m20000000 -w24
 */
#define OFF       0
#define IGNITION  1
#define PRECHARGE 2
#define DRIVE     3
#define RUNDOWN   4
#define CHARGE    5
#define FAULT     6

byte state, prechargeTimer, rundownTimer, faultTimer;

#define ONE_UP(timer)   (timer < L -> timer + 1 : L)
#define ONE_DOWN(timer) (timer > 0 -> timer - 1 : 0)
#define BAD_DRIVE       (state == DRIVE && (faultTimer >= L || prechargeTimer == 0))

/* here: the state it leaves; rule: when; count: what its own timers do; fault: the new fault timer */
#define TAKE(here, rule, count, fault, there) \
  :: d_step { (state == here && rule) -> count faultTimer = fault; state = there; assert(!BAD_DRIVE) }

/* The fault timer goes either way; the fault exit is always open, the others while it is not full. */
#define BREAK(here, count) \
  TAKE(here, true, count, ONE_DOWN(faultTimer), FAULT) \
  TAKE(here, true, count, ONE_UP(faultTimer), FAULT)
#define EXIT(here, rule, count, there) \
  TAKE(here, (ONE_DOWN(faultTimer) < L && rule), count, ONE_DOWN(faultTimer), there) \
  TAKE(here, (ONE_UP(faultTimer) < L && rule), count, ONE_UP(faultTimer), there)

#define AT_REST     prechargeTimer = 0; rundownTimer = 0;
#define CHARGING_UP prechargeTimer = ONE_UP(prechargeTimer);
#define RUNNING_OUT rundownTimer = ONE_UP(rundownTimer);

active proctype toy() {
  do
  BREAK(OFF, AT_REST)
  EXIT(OFF, true, AT_REST, CHARGE)
  EXIT(OFF, true, AT_REST, IGNITION)
  EXIT(OFF, true, AT_REST, OFF)

  BREAK(IGNITION, )
  EXIT(IGNITION, true, , OFF)
  EXIT(IGNITION, true, , CHARGE)
  EXIT(IGNITION, true, , PRECHARGE)
  EXIT(IGNITION, true, , IGNITION)

  BREAK(PRECHARGE, CHARGING_UP)
  EXIT(PRECHARGE, true, CHARGING_UP, RUNDOWN)
  EXIT(PRECHARGE, true, CHARGING_UP, DRIVE)
  EXIT(PRECHARGE, prechargeTimer + 1 >= L, CHARGING_UP, FAULT)
  EXIT(PRECHARGE, prechargeTimer + 1 < L, CHARGING_UP, PRECHARGE)

  BREAK(DRIVE, )
  EXIT(DRIVE, true, , RUNDOWN)
  EXIT(DRIVE, true, , FAULT)
  EXIT(DRIVE, true, , DRIVE)

  BREAK(RUNDOWN, RUNNING_OUT)
  EXIT(RUNDOWN, true, RUNNING_OUT, IGNITION)
  EXIT(RUNDOWN, true, RUNNING_OUT, OFF)
  EXIT(RUNDOWN, rundownTimer + 1 >= L, RUNNING_OUT, FAULT)
  EXIT(RUNDOWN, rundownTimer + 1 < L, RUNNING_OUT, RUNDOWN)

  BREAK(CHARGE, )
  EXIT(CHARGE, true, , IGNITION)
  EXIT(CHARGE, true, , OFF)
  EXIT(CHARGE, true, , CHARGE)

  BREAK(FAULT, )
  EXIT(FAULT, true, , OFF)
  EXIT(FAULT, true, , FAULT)
  od
}
