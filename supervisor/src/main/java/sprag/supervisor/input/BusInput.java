package sprag.supervisor.input;

import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.BusRise;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Bus, contactors and precharge resistor: what the voltages say, and whether the contacts did what they were told. */
final class BusInput {
    /** A bus that falls faster than this share of the flat limit is falling. */
    private static final double FALL_SHARE = 0.4;
    /** A bus above this share of the pack is a lying sensor or a spinning motor: closing onto it would be an inrush as well. */
    private static final double MOST_FRACTION = 1.1;
    /** A reading below this is a reversed bus rather than an offset. */
    private static final double NEGATIVE_V = -3;
    /** Less is none: what fades for ever ends in numbers so small that a processor is slow with them. */
    private static final double NO_HEAT_J = 1e-9;

    private static final int NEGATIVE = 1;
    private static final int PRECHARGE = 2;
    private static final int POSITIVE = 4;

    private final boolean hasNegativeAux;
    private final boolean hasPositiveAux;
    private final boolean hasPrechargeAux;
    private final double doneFraction;
    private final double dischargedV;
    private final double lostFraction;
    private final double busMaxV;
    private final double flatPerS;
    private final double stallPerS;
    private final double openA;
    private final double tickS;
    private final double resistanceOhm;
    private final double worstPackV;
    private final double energyLimitJ;
    private final double onePrechargeJ;
    private final double coolingPerTick;
    private final boolean hasMagnets;
    private final double emfVPerRpm;
    private final double[] history = new double[BusRise.SLOPE_TICKS];
    private int oldest;
    private boolean dead;
    private double resistorHeatJ;
    private int toldBefore;

    BusInput(Settings settings) {
        hasNegativeAux = settings.has(Signal.NEGATIVE_AUX_CLOSED);
        hasPositiveAux = settings.has(Signal.POSITIVE_AUX_CLOSED);
        hasPrechargeAux = settings.has(Signal.PRECHARGE_AUX_CLOSED);
        doneFraction = settings.get(Parameter.PRECHARGE_DONE_FRACTION);
        dischargedV = settings.get(Parameter.BUS_DISCHARGED_V);
        lostFraction = settings.get(Parameter.BUS_LOST_FRACTION);
        busMaxV = settings.get(Parameter.BUS_MAX_V);
        flatPerS = settings.get(Parameter.PRECHARGE_FLAT_FRACTION);
        openA = settings.get(Parameter.CONTACTOR_OPEN_A);
        tickS = settings.tickS();
        resistanceOhm = settings.get(Parameter.PRECHARGE_RESISTANCE_OHM);
        worstPackV = settings.get(Parameter.PACK_MAX_V);
        energyLimitJ = settings.get(Parameter.PRECHARGE_ENERGY_J);
        double capacitanceF = settings.get(Parameter.BUS_CAPACITANCE_UF) / 1e6;
        stallPerS = BusRise.stallPerS(flatPerS, doneFraction, resistanceOhm * capacitanceF);
        onePrechargeJ = capacitanceF * worstPackV * worstPackV / 2;
        coolingPerTick = StrictMath.exp(-tickS / settings.get(Parameter.PRECHARGE_COOLING_S));
        hasMagnets = settings.is(Parameter.MOTOR_KIND, "permanent-magnet");
        emfVPerRpm = hasMagnets ? settings.get(Parameter.MOTOR_EMF_V_PER_KRPM) / 1000 : 0;
    }

    /** Of two pack currents that differ the greater is believed, whichever way it flows. An unknown one is not the greater. */
    private static double believed(double firstA, double secondA, boolean apart) {
        return apart && Math.abs(secondA) > Math.abs(firstA) ? secondA : firstA;
    }

    /** A spinning motor with magnets may lift the bus, and an unknown speed counts as spinning. That it spins excuses a live bus only when
     * the speed is known. */
    void update(Readings in, Commands last, TickFacts facts, Debounce debounce, Conditioned out) {
        double packV = in.get(Signal.PACK_VOLTAGE_V);
        double busV = in.get(Signal.BUS_VOLTAGE_V);
        out.packVoltageV = packV;
        out.busVoltageV = busV;
        out.packCurrentA = believed(
                in.get(Signal.PACK_CURRENT_A), in.get(Signal.PACK_CURRENT_2_A), debounce.was(Fact.CURRENTS_APART));
        boolean negative = last.isOn(Output.NEGATIVE_CONTACTOR);
        boolean precharge = last.isOn(Output.PRECHARGE_RELAY);
        boolean positive = last.isOn(Output.POSITIVE_CONTACTOR);
        facts.set(Fact.BUS_LEVEL, level(packV, busV).ordinal());
        double emfV = Math.abs(out.motorSpeedRpm) * emfVPerRpm;
        facts.set(Fact.BACK_EMF_HIGH, !(emfV <= busMaxV) && hasMagnets);
        boolean torqueless = last.get(Output.TORQUE_REQUEST_NM) == 0;
        facts.set(Fact.CURRENT_LOW, torqueless && Math.abs(out.packCurrentA) <= openA);
        debounce.into(facts, Fact.BUS_OVERVOLTAGE, busV > busMaxV);
        boolean gone = negative && positive && !precharge && !(busV >= lostFraction * packV);
        debounce.into(facts, Fact.BUS_LOST, gone);
        boolean released = !negative && !precharge && !positive;
        if (!released) {
            debounce.forget(facts, Fact.BUS_STILL_LIVE);
        }
        boolean live = released && busV > dischargedV && !(emfV > dischargedV);
        debounce.into(facts, Fact.BUS_STILL_LIVE, live);
        double slopePerS = slopePerS(packV, busV);
        facts.set(Fact.BUS_FLAT, Math.abs(slopePerS) < flatPerS);
        rise(busV, slopePerS, negative && precharge && !positive, facts, debounce);
        heat(packV, busV, negative && precharge, facts);
        contacts(in, told(negative, precharge, positive), facts, debounce);
    }

