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
 * What remains: a car without a known speed that rolls away on the cable is not noticed here.
 */
final class CableMotion {
    /** Walking pace, chosen: a car that is pushed a hand's breadth goes on charging, one that rolls away does not. */
    static final double WALKING_KPH = 5;
    /** How long a car of unknown speed must rest. */
    static final int REST_S = 120;

    private final int restLimitTicks;
    private final double openA;
    private final boolean alone;
    private boolean stands;
    private int restTicks;

    CableMotion(Settings settings) {
        restLimitTicks = (int) Math.ceil(REST_S / settings.tickS());
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
        debounce.into(facts, Fact.ROLLING_PLUGGED, plugged && !stands);
    }
}
