package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * What the inlet shows: whether a plug is there, what its cable can bear and what the station offers.
 *
 * <p>A plug is seen at the first sign of it, without waiting; it is gone only when every sign has been away for
 * {@code inlet.stale_ms}. An offer is the other way round: it counts when all its signs have been there for
 * {@code inlet.stale_ms} and is gone at the first that goes.
 *
 * <p>A pilot that says nothing yet (0 V, a steady level, a station that is not available) is a wait. A pilot that makes no
 * sense is a fault: between its levels, unloaded with a plug in, asking on this car's behalf for ventilation, a duty that
 * stands for nothing, or the 5 % that offer a digital talk this car does not speak.
 *
 * <p>A plain mains lead has neither pilot nor proximity. Its sign is the plug switch, or, where there is none, a charger's line: a
 * charger that says it is well has mains. A second sign is current that flows into the pack of a standing car while no torque
 * is asked for. What the supply can bear is {@code inlet.max_a}: nobody says it. A car without an inlet never sees a plug.
 */
final class Inlet {
    /** From the pilot to ground behind a diode, always there: makes state B of a plugged car (ohm). */
    static final double PILOT_RESISTOR_OHM = 2740;
    /** Beside it while the car asks for power: makes state C (ohm). */
    static final double PILOT_READY_OHM = 1300;

    /** The least current that a station can offer (A). */
    static final double LEAST_OFFER_A = 6;
    /** A pilot above this has a station behind it. */
    private static final double PILOT_SIGN_V = PilotLevel.BAND_V;

    /** How far beyond 0 and 1 a duty may read. */
    private static final double DUTY_SLACK = 0.01;

    private final ChargerLines chargers;
    private final boolean typeTwo;
    private final boolean hasPilot;
    private final boolean hasSwitch;
    private final boolean plain;
    private final double openA;
    private final double maxA;
    private final int staleTicks;
    private PilotLevel level = PilotLevel.SILENT;
    private boolean plugSeen;
    private int goneTicks;
    private int offerTicks;
    private int ventilatedTicks;
    private int fedTicks;
    /** An inlet in which nothing was left to see; while it shows the same again there is nothing to find out. */
    private boolean empty;

    Inlet(Settings settings) {
        chargers = new ChargerLines(settings);
        typeTwo = settings.is(Parameter.INLET_KIND, "type-2");
        hasPilot = settings.has(Signal.PILOT_PEAK_V);
        plain = settings.is(Parameter.INLET_KIND, "plain");
        hasSwitch = settings.has(Signal.PLUG_PRESENT) && (hasPilot || plain);
        openA = settings.get(Parameter.CONTACTOR_OPEN_A);
        maxA = settings.get(Parameter.INLET_MAX_A);
        staleTicks = settings.ticks(Parameter.INLET_STALE_MS);
    }

    /** Reads the inlet for one tick.
     *
     * @param in the readings
     * @param last the commands of the tick before
     * @param facts where the inlet's facts are set; those of the drive are there already
     * @param debounce the debouncer
     * @param out where the allowed current is set
     */
    void update(Readings in, Commands last, TickFacts facts, Debounce debounce, Conditioned out) {
        boolean fed = plain && isFed(in, last, facts);
        boolean staysEmpty = empty && !fed && debounce.isSteady() && (!hasPilot || isPilotAway(in));
        if (!staysEmpty) {
            look(in, fed, facts, debounce, out);
            empty = !plugSeen && level == PilotLevel.SILENT && offerTicks == 0 && ventilatedTicks == 0;
        }
    }

    private static boolean isPilotAway(Readings in) {
        return Proximity.OPEN.fits(in.get(Signal.PROXIMITY_V)) && PilotLevel.SILENT.fits(in.get(Signal.PILOT_PEAK_V));
    }

    /** Whether current flows into the pack for {@code inlet.stale_ms} although the car stands and no torque is asked for. */
    private boolean isFed(Readings in, Commands last, TickFacts facts) {
        boolean feeds = facts.is(Fact.STANDSTILL)
                && last.get(Output.TORQUE_REQUEST_NM) == 0
                && in.get(Signal.PACK_CURRENT_A) < -openA;
        fedTicks = feeds ? Math.min(fedTicks + 1, staleTicks + 1) : 0;
        return fedTicks > staleTicks;
    }

    private void look(Readings in, boolean fed, TickFacts facts, Debounce debounce, Conditioned out) {
        if (hasPilot) {
            lookAtPilot(in, facts, debounce, out);
        } else {
            lookAtLead(in, fed, facts, out);
        }
        debounce.into(facts, Fact.CHARGERS_LOST, (hasPilot || hasSwitch) && chargers.noneWell(in));
    }

