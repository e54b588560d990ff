package sprag.bench.evidence.campaign;

import java.util.Locale;
import sprag.supervisor.vocabulary.State;

/**
 * What came of one fault at one moment.
 *
 * @param vehicle the vehicle
 * @param moment when the fault came, as {@link FaultMoment#key()}
 * @param fault the fault, or two of them joined by {@code +}
 * @param verdict what it amounts to
 * @param interlock the interlock that noticed it first, empty for none
 * @param shownMs from the fault to the first reading that differs, -1 when none ever did
 * @param detectMs from that reading to the interlock, -1 when none acted
 * @param reactMs from the interlock to the safe state, -1 when it was not reached
 * @param exposedMs how long, from that reading on, what the interlock asks for was not yet so
 * @param budgetMs the fault-tolerant time of that interlock, 0 for none
 * @param end the state at the end
 * @param unaskedNms torque nobody asked for (Nm s)
 * @param arcJ energy burnt in opening contacts beyond that of the run without the fault (J)
 * @param inrushJ energy burnt in closing contacts beyond that of the run without the fault (J)
 * @param overV volts above a limit of pack, bus or cell
 * @param liveS time the bus was live after opening (s)
 * @param tetheredM way driven while plugged in (m)
 */
record FaultOutcome(
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
        double unaskedNms,
        double arcJ,
        double inrushJ,
        double overV,
        double liveS,
        double tetheredM) {

    /** What a fault amounts to, worst first. */
    enum Verdict {
        /** Something happened that could hurt, beyond the limits of {@link HarmLimits}. */
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

    static final String COLUMNS =
            "vehicle,moment,fault,verdict,interlock,shown_ms,detect_ms,react_ms,exposed_ms,budget_ms,margin_ms,"
                    + "end,unasked_nms,arc_j,inrush_j,over_v,live_s,tethered_m";

    /** The name of the run, e.g. to play it again. */
    String id() {
        return vehicle + " " + moment + " " + fault;
    }

    /** Budget less exposure (ms); meaningless when nothing noticed it. */
    double marginMs() {
        return budgetMs - exposedMs;
    }

    /** Whether it is something to act on: harm or lateness from one fault alone. Pairs are shown, not judged. */
    boolean isFinding() {
        return !fault.contains("+") && (verdict == Verdict.HARM || verdict == Verdict.LATE);
    }

    String toCsv() {
        return String.format(
                Locale.ROOT,
                "%s,%s,%s,%s,%s,%.0f,%.0f,%.0f,%.0f,%.0f,%.0f,%s,%.3f,%.3f,%.3f,%.3f,%.2f,%.3f",
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
                unaskedNms,
                arcJ,
                inrushJ,
                overV,
                liveS,
                tetheredM);
    }

    static FaultOutcome fromCsv(String line) {
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
                num(c[12]),
                num(c[13]),
                num(c[14]),
                num(c[15]),
                num(c[16]),
                num(c[17]));
    }

    private static double num(String text) {
        return Double.parseDouble(text);
    }
}
