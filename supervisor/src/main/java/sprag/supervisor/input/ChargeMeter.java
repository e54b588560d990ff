package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;

/**
 * Keeps the long times of a charge, and says when it is over.
 *
 * <p>A charge is over when the current has stayed below {@code charge.end_a} for {@code charge.end_s} with the pack at the
 * charge voltage or the highest cell at its limit, and has then been held there for {@code charge.balance_min}. It stays over
 * until the plug was out, or until the state of charge has fallen to less than {@code charge.restart_fraction} of what it was
 * at the end.
 *
 * <p>Where converter and chargers are both behind the contactors, a weak 12 V battery makes a finished charge due again, and the pack is
 * held at its limit until that battery is helped: only then is there a bus that feeds the converter. The chargers carry it meanwhile.
 *
 * <p>A charge that ended for any reason but the plug is not begun again before {@code charge.retry_s}: until then no offer counts, so
 * that a station which takes its offer back whenever it is accepted is not asked again and again.
 *
 * <p>A charger that ignores its limit is not asked again until the plug was out. What a charger says of itself counts beside the pack's
 * own readings, so that one of them may show too little.
 *
 * <p>Only time in which current was allowed counts against {@code charge.max_min}, and it adds up over interruptions. The time of that
 * help does not count: the pack is full, and the help has its own end.
 *
 * <p>A charger that takes no limit is not held against one. One that nothing switches ends its charge by itself: here it is never
 * over before the plug is out, and only time in which current flows counts.
 */
final class ChargeMeter {
    /** How far below the charge voltage still counts as there, at most, as a share of it. */
    private static final double AT_VOLTAGE_SHARE = 0.01;

    /** How many times its limit a charger must give to count as one that ignores it. */
    private static final double ABOVE = 2;

    private final ChargerLines lines;
    private final double endA;
    private final double atVoltageV;
    private final double cellHighV;
    private final double tooHighV;
    private final double openA;
    private final double restartFraction;
    private final int endTicks;
    private final int balanceTicks;
    private final int maxTicks;
    private final int retryTicks;
    private final boolean takesLimit;
    private final boolean alone;
    private final boolean feedsConverter;
    private final int supportTicks;

    private boolean aboveLimit;
    private boolean finished;
    private double finishedAt = Double.NaN;
    private int lowTicks;
    private int heldTicks;
    private int allowedTicks;
    private int idleTicks;
    private boolean wasIdle;

    ChargeMeter(Settings settings) {
        double voltageV = settings.get(Parameter.CHARGE_VOLTAGE_V);
        double overV = settings.get(Parameter.CHARGE_OVER_V);
        double tickS = settings.tickS();
        lines = new ChargerLines(settings);
        endA = settings.get(Parameter.CHARGE_END_A);
        atVoltageV = voltageV - Math.min(overV, AT_VOLTAGE_SHARE * voltageV);
        cellHighV = settings.get(Parameter.CELL_HIGH_V);
        tooHighV = voltageV + overV;
        openA = settings.get(Parameter.CONTACTOR_OPEN_A);
        restartFraction = settings.get(Parameter.CHARGE_RESTART_FRACTION);
        endTicks = (int) Math.ceil(settings.get(Parameter.CHARGE_END_S) / tickS);
        balanceTicks = (int) Math.ceil(settings.get(Parameter.CHARGE_BALANCE_MIN) * 60 / tickS);
        maxTicks = (int) Math.ceil(settings.get(Parameter.CHARGE_MAX_MIN) * 60 / tickS);
        retryTicks = (int) Math.ceil(settings.get(Parameter.CHARGE_RETRY_S) / tickS);
        takesLimit = settings.is(Parameter.CHARGER_CONTROL, "limited");
        alone = settings.is(Parameter.CHARGER_CONTROL, "alone");
        feedsConverter =
                settings.is(Parameter.DCDC_SIDE, "bus-side") && settings.is(Parameter.CHARGER_SIDE, "bus-side");
        supportTicks = LvSupport.lastsTicks(settings);
        idleTicks = retryTicks;
    }

    /** Looks at the charge for one tick.
     *
     * @param last the commands of the tick before
     * @param in the readings
     * @param facts where the charge's facts are set; the inlet's are there already
     * @param debounce the debouncer
     * @param c the quantities of this tick
     */
    void update(Commands last, Readings in, TickFacts facts, Debounce debounce, Conditioned c) {
        boolean plugged = facts.is(Fact.PLUG_SEEN);
        boolean allowed = last.isOn(Output.CHARGER_ENABLE);
        // The second tick without a plug can say nothing new.
        boolean idle = !plugged && !allowed && !debounce.isCounting();
        if (!idle || !wasIdle) {
            wasIdle = idle;
            charge(last, in, facts, debounce, c);
        }
    }

