/* Looks for ticks in which a comparison meets two equal numbers, and in which it matters what it makes of them. It begins with
 * ticks that reach the comparison, changes one number of them, and halves the way to where the comparison turns. It knows nothing of
 * planted mistakes: the ticks are chosen once, for the C as it is.
 */
#define main twin_main
#include "twin.c"
#undef main
#include "edge.h"

enum {
    TIMES = 8, /* so often in a tick a comparison is followed */
    QUOTA = 4, /* ticks that are kept of each comparison */
    RANDOM = 4, /* ticks of each comparison that are begun with, by chance */
    SHOWING = 4, /* the same, by chance among those in which the comparison matters */
    NEAR = 6, /* the same, those that are nearest to equality */
    STARTS = RANDOM + SHOWING + NEAR,
    LOOKS = 800, /* so many ticks are tried for whether the comparison matters */
    UNSEEN = 6, /* ticks at equality that show nothing yet */
    WAYS = 300, /* halvings for each comparison */
    NEIGHBOURS = 10, /* comparisons before and behind one, whose numbers are tried too */
    TRIES = 6000, /* changes of ticks at equality for each comparison */
    RESULT = SPRAG_FIELDS + OUTPUTS + 1,
    PLACES = SIGNALS + SPRAG_FIELDS
};

enum { QUANTITY = 0, WHOLE = -1, BOOLEAN = -2 };

typedef struct {
    int64_t memory[SPRAG_FIELDS];
    double readings[SIGNALS];
} Tick;

static int8_t signs[EDGE_SITES][TIMES];
static uint8_t times[EDGE_SITES];
static double left[EDGE_SITES];
static double right[EDGE_SITES];
static int32_t equals[EDGE_SITES];
static int32_t equal_count;
static uint8_t was_equal[EDGE_SITES];
/* The comparison that takes equal numbers the other way, and the one that takes all the other way. */
static int32_t turned = -1;
static int32_t inverted = -1;

static int64_t kinds[SPRAG_FIELDS];
/* Where the cells of the same object begin and end. */
static int64_t objects[SPRAG_FIELDS][2];
static double ranges[SIGNALS][2];
static Tick *starts;
static int32_t start_count;
static Tick begin_with[EDGE_SITES][STARTS];
static int64_t reached[EDGE_SITES];
static int64_t mattering[EDGE_SITES];
static int32_t looked[EDGE_SITES];
static int32_t near_count[EDGE_SITES];
static double gaps[EDGE_SITES][NEAR];
static Tick kept[EDGE_SITES][QUOTA];
static int32_t kept_count[EDGE_SITES];
static Tick unseen[EDGE_SITES][UNSEEN];
static int32_t unseen_place[EDGE_SITES][UNSEEN];
static int64_t unseen_count[EDGE_SITES];
/* Ticks in which a comparison is one step away from where it turns, on either side, for each time in a tick; and in which it matters. */
static Tick beside[EDGE_SITES][TIMES][2];
static uint8_t has_beside[EDGE_SITES][TIMES][2];
static int32_t beside_count[EDGE_SITES];
static uint8_t most_times[EDGE_SITES];
/* The place that is changed just now. */
static int32_t changed;
static int64_t met[EDGE_SITES][3];
static int64_t enough[EDGE_SITES];
static uint64_t chance = 17;

bool edge_met(int32_t site, char than, bool orEqual, double a, double b) {
    int8_t sign = (a < b) ? -1 : (a > b) ? 1 : (a == b) ? 0 : 2;
    if (times[site] < TIMES) {
        signs[site][times[site]++] = sign;
    }
    left[site] = a;
    right[site] = b;
    if (sign == 0) {
        if (!was_equal[site]) {
            was_equal[site] = 1;
            equals[equal_count++] = site;
        }
        return orEqual != (site == turned || site == inverted);
    }
    return (sign == (than == '<' ? -1 : 1)) != (site == inverted);
}

static int32_t any(int32_t below) {
    chance ^= chance << 13;
    chance ^= chance >> 7;
    chance ^= chance << 17;
    return (int32_t)((chance >> 11) % (uint64_t)below);
}

/* Decides a tick. False when its memory is impossible. */
static bool run(const Tick *of, int64_t *result) {
    static volatile bool possible;
    memset(times, 0, sizeof(times));
    memset(was_equal, 0, sizeof(was_equal));
    equal_count = 0;
    possible = false;
    may_be_strange = true;
    if (setjmp(strange) == 0) {
        sprag_fields_restore(of->memory);
        sprag_Readings_clear(&sprag_readings);
        decide(of->readings);
        possible = true;
    }
    may_be_strange = false;
    if (possible && result != NULL) {
        sprag_fields_save(result);
        for (int32_t o = 0; o < OUTPUTS; o++) {
            double value = (double)sprag_Commands_get(&sprag_commands, o);
            memcpy(&result[SPRAG_FIELDS + o], &value, sizeof(value));
        }
        result[RESULT - 1] = sprag_LogicState_pack(sprag_Supervisor_state(&sprag_supervisor));
    }
    return possible;
}

