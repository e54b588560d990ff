package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/**
 * Whether the car stands while a plug is seen. A rolling car tears the cable, so nothing may charge there.
 *
 * <p>A known speed decides at once. An unknown one is the worse case, but not for ever: many inverters report no speed while they
 * are off, and such a car must be able to charge. So with an unknown speed the car counts as standing
 * <ul>
 *   <li>when it was seen to stand while the plug was in: torque is locked out on the cable, so only a slope could move it,
 *   <li>or when it has been on the cable for {@value #REST_S} s without torque and without a pack current that the chargers do not
 *       explain. A car that rolls freely would have come to rest by then, or be at the end of its cable.
 * </ul>
 * A reading that is doubted is no proof of standstill. But one that shows more than walking pace, of either speed, is a sign that the car
 * rolls, whatever made it doubted: a loose wire that is back, or a second speed that is still sound.
 *
 * <p>What remains: a car of which no reading shows that it rolls away on the cable is not noticed here.
 */
final class CableMotion {
    /** Walking pace, chosen: a car that is pushed a hand's breadth goes on charging, one that rolls away does not. */
    static final double WALKING_KPH = 5;
    /** How long a car of unknown speed must rest. */
    static final int REST_S = 120;

    /** A sample that shows movement outweighs this many that show none (chosen): a wire may be loose half of the time. */
    private static final int SHOWN_WEIGHT = 2;

    private final int restLimitTicks;
    private final int shownLimit;
    private final double openA;
    private final boolean alone;
    private boolean stands;
    private int restTicks;
    private int shownCount;

    CableMotion(Settings settings) {
        restLimitTicks = (int) Math.ceil(REST_S / settings.tickS());
        shownLimit = SHOWN_WEIGHT * settings.ticks(Parameter.LOOP_BLIND_MS);
        openA = settings.get(Parameter.CONTACTOR_OPEN_A);
        alone = settings.is(Parameter.CHARGER_CONTROL, "alone");
    }

    /** Looks at one tick.
     *
     * @param last the commands of the tick before
     * @param facts where {@link Fact#ROLLING_PLUGGED} is set; the plug and the speed are there already
     * @param debounce the debouncer
     * @param c the quantities of this tick
     */
    void update(Commands last, TickFacts facts, Debounce debounce, Conditioned c) {
        boolean plugged = facts.is(Fact.PLUG_SEEN);
        boolean shown = c.shownKph > WALKING_KPH;
        if (c.roadKph == c.roadKph) {
            stands = c.roadKph <= WALKING_KPH;
            restTicks = 0;
        } else {
            boolean charging = alone || last.isOn(Output.CHARGER_ENABLE);
            boolean quiet = plugged
                    && last.get(Output.TORQUE_REQUEST_NM) == 0
                    && (charging || Math.abs(c.packCurrentA) <= openA);
            restTicks = quiet ? Math.min(restTicks + 1, restLimitTicks) : 0;
            stands = plugged && (stands || restTicks >= restLimitTicks);
        }
        count(shown);
        debounce.into(facts, Fact.ROLLING_PLUGGED, plugged && (shown || !stands));
    }

    /** One sample that shows movement is noise. Many, also with gaps between them, are a car that rolls with a loose wire. */
    private void count(boolean shown) {
        shownCount = shown ? Math.min(shownCount + SHOWN_WEIGHT, shownLimit) : Math.max(shownCount - 1, 0);
        if (shownCount >= shownLimit) {
            stands = false;
            restTicks = 0;
        }
    }
}
