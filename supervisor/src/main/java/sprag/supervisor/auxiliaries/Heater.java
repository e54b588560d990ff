package sprag.supervisor.auxiliaries;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * The cabin heater: a blower on 12 V, an element on the bus.
 *
 * <p>The element needs proof of air: the airflow switch seen off before the blower started, then on for
 * {@value #AIR_STEADY_MS} ms, and on in this very tick. It needs a known outlet temperature below {@code heater.max_c}, the bus
 * connected, and a pack and a 12 V supply that are not limited: it is the first load to go. A car without an airflow switch
 * or without an outlet sensor has no heat. The blower runs on for {@value #BLOW_OUT_S} s to cool the element.
 */
final class Heater {
    /** How far the outlet must cool before the element comes back. */
    static final double HYSTERESIS_K = 5;

    private static final int AIR_STEADY_MS = 500;
    private static final int BLOW_OUT_S = 10;

    private final boolean fitted;
    private final double maxC;
    private final int airTicks;
    private final int blowOutTicks;
    private boolean airSeenOff;
    private boolean blowing;
    private boolean hot;
    private int airOnTicks;
    private int sinceElementTicks;

    Heater(Settings settings) {
        fitted = settings.has(Signal.HEATER_REQUEST)
                && settings.has(Signal.HEATER_AIRFLOW)
                && settings.has(Signal.HEATER_TEMP_V);
        maxC = settings.get(Parameter.HEATER_MAX_C);
        airTicks = (int) Math.ceil(AIR_STEADY_MS / settings.get(Parameter.LOOP_TICK_MS));
        blowOutTicks = (int) Math.ceil(BLOW_OUT_S / settings.tickS());
        sinceElementTicks = blowOutTicks;
    }

    /** Sets blower and element for one tick.
     *
     * @param live whether the bus is connected and the car drives or charges
     * @param f the facts of this tick
     * @param c the quantities of this tick
     * @param in the readings
     * @param out where the commands are set
     */
    void shape(boolean live, Facts f, Conditioned c, Readings in, Commands out) {
        boolean air = prove(live, in);
        hot = !(c.heaterTempC < (hot ? maxC - HYSTERESIS_K : maxC));
        boolean wanted = fitted && live && in.isOn(Signal.HEATER_REQUEST);
        boolean element = wanted && air && !hot && !shed(f) && !f.is(Fact.HEATER_WITHOUT_AIR);
        sinceElementTicks = element ? 0 : Math.min(sinceElementTicks + 1, blowOutTicks);
        blowing = (wanted || sinceElementTicks < blowOutTicks) && !sags(f);
        out.set(Output.HEATER_ELEMENT, element && blowing);
        out.set(Output.HEATER_BLOWER, blowing);
    }

    private static boolean sags(Facts f) {
        return f.is(Fact.LV_LOW) || f.is(Fact.LV_LOST);
    }

    private static boolean shed(Facts f) {
        return sags(f) || f.is(Fact.PACK_LOW) || f.is(Fact.PACK_WARM) || f.is(Fact.DISCHARGE_WITHDRAWN);
    }

    /** A switch that was never seen off proves nothing. */
    private boolean prove(boolean live, Readings in) {
        boolean on = in.isOn(Signal.HEATER_AIRFLOW);
        if (!live) {
            airSeenOff = in.isOff(Signal.HEATER_AIRFLOW);
        } else if (!blowing) {
            airSeenOff |= in.isOff(Signal.HEATER_AIRFLOW);
        }
        airOnTicks = blowing && on ? Math.min(airOnTicks + 1, airTicks) : 0;
        return airSeenOff && airOnTicks >= airTicks;
    }
}