/* Whether the tick comes out otherwise when the comparison takes equal numbers, or all, the other way. */
static bool shows(int32_t site, const Tick *of, int32_t *as) {
    static int64_t as_is[RESULT];
    static int64_t other[RESULT];
    if (!run(of, as_is)) {
        return false;
    }
    *as = site;
    bool possible = run(of, other);
    *as = -1;
    return !possible || memcmp(as_is, other, sizeof(as_is)) != 0;
}

static void consider(int32_t site, const Tick *of) {
    if (enough[site] != 0 || kept_count[site] == QUOTA) {
        return;
    }
    if (shows(site, of, &turned)) {
        kept[site][kept_count[site]++] = *of;
    } else {
        int64_t at = unseen_count[site]++;
        at = at < UNSEEN ? at : any(UNSEEN);
        unseen[site][at] = *of;
        unseen_place[site][at] = changed;
    }
}

/* After a tick was decided: what has met equal numbers in it. */
static void look(const Tick *of) {
    static int32_t now[EDGE_SITES];
    int32_t count = equal_count;
    memcpy(now, equals, sizeof(int32_t) * (size_t)count);
    for (int32_t i = 0; i < count; i++) {
        consider(now[i], of);
    }
}

static int64_t order(double number) {
    int64_t bits;
    memcpy(&bits, &number, sizeof(bits));
    return bits < 0 ? INT64_MIN - bits : bits;
}

static double in_order(int64_t at) {
    int64_t bits = at < 0 ? INT64_MIN - at : at;
    double number;
    memcpy(&number, &bits, sizeof(number));
    return number;
}

static bool is_quantity(int32_t place) {
    return place < SIGNALS || kinds[place - SIGNALS] == QUANTITY;
}

/* Quantities by their order, so that neighbours differ by one. */
static int64_t get_place(const Tick *of, int32_t place) {
    if (place < SIGNALS) {
        return order(of->readings[place]);
    }
    int64_t number = of->memory[place - SIGNALS];
    if (kinds[place - SIGNALS] == QUANTITY) {
        double quantity;
        memcpy(&quantity, &number, sizeof(quantity));
        return order(quantity);
    }
    return number;
}

static void set_place(Tick *of, int32_t place, int64_t number) {
    if (place < SIGNALS) {
        of->readings[place] = in_order(number);
    } else if (kinds[place - SIGNALS] == QUANTITY) {
        double quantity = in_order(number);
        memcpy(&of->memory[place - SIGNALS], &quantity, sizeof(quantity));
    } else {
        of->memory[place - SIGNALS] = number;
    }
}

/* Another number for a place: what the comparison has met, nothing, the other sign, a little more or less, what another tick has there. */
static int64_t other_number(const Tick *of, int32_t place, double a, double b) {
    int64_t now = get_place(of, place);
    double like = any(2) ? a : b;
    if (any(5) == 0) {
        return get_place(&starts[any(start_count)], place);
    }
    if (is_quantity(place)) {
        switch (any(8)) {
        case 0:
            return order(0.0);
        case 5:
            return order(in_order(now) * (0.98 + 0.04 * any(1000) / 1000.0));
        case 4:
            return order((double)NAN);
        case 1:
            return order(-in_order(now));
        case 2:
            return order(-like);
        case 3:
            return place < SIGNALS ? order(ranges[place][any(2)]) : order(2.0 * like + 1.0);
        default:
            return order(like);
        }
    }
    int64_t kind = kinds[place - SIGNALS];
    if (kind == BOOLEAN) {
        return 1 - now;
    }
    if (kind > 0) {
        return now < 0 ? now : any((int32_t)kind);
    }
    switch (any(3)) {
    case 0:
        return 0;
    case 1:
        return now + any(3) - 1;
    default:
        return (like > -1e6 && like < 1e6) ? (int64_t)like + any(3) - 1 : now;
    }
}

static bool is_byte(int32_t place) {
    return place >= SIGNALS && kinds[place - SIGNALS] == WHOLE;
}

/* Keeps a tick beside the limit, where the comparison matters. */
static void keep_beside(Tick *at, int32_t place, int64_t number, int32_t site, int32_t time) {
    set_place(at, place, number);
    if (enough[site] != 0 || !run(at, NULL) || times[site] <= time) {
        return;
    }
    int8_t sign = signs[site][time];
    if ((sign == 1 || sign == -1) && !has_beside[site][time][sign > 0] && shows(site, at, &inverted)) {
        has_beside[site][time][sign > 0] = 1;
        beside[site][time][sign > 0] = *at;
        beside_count[site]++;
    }
}