    private void charge(Commands last, Readings in, TickFacts facts, Debounce debounce, Conditioned c) {
        boolean plugged = facts.is(Fact.PLUG_SEEN);
        boolean allowed = last.isOn(Output.CHARGER_ENABLE);
        double intoPackA = -c.packCurrentA;
        idleTicks = allowed ? 0 : Math.min(idleTicks + 1, retryTicks);
        if (!allowed && idleTicks < retryTicks) {
            facts.set(Fact.CHARGE_OFFERED, false);
        }
        if (!plugged) {
            idleTicks = retryTicks;
            debounce.forget(facts, Fact.CHARGER_ABOVE_LIMIT);
            forget();
        } else if (finished) {
            fallAgain(c);
        } else if (allowed && !alone) {
            boolean helps = lowTicks > endTicks && heldTicks >= balanceTicks;
            allowedTicks = helps ? allowedTicks : Math.min(allowedTicks + 1, maxTicks + 1);
            finish(intoPackA, c);
        } else if (intoPackA >= endA && alone) {
            allowedTicks = Math.min(allowedTicks + 1, maxTicks + 1);
        }
        facts.set(Fact.CHARGE_DUE, !finished);
        facts.set(Fact.CHARGE_DONE, finished);
        facts.set(Fact.CHARGE_RETRY, idleTicks >= retryTicks);
        facts.set(Fact.CHARGE_TOO_LONG, allowedTicks > maxTicks);
        boolean runsOn = plugged && !allowed && (intoPackA > openA || lines.sumA(in) > openA);
        debounce.into(facts, Fact.CHARGER_RUNS_ON, runsOn);
        debounce.into(facts, Fact.CHARGER_ABOVE_LIMIT, aboveLimit || allowed && anyAboveLimit(last, in, intoPackA));
        aboveLimit = facts.is(Fact.CHARGER_ABOVE_LIMIT);
        boolean over = plugged && (c.packVoltageV > tooHighV || lines.highestV(in) > tooHighV);
        debounce.into(facts, Fact.CHARGE_OVERVOLTAGE, over);
    }

    /**
     * The limit is taken back for whatever flows above it, so a charger that merely gives too much ends near what was wanted. One
     * whose limit stays at less than half of what flows does not heed it.
     */
    private boolean anyAboveLimit(Commands last, Readings in, double intoPackA) {
        boolean above = isAbove(last.get(Output.CHARGE_CURRENT_LIMIT_A), intoPackA);
        for (int i = 0; i < ChargerLines.MOST; i++) {
            above |= isAbove(last.get(ChargerLines.limit(i)), lines.currentA(i, in));
        }
        return above;
    }

    private boolean isAbove(double limitA, double flowsA) {
        return takesLimit && flowsA > openA && limitA < flowsA / ABOVE;
    }

    private void forget() {
        finished = false;
        finishedAt = Double.NaN;
        lowTicks = 0;
        heldTicks = 0;
        allowedTicks = 0;
    }

    /** A cell at its limit, where cells are known, counts as much as the pack at the charge voltage. */
    private void finish(double intoPackA, Conditioned c) {
        boolean atLimit = c.packVoltageV >= atVoltageV || c.cellMaxV >= cellHighV;
        boolean small = intoPackA < endA && intoPackA > -endA;
        if (lowTicks <= endTicks) {
            lowTicks = atLimit && small ? lowTicks + 1 : 0;
        } else {
            heldTicks++;
        }
        if (lowTicks > endTicks && heldTicks >= heldLongEnough(c)) {
            forget();
            finished = true;
        }
    }

    /** The help for the 12 V battery ends with its usual time, whatever that battery shows: a dead converter cannot help it. */
    private int heldLongEnough(Conditioned c) {
        return feedsConverter && c.lvSupport ? Math.max(balanceTicks, supportTicks) : balanceTicks;
    }

    /** The first state of charge after the end is what it has come to: by then the gauge has looked at the full pack. */
    private void fallAgain(Conditioned c) {
        if (finishedAt != finishedAt) {
            finishedAt = c.stateOfCharge;
        }
        if (c.stateOfCharge < restartFraction * finishedAt || feedsConverter && c.lvSupport) {
            forget();
        }
    }
}
