package sprag.bench.evidence.campaign.play;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.State;

/**
 * What came of one fault at one moment.
 *
 * @param moment when the fault came, as {@link FaultMoment#key()}
 * @param fault the fault, or two of them joined by {@code +}
 * @param interlock the interlock that noticed it first, empty for none
 * @param shownMs from the fault to the first reading that differs, -1 when none ever did
 * @param detectMs from that reading to the interlock, -1 when none acted
 * @param reactMs from the interlock to the safe state, -1 when it was not reached
 * @param exposedMs how long, from that reading on, what the interlock asks for was not yet so
 * @param budgetMs the fault-tolerant time of that interlock, 0 for none
 * @param end the state at the end
 * @param harms the amount of each {@link Harm}, in the order of its rows
 */
public record FaultOutcome(
        String vehicle,
        String moment,
        String fault,
        Verdict verdict,
        String interlock,
        double shownMs,
        double detectMs,
        double reactMs,
        double exposedMs,
        double budgetMs,
        State end,
        List<Double> harms) {

    /** What a fault amounts to, worst first. */
    public enum Verdict {
        /** Something happened that could hurt, beyond a limit of {@link Harm}. */
        HARM,
        /** Noticed, but not within the budget. */
        LATE,
        /** Nothing noticed it, and it did no harm in this run. */
        UNDETECTED,
        /** Noticed and answered within the budget. */
        SAFE,
        /** It changed nothing that anybody could see: not a fault at this moment. */
        DORMANT
    }

    public static final String COLUMNS =
            "vehicle,moment,fault,verdict,interlock,shown_ms,detect_ms,react_ms,exposed_ms,budget_ms,margin_ms,end,"
                    + Arrays.stream(Harm.values()).map(Harm::key).collect(Collectors.joining(","));

    /** What stands between the names of two faults at a time. */
    public static final String PAIR = "+";

    /** How many columns stand before those of the harms. */
    private static final int BEFORE_HARMS = 12;

    public FaultOutcome {
        harms = List.copyOf(harms);
    }

    /** The name of the run, e.g. to play it again. */
    public String id() {
        return vehicle + " " + moment + " " + fault;
    }

    /** Budget less exposure (ms); meaningless when nothing noticed it. */
    public double marginMs() {
        return budgetMs - exposedMs;
    }

    /** Whether the name of a fault is that of two at a time, such as {@code pedal_a_v.open+pedal_b_v.open}. */
    public static boolean isPair(String fault) {
        return fault.contains(PAIR);
    }

    /** Whether it is something to act on: harm or lateness from one fault alone. Pairs are shown, not judged. */
    public boolean isFinding() {
        return !isPair(fault) && (verdict == Verdict.HARM || verdict == Verdict.LATE);
    }

    /** How much of a harm there was. */
    public double amount(Harm row) {
        return harms.get(row.ordinal());
    }

    /** The harms that are above their limits on a vehicle. */
    public List<Harm> beyondLimits(Vehicle of) {
        return Arrays.stream(Harm.values())
                .filter(row -> amount(row) > row.limit(of))
                .toList();
    }

    /** The same with the verdict that it deserves.
     *
     * @param of the vehicle whose limits count
     * @param onlyWarned whether the interlock that noticed it only warns
     */
    FaultOutcome judged(Vehicle of, boolean onlyWarned) {
        Verdict judged;
        if (!beyondLimits(of).isEmpty()) {
            judged = Verdict.HARM;
        } else if (interlock.isEmpty()) {
            judged = shownMs < 0 ? Verdict.DORMANT : Verdict.UNDETECTED;
        } else {
            judged = !onlyWarned && (reactMs < 0 || marginMs() < 0) ? Verdict.LATE : Verdict.SAFE;
        }
        return new FaultOutcome(
                vehicle, moment, fault, judged, interlock, shownMs, detectMs, reactMs, exposedMs, budgetMs, end, harms);
    }

    public String toCsv() {
        String amounts =
                harms.stream().map(a -> String.format(Locale.ROOT, "%.3f", a)).collect(Collectors.joining(","));
        return String.format(
                Locale.ROOT,
                "%s,%s,%s,%s,%s,%.0f,%.0f,%.0f,%.0f,%.0f,%.0f,%s,%s",
                vehicle,
                moment,
                fault,
                verdict,
                interlock,
                shownMs,
                detectMs,
                reactMs,
                exposedMs,
                budgetMs,
                marginMs(),
                end,
                amounts);
    }

    public static FaultOutcome fromCsv(String line) {
        String[] c = line.split(",", -1);
        if (c.length != COLUMNS.split(",").length) {
            throw new IllegalArgumentException("a row of " + c.length + " columns: " + line);
        }
        return new FaultOutcome(
                c[0],
                c[1],
                c[2],
                Verdict.valueOf(c[3]),
                c[4],
                num(c[5]),
                num(c[6]),
                num(c[7]),
                num(c[8]),
                num(c[9]),
                State.valueOf(c[11]),
                Arrays.stream(c).skip(BEFORE_HARMS).map(FaultOutcome::num).toList());
    }

    private static double num(String text) {
        return Double.parseDouble(text);
    }
}