/* Halves the way to where the comparison turns. */
static void halve(const Tick *of, int32_t place, int64_t end, int32_t site, int32_t time, int8_t sign) {
    static Tick at;
    at = *of;
    int64_t from = get_place(of, place);
    for (;;) {
        int64_t middle = (from & end) + ((from ^ end) >> 1);
        if (middle == from || middle == end) {
            keep_beside(&at, place, from, site, time);
            keep_beside(&at, place, end, site, time);
            return;
        }
        set_place(&at, place, middle);
        if (!run(&at, NULL) || times[site] <= time) {
            return;
        }
        int8_t now = signs[site][time];
        look(&at);
        if (now == 0) {
            keep_beside(&at, place, middle - 1, site, time);
            keep_beside(&at, place, middle + 1, site, time);
        }
        if (now == 0 || now == 2) {
            return;
        }
        if (now == sign) {
            from = middle;
        } else {
            end = middle;
        }
    }
}

/* Whether a comparison needs no more ticks. */
static bool is_done(int32_t site, int32_t ways) {
    return kept_count[site] == QUOTA && (ways == 0 || beside_count[site] >= 2 * most_times[site]);
}

/* Changes one number of a tick after the other. */
static void around(int32_t site, const Tick *of, int32_t *ways) {
    static Tick at;
    if (!run(of, NULL)) {
        return;
    }
    int8_t base[TIMES];
    int32_t count = times[site];
    memcpy(base, signs[site], sizeof(base));
    double a = left[site];
    double b = right[site];
    look(of);
    for (int32_t place = 0; place < PLACES && !is_done(site, *ways); place++) {
        changed = place;
        for (int32_t again = 0; again < 2; again++) {
            at = *of;
            int64_t to = other_number(of, place, a, b);
            set_place(&at, place, to);
            if (to == get_place(of, place) || !run(&at, NULL)) {
                continue;
            }
            int32_t time = 0;
            while (time < count && time < times[site] && base[time] == signs[site][time]) {
                time++;
            }
            bool turns = time < count && time < times[site] && base[time] * signs[site][time] == -1;
            look(&at);
            if (turns && *ways > 0 && (is_quantity(place) || is_byte(place))) {
                (*ways)--;
                halve(of, place, to, site, time, base[time]);
            }
        }
    }
}

/* Whether there is a tick to begin with. */
static bool is_begun(int32_t site, int32_t i) {
    return i < RANDOM ? i < reached[site]
        : i < RANDOM + SHOWING ? i - RANDOM < mattering[site] : i - RANDOM - SHOWING < near_count[site];
}

/* A signal, a cell of the object that was changed before, or any place. */
static int32_t near_place(void) {
    if (changed >= SIGNALS && any(2)) {
        int64_t *object = objects[changed - SIGNALS];
        return SIGNALS + (int32_t)object[0] + any((int32_t)(object[1] - object[0]));
    }
    return any(3) == 0 ? any(SIGNALS) : any(PLACES);
}

/* The comparison itself, or one that stands not far from it in the code and was met in the last tick. */
static int32_t near_site(int32_t site) {
    int32_t other = site + any(2 * NEIGHBOURS + 1) - NEIGHBOURS;
    return any(2) && other >= 0 && other < EDGE_SITES && times[other] > 0 ? other : site;
}

/* What a comparison has met stands somewhere, with either sign: there it becomes the other number, the middle, more or less. */
static void aim(Tick *at, double a, double b) {
    double now = any(2) ? a : b;
    double limit = now == a ? b : a;
    int32_t from = any(PLACES);
    for (int32_t i = 0; i < PLACES; i++) {
        int32_t place = (from + i) % PLACES;
        double has = is_quantity(place) ? in_order(get_place(at, place)) : (double)NAN;
        if (fabs(has) == fabs(now)) {
            double to[] = {limit, (now + limit) / 2.0, 1.5 * limit, 0.75 * limit, nextafter(limit, INFINITY), -has};
            set_place(at, place, order(to[any(6)]));
            return;
        }
    }
}

/* From a tick at equality that shows nothing: changes of other numbers, until it matters. */
static void stir(int32_t site) {
    static Tick at;
    for (int32_t i = 0; i < TRIES && unseen_count[site] > 0 && kept_count[site] < QUOTA; i++) {
        int64_t have = unseen_count[site] < UNSEEN ? unseen_count[site] : UNSEEN;
        int32_t from = any((int32_t)have);
        at = unseen[site][from];
        changed = unseen_place[site][from];
        int32_t other = any(STARTS);
        const Tick *donor = any(3) != 0 && is_begun(site, other) ? &begin_with[site][other] : &starts[any(start_count)];
        for (int32_t changes = 1 + any(4); changes > 0; changes--) {
            int32_t place = near_place();
            int32_t like = near_site(site);
            if (any(3) == 0) {
                aim(&at, left[like], right[like]);
                continue;
            }
            set_place(&at, place, any(2) ? get_place(donor, place) : other_number(&at, place, left[like], right[like]));
        }
        if (run(&at, NULL)) {
            look(&at);
        }
    }
}

