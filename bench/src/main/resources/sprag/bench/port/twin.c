/* The supervisor behind a pipe, for comparison with the Java. Numbers are little-endian; one letter says what is asked. */
#include "board.h"
#include "fact.h"
#include "fields.h"
#include "gate.h"
#include "logic.h"
#include "conditioner.h"
#include "permissions.h"
#include "tick_facts.h"
#include <setjmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { MOST = 1024, MOST_CASES = 64, FACTS = sprag_Fact_ROW_COUNT, SIGNALS = sprag_Signal_ROW_COUNT, OUTPUTS = sprag_Output_ROW_COUNT };

static uint64_t told = 0;
static double readings[MOST * SIGNALS];
static double asked[MOST * OUTPUTS];
static int64_t packed[MOST];
static uint8_t facts[MOST * FACTS];
static int64_t fields[SPRAG_FIELDS];
static int64_t fresh[SPRAG_FIELDS];
static int64_t before[MOST_CASES * SPRAG_FIELDS];
static int64_t tick = 0;
static jmp_buf strange;
static bool may_be_strange = false;

/* Only where memory is made up may it be found impossible. */
void sprag_impossible(void) {
    if (may_be_strange) {
        longjmp(strange, 1);
    }
    exit(3);
}

/* What is told is part of what is compared: a number that depends on all of it and on its order. */
static void note(uint64_t what) {
    told = told * UINT64_C(31) + what + UINT64_C(1);
}

void sprag_Journal_entered(sprag_Transition via) {
    note((uint64_t)via + UINT64_C(1000));
}

void sprag_Journal_acted(sprag_Interlock row) {
    note((uint64_t)row);
}

void sprag_Diagnostics_begin(int64_t newTick) {
    (void)newTick;
}

void sprag_Diagnostics_survey(sprag_TickFacts *f) {
    (void)f;
}

static void get(void *into, size_t size, size_t count) {
    if (fread(into, size, count, stdin) != count) {
        exit(0);
    }
}

static void put(const void *from, size_t size, size_t count) {
    if (fwrite(from, size, count, stdout) != count) {
        exit(4);
    }
}

static void decide(const double *in) {
    for (int32_t s = 0; s < SIGNALS; s++) {
        sprag_Readings_set_double(&sprag_readings, s, (sprag_real)in[s]);
    }
    sprag_Supervisor_step(&sprag_supervisor, tick, &sprag_readings, &sprag_commands);
    tick++;
}

static void put_outputs(void) {
    double out[OUTPUTS];
    for (int32_t o = 0; o < OUTPUTS; o++) {
        out[o] = (double)sprag_Commands_get(&sprag_commands, o);
    }
    put(out, sizeof(double), OUTPUTS);
}

static void put_decided(void) {
    int64_t state = sprag_LogicState_pack(sprag_Supervisor_state(&sprag_supervisor));
    put_outputs();
    put(&state, sizeof(state), 1);
}

static void put_fields(void) {
    sprag_fields_save(fields);
    put(fields, sizeof(int64_t), SPRAG_FIELDS);
}

static void step(uint32_t count) {
    get(readings, sizeof(double), (size_t)count * SIGNALS);
    for (uint32_t i = 0; i < count; i++) {
        decide(&readings[i * (uint32_t)SIGNALS]);
        put_decided();
    }
    put_fields();
}

/* Each tick by itself, from a memory that is given. The first number of an answer says whether the memory was possible. */
static void cases(uint32_t count) {
    get(before, sizeof(int64_t), (size_t)count * SPRAG_FIELDS);
    get(readings, sizeof(double), (size_t)count * SIGNALS);
    for (volatile uint32_t i = 0; i < count; i++) {
        int64_t possible = 0;
        may_be_strange = true;
        if (setjmp(strange) == 0) {
            sprag_fields_restore(&before[i * (uint32_t)SPRAG_FIELDS]);
            sprag_Readings_clear(&sprag_readings);
            decide(&readings[i * (uint32_t)SIGNALS]);
            possible = 1;
        }
        may_be_strange = false;
        put(&possible, sizeof(possible), 1);
        put_decided();
        put_fields();
    }
}