    private BusLevel level(double packV, double busV) {
        dead = Math.abs(busV) <= (dead ? dischargedV * BusRise.LIVE_AGAIN : dischargedV);
        if (dead) {
            return BusLevel.DISCHARGED;
        }
        boolean charged = busV >= doneFraction * packV && busV <= MOST_FRACTION * packV && packV > dischargedV;
        return charged ? BusLevel.CHARGED : BusLevel.PARTIAL;
    }

    /** Rise of the bus over the last few ticks, as a share of the pack voltage per second. */
    private double slopePerS(double packV, double busV) {
        double slopePerS = (busV - history[oldest]) / (BusRise.SLOPE_TICKS * tickS * packV);
        history[oldest] = busV;
        oldest = (oldest + 1) % BusRise.SLOPE_TICKS;
        return slopePerS;
    }

    /** While the resistor is in circuit the bus must rise: a bus that stays has stalled, one that falls is reversed. */
    private void rise(double busV, double slopePerS, boolean raising, TickFacts facts, Debounce debounce) {
        boolean charged = facts.busLevel() == BusLevel.CHARGED;
        boolean stalled = raising && !charged && !(slopePerS > stallPerS);
        debounce.into(facts, Fact.BUS_STALLED, stalled);
        boolean falling = raising && (busV < NEGATIVE_V || slopePerS < -flatPerS * FALL_SHARE);
        debounce.into(facts, Fact.BUS_REVERSED, falling);
    }

    /** Heat in the precharge resistor: power in while current can flow, an exponential out. Unknown voltages count full. */
    private void heat(double packV, double busV, boolean closed, TickFacts facts) {
        resistorHeatJ = resistorHeatJ > NO_HEAT_J ? resistorHeatJ * coolingPerTick : 0;
        if (closed) {
            double across = packV - busV;
            double acrossV = across == across ? Math.min(Math.abs(across), worstPackV) : worstPackV;
            resistorHeatJ += acrossV * acrossV / resistanceOhm * tickS;
        }
        facts.set(Fact.RESISTOR_OVERLOADED, resistorHeatJ > energyLimitJ);
        facts.set(Fact.RESISTOR_SPENT, resistorHeatJ + onePrechargeJ > energyLimitJ);
    }

    /** What the three contactors were told, a bit each. */
    private static int told(boolean negative, boolean precharge, boolean positive) {
        return (negative ? NEGATIVE : 0) | (precharge ? PRECHARGE : 0) | (positive ? POSITIVE : 0);
    }

    /** Switches and what the contactors were told alone decide here. */
    private void contacts(Readings in, int told, TickFacts facts, Debounce debounce) {
        if (told != toldBefore || !debounce.isSteady()) {
            toldBefore = told;
            poles(in, told, facts, debounce);
            boolean stays = hasPrechargeAux && (told & PRECHARGE) == 0 && in.isOn(Signal.PRECHARGE_AUX_CLOSED);
            debounce.into(facts, Fact.PRECHARGE_WELDED, stays);
        }
    }

    private void poles(Readings in, int told, TickFacts facts, Debounce debounce) {
        boolean negative = (told & NEGATIVE) != 0;
        boolean positive = (told & POSITIVE) != 0;
        boolean negativeClosed = in.isOn(Signal.NEGATIVE_AUX_CLOSED);
        boolean positiveClosed = in.isOn(Signal.POSITIVE_AUX_CLOSED);
        facts.set(Fact.NEGATIVE_CONFIRMED, !hasNegativeAux || negativeClosed);
        facts.set(Fact.POSITIVE_CONFIRMED, !hasPositiveAux || positiveClosed);
        debounce.into(facts, Fact.NEGATIVE_WELDED, hasNegativeAux && !negative && negativeClosed);
        debounce.into(facts, Fact.POSITIVE_WELDED, hasPositiveAux && !positive && positiveClosed);
        debounce.into(facts, Fact.NEGATIVE_DROPPED, hasNegativeAux && negative && !negativeClosed);
        debounce.into(facts, Fact.POSITIVE_DROPPED, hasPositiveAux && positive && !positiveClosed);
    }
}