static void read_all(void) {
    int64_t count = 0;
    get(&count, sizeof(count), 1);
    get(enough, sizeof(int64_t), EDGE_SITES);
    get(kinds, sizeof(int64_t), SPRAG_FIELDS);
    get(objects, sizeof(int64_t), (size_t)SPRAG_FIELDS * 2);
    get(ranges, sizeof(double), (size_t)SIGNALS * 2);
    start_count = (int32_t)count;
    starts = malloc(sizeof(Tick) * (size_t)count);
    if (starts == NULL) {
        exit(7);
    }
    get(starts, sizeof(Tick), (size_t)count);
}

/* One of those that are begun with, or not. */
static void offer(int32_t site, const Tick *of, double gap) {
    int64_t seen = reached[site]++;
    int64_t at = seen < RANDOM ? seen : any((int32_t)(seen + 1));
    if (at < RANDOM) {
        begin_with[site][at] = *of;
    }
    int32_t worst = 0;
    for (int32_t i = 1; i < near_count[site]; i++) {
        worst = gaps[site][i] > gaps[site][worst] ? i : worst;
    }
    bool is_near = gap > 0.0 && (near_count[site] < NEAR || gap < gaps[site][worst]);
    if ((!is_near && any(4) != 0) || looked[site] >= LOOKS) {
        return;
    }
    looked[site]++;
    if (!shows(site, of, &inverted)) {
        return;
    }
    if (is_near) {
        worst = near_count[site] < NEAR ? near_count[site]++ : worst;
        gaps[site][worst] = gap;
        begin_with[site][RANDOM + SHOWING + worst] = *of;
    } else {
        int64_t before = mattering[site]++;
        at = before < SHOWING ? before : any((int32_t)(before + 1));
        if (at < SHOWING) {
            begin_with[site][RANDOM + at] = *of;
        }
    }
}

/* After a tick was decided: how its comparisons came out, and whether it is one to begin with. */
static void take(const Tick *of) {
    static double gap[EDGE_SITES];
    for (int32_t site = 0; site < EDGE_SITES; site++) {
        most_times[site] = times[site] > most_times[site] ? times[site] : most_times[site];
        gap[site] = times[site] == 0 ? -1.0 : fabs(left[site] - right[site]);
        for (int32_t time = 0; time < times[site]; time++) {
            if (signs[site][time] < 2) {
                met[site][signs[site][time] + 1]++;
            }
        }
    }
    look(of);
    for (int32_t site = 0; site < EDGE_SITES; site++) {
        if (gap[site] != -1.0 && enough[site] == 0) {
            offer(site, of, gap[site]);
        }
    }
}

/* Ticks in a row, from the readings of a scenario. */
static void play(void) {
    static Tick at;
    static int64_t after[RESULT];
    int64_t count = 0;
    get(&count, sizeof(count), 1);
    for (int64_t tick = 0; tick < count; tick++) {
        int64_t is_first = 0;
        get(&is_first, sizeof(is_first), 1);
        get(at.readings, sizeof(double), SIGNALS);
        memcpy(at.memory, is_first ? fresh : after, sizeof(at.memory));
        if (run(&at, after)) {
            take(&at);
        }
    }
}

int main(void) {
    sprag_fields_save(fresh);
    read_all();
    play();
    for (int32_t i = 0; i < start_count; i++) {
        if (run(&starts[i], NULL)) {
            take(&starts[i]);
        }
    }
    for (int32_t site = 0; site < EDGE_SITES; site++) {
        int32_t ways = WAYS;
        for (int32_t i = 0; i < STARTS && !is_done(site, ways); i++) {
            if (is_begun(site, i)) {
                around(site, &begin_with[site][i], &ways);
            }
        }
        stir(site);
    }
    for (int32_t site = 0; site < EDGE_SITES; site++) {
        int64_t told[7] = {met[site][0], met[site][1], met[site][2], reached[site], unseen_count[site], kept_count[site],
            beside_count[site]};
        put(told, sizeof(told), 1);
        put(kept[site], sizeof(Tick), (size_t)kept_count[site]);
        for (int32_t i = 0; i < 2 * TIMES; i++) {
            put(&beside[site][i / 2][i % 2], sizeof(Tick), has_beside[site][i / 2][i % 2]);
        }
    }
    return fflush(stdout) == 0 ? 0 : 8;
}