/* The gate alone, from one tick to the next: what it leaves of the commands that it is given, and whether it has vetoed. */
static void gate(uint32_t count) {
    get(readings, sizeof(double), (size_t)count * SIGNALS);
    get(asked, sizeof(double), (size_t)count * OUTPUTS);
    for (uint32_t i = 0; i < count; i++) {
        for (int32_t s = 0; s < SIGNALS; s++) {
            sprag_Readings_set_double(&sprag_readings, s, (sprag_real)readings[(i * (uint32_t)SIGNALS) + (uint32_t)s]);
        }
        for (int32_t o = 0; o < OUTPUTS; o++) {
            sprag_Commands_set_double(&sprag_commands, o, (sprag_real)asked[(i * (uint32_t)OUTPUTS) + (uint32_t)o]);
        }
        int64_t vetoed = sprag_Gate_check(sprag_supervisor.gate, &sprag_readings, &sprag_commands) ? 1 : 0;
        put_outputs();
        put(&vetoed, sizeof(vetoed), 1);
    }
}

/* The readings of the last ticks again and again: how much processor time it took, in nanoseconds. */
static void rounds(uint32_t count, uint32_t times) {
    clock_t begun = clock();
    for (uint32_t i = 0; i < times; i++) {
        for (uint32_t t = 0; t < count; t++) {
            decide(&readings[t * (uint32_t)SIGNALS]);
        }
    }
    int64_t tookNs = (int64_t)((double)(clock() - begun) * (1e9 / CLOCKS_PER_SEC));
    put(&tookNs, sizeof(tookNs), 1);
}

static int64_t allowed(const sprag_Permissions *may) {
    int64_t bits = (may->negativeClosed ? 1 : 0) | (may->prechargeClosed ? 2 : 0) | (may->positiveClosed ? 4 : 0)
            | (may->inverterEnabled ? 8 : 0) | (may->limited ? 16 : 0) | (may->charging ? 32 : 0)
            | (may->busConnected ? 64 : 0);
    return bits + (may->torque * INT64_C(256)) + (may->engaged * INT64_C(65536));
}

/* Logic alone: from a packed state and facts to the next state, what is permitted and what was told. */
static void logic(uint32_t count) {
    get(packed, sizeof(int64_t), count);
    get(facts, 1, (size_t)count * FACTS);
    for (uint32_t i = 0; i < count; i++) {
        sprag_TickFacts *f = sprag_Conditioner_facts(sprag_supervisor.conditioner);
        for (int32_t fact = 0; fact < FACTS; fact++) {
            sprag_TickFacts_set_int(f, fact, facts[i * (uint32_t)FACTS + (uint32_t)fact]);
        }
        sprag_LogicState_unpack(sprag_Supervisor_state(&sprag_supervisor), packed[i]);
        told = 0;
        sprag_Logic_step(sprag_supervisor.logic, f);
        int64_t answer[3];
        answer[0] = sprag_LogicState_pack(sprag_Supervisor_state(&sprag_supervisor));
        answer[1] = allowed(sprag_Logic_permissions(sprag_supervisor.logic));
        (void)memcpy(&answer[2], &told, sizeof(told));
        put(answer, sizeof(int64_t), 3);
    }
}

/* What is remembered when power comes back, whatever has become of it. */
static void wake(uint32_t count) {
    get(packed, sizeof(int64_t), count);
    for (uint32_t i = 0; i < count; i++) {
        sprag_Supervisor_wake(&sprag_supervisor, packed[i]);
        int64_t state = sprag_LogicState_pack(sprag_Supervisor_state(&sprag_supervisor));
        put(&state, sizeof(state), 1);
    }
}

int main(void) {
    sprag_fields_save(fresh);
    for (;;) {
        uint8_t asked = 0;
        uint32_t count = 0;
        get(&asked, 1, 1);
        get(&count, sizeof(count), 1);
        if (count > MOST) {
            return 5;
        }
        switch (asked) {
        case 'S':
            step(count);
            break;
        case 'L':
            logic(count);
            break;
        case 'G':
            gate(count);
            break;
        case 'M':
            if (count > MOST_CASES) {
                return 5;
            }
            cases(count);
            break;
        case 'P': {
            uint32_t times = 0;
            get(&times, sizeof(times), 1);
            rounds(count, times);
            break;
        }
        case 'F':
            get(before, sizeof(int64_t), SPRAG_FIELDS);
            sprag_fields_restore(before);
            break;
        case 'R':
            sprag_fields_restore(fresh);
            sprag_Readings_clear(&sprag_readings);
            break;
        case 'W':
            wake(count);
            break;
        case 'T': {
            int64_t well = sprag_self_test() ? 1 : 0;
            put(&well, sizeof(well), 1);
            break;
        }
        default:
            return 6;
        }
        (void)fflush(stdout);
    }
}