    /** A plain mains lead, or no inlet at all. */
    private void lookAtLead(Readings in, boolean fed, TickFacts facts, Conditioned out) {
        boolean away = !plain || (hasSwitch ? in.isOff(Signal.PLUG_PRESENT) : chargers.allOff(in));
        boolean home = plain && (hasSwitch ? in.isOn(Signal.PLUG_PRESENT) : !chargers.noneWell(in));
        see(!away || fed);
        boolean offered = offer(home && !chargers.noneWell(in));
        facts.set(Fact.PLUG_SEEN, plugSeen);
        facts.set(Fact.CHARGE_OFFERED, offered);
        facts.set(Fact.PLUG_RELEASED, away);
        out.allowedAcA = offered ? maxA : 0;
    }

    private void lookAtPilot(Readings in, TickFacts facts, Debounce debounce, Conditioned out) {
        double peakV = in.get(Signal.PILOT_PEAK_V);
        Proximity proximity = Proximity.of(in.get(Signal.PROXIMITY_V), typeTwo);
        level = PilotLevel.of(peakV, level);
        double dutyA = dutyCurrentA(in.get(Signal.PILOT_DUTY));

        boolean silent = peakV <= PILOT_SIGN_V;
        see(!(in.isOff(Signal.PLUG_PRESENT) && proximity == Proximity.OPEN && silent));
        double allowedA = Bounds.least(Bounds.least(dutyA, proximity.cableA), maxA);
        boolean offered = offer(in.isOn(Signal.PLUG_PRESENT) && level.counts() && allowedA >= LEAST_OFFER_A);

        facts.set(Fact.PLUG_SEEN, plugSeen);
        facts.set(Fact.CHARGE_OFFERED, offered);
        boolean letGo = proximity == Proximity.OPEN || proximity == Proximity.BUTTON_PRESSED;
        facts.set(Fact.PLUG_RELEASED, letGo || in.isOff(Signal.PLUG_PRESENT));
        out.allowedAcA = offered ? allowedA : 0;
        debounce.into(facts, Fact.PILOT_INVALID, nonsense(dutyA, proximity));
        debounce.into(facts, Fact.PROXIMITY_INVALID, proximity == Proximity.INVALID);
        debounce.into(facts, Fact.PROXIMITY_MISSING, proximity == Proximity.OPEN && peakV > PILOT_SIGN_V);
    }

    private void see(boolean sign) {
        if (sign) {
            plugSeen = true;
            goneTicks = 0;
        } else if (plugSeen) {
            goneTicks++;
            plugSeen = goneTicks <= staleTicks;
        }
    }

    private boolean offer(boolean complete) {
        offerTicks = complete ? Math.min(offerTicks + 1, staleTicks + 1) : 0;
        return offerTicks > staleTicks;
    }

    /** Ventilation shows only while power is asked for, which ends in the same tick; so it is remembered for a while. */
    private boolean nonsense(double dutyA, Proximity proximity) {
        ventilatedTicks = level == PilotLevel.VENTILATED ? 2 * staleTicks : Math.max(ventilatedTicks - 1, 0);
        return switch (level) {
            case CONNECTED, READY -> dutyA != dutyA || ventilatedTicks > 0;
            case UNLOADED -> proximity != Proximity.OPEN;
            case VENTILATED, UNKNOWN -> true;
            case SILENT, UNAVAILABLE -> false;
        };
    }

    /**
     * The current that a duty of the pilot allows, by the rule of IEC 61851-1 and SAE J1772: {@code duty * 60} from 10 % to
     * 85 %, {@code (duty - 0.64) * 250} from there to 96 %. 25 % allow 15 A, 90 % allow 65 A.
     *
     * @param duty 0 to 1
     * @return A a.c.; 0 where the station offers nothing (below 3 %, above 97 %), NaN where the duty stands for no current: 3 % to
     *     7 % ask for a digital talk, 7 % to 8 % and anything more than 1 % outside 0 to 1 are errors
     */
    static double dutyCurrentA(double duty) {
        if (!(duty >= -DUTY_SLACK && duty <= 1 + DUTY_SLACK) || duty >= 0.03 && duty < 0.08) {
            return Double.NaN;
        }
        if (duty < 0.03 || duty > 0.97) {
            return 0;
        }
        if (duty < 0.10) {
            return LEAST_OFFER_A;
        }
        if (duty <= 0.85) {
            return duty * 60;
        }
        return duty <= 0.96 ? (duty - 0.64) * 250 : 80;
    }
}
