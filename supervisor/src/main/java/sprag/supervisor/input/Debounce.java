package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;

/**
 * Debounces causes: a fact becomes true when its cause has lasted for its detection time, and false when it has been away
 * twice as long.
 *
 * <p>The count climbs by two and falls by one, so that an intermittent contact which is bad for more than a third of the
 * time is still found. A cause first seen in tick 0 makes the fact true in tick n for a detection time of n ticks: not
 * before it has lasted that long.
 */
final class Debounce {
    private final int[] count = new int[Fact.COUNT];
    private final int[] limit = new int[Fact.COUNT];
    private final boolean[] settled = new boolean[Fact.COUNT];
    /** How many counts are not zero. In a sound car none is, and this one number says so for all of them. */
    private int counting;
    /** How many of them are rising or falling. */
    private int moving;

    private long switchesOn = Readings.NO_SWITCHES;
    private long switchesOff = Readings.NO_SWITCHES;
    private boolean switchMoved = true;

    Debounce(Settings settings) {
        for (Fact fact : Fact.values()) {
            limit[fact.ordinal()] = fact.detection == null ? 0 : 2 * settings.ticks(fact.detection);
        }
    }

    /** Begins a tick: sees whether any switch has moved.
     *
     * @param in the readings of the tick
     */
    void begin(Readings in) {
        long on = in.switchesOn();
        long off = in.switchesOff();
        switchMoved = on != switchesOn || off != switchesOff;
        switchesOn = on;
        switchesOff = off;
    }

    /** Counts one tick of a cause and sets its fact. While no cause is present and no count runs, there is nothing to set.
     *
     * @param facts where the fact is set, always through here
     * @param fact the fact it makes true
     * @param cause whether the cause is there in this tick
     */
    void into(TickFacts facts, Fact fact, boolean cause) {
        if (cause || counting != 0) {
            int i = fact.ordinal();
            if (cause || count[i] != 0) {
                facts.set(fact, count(i, cause));
            }
        }
    }

    private boolean count(int i, boolean cause) {
        int before = count[i];
        if (cause) {
            count(i, before, Math.min(before + 2, limit[i] + 2));
            settled[i] |= count[i] > limit[i];
        } else if (before != 0) {
            count(i, before, before - 1);
            settled[i] &= before > 1;
        }
        return settled[i];
    }

    private void count(int i, int before, int after) {
        count[i] = after;
        counting += (after != 0 ? 1 : 0) - (before != 0 ? 1 : 0);
        moving += (isMoving(i, after) ? 1 : 0) - (isMoving(i, before) ? 1 : 0);
    }

    private boolean isMoving(int i, int counted) {
        return counted != 0 && counted != limit[i] + 2;
    }

    /** Whether any cause is present, or was present a short time ago. While none is, an absent cause changes no fact.
     *
     * @return false in a sound car
     */
    boolean isCounting() {
        return counting != 0;
    }

    /** Whether no switch has moved since the tick before and no count is rising or falling. What depends on switches alone then
     * has not changed. Most ticks are like that.
     *
     * @return also false before the first tick
     */
    boolean isSteady() {
        return !switchMoved && moving == 0;
    }

    /** Forgets how long a cause has been there, when what it is measured against begins anew.
     *
     * @param facts where the fact is no longer true
     * @param fact which one
     */
    void forget(TickFacts facts, Fact fact) {
        int i = fact.ordinal();
        count(i, count[i], 0);
        settled[i] = false;
        facts.set(fact, false);
    }

    /** Whether a fact was true after the last look, for causes with hysteresis.
     *
     * @param fact which one
     * @return its last value
     */
    boolean was(Fact fact) {
        return counting != 0 && settled[fact.ordinal()];
    }
}
