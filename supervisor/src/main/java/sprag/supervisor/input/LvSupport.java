package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Says whether the 12 V battery of a car on the cable needs the DC-DC converter.
 *
 * <p>A supply below {@code lv.support_v}, or one that is unknown, starts the time again in which the converter should run. So it runs a
 * few times a day and not at every sag. Without a plug nothing fills the pack again, and nothing is asked for.
 */
final class LvSupport {
    /** A voltage below {@code lv.support_v} must last this long: a contactor coil pulls it down for a moment. */
    private static final int AFTER_S = 10;
    /** How long a converter then runs: a lead battery takes that long to fill, and its voltage does not tell when it is full. */
    private static final int LASTS_S = 2 * 3600;

    private final double supportV;
    private final int afterTicks;
    private final int lastsTicks;
    private int weakTicks;
    private int leftTicks;

    LvSupport(Settings settings) {
        supportV = settings.get(Parameter.LV_SUPPORT_V);
        afterTicks = (int) Math.ceil(AFTER_S / settings.tickS());
        lastsTicks = lastsTicks(settings);
    }

    /** How long the converter runs each time.
     *
     * @param settings the vehicle's values
     * @return ticks
     */
    static int lastsTicks(Settings settings) {
        return (int) Math.ceil(LASTS_S / settings.tickS());
    }

    /** Looks at the 12 V supply for one tick.
     *
     * @param in the readings
     * @param facts the plug is there already
     * @param c where {@link Conditioned#lvSupport} is set
     */
    void update(Readings in, TickFacts facts, Conditioned c) {
        boolean strong = in.get(Signal.LV_SUPPLY_V) >= supportV;
        weakTicks = strong ? 0 : Math.min(weakTicks + 1, afterTicks);
        leftTicks = Math.max(0, leftTicks - 1);
        if (!facts.is(Fact.PLUG_SEEN)) {
            leftTicks = 0;
        } else if (weakTicks >= afterTicks) {
            leftTicks = lastsTicks;
        }
        c.lvSupport = leftTicks > 0;
    }
}
