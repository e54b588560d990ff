package sprag.bench.evidence.campaign;

import sprag.bench.evidence.campaign.FaultOutcome.Verdict;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** What counts as harm. All of it is chosen, with the reason beside it. */
final class HarmLimits {
    /** Full torque for as long as the budget for unasked torque allows moves a car less than a step. */
    private static final double UNASKED_SHARE = 1.0;
    /** An arc of this energy leaves a contact usable, by the electrical life that makers state; chosen. */
    static final double ARC_J = 50;
    /** An inrush of this energy does not weld a contact made for traction; chosen. */
    static final double INRUSH_J = 40;
    /** The tolerance of a voltage measurement. */
    static final double OVER_SHARE = 0.01;
    /** A car tied to the wall may rock in its suspension, no more. */
    static final double TETHERED_M = 0.05;

    private HarmLimits() {}

    /** Judges what came of a fault.
     *
     * @param o what was measured
     * @param vehicle whose limits count
     * @param onlyWarned whether the interlock that noticed it only warns
     * @return the same with its verdict
     */
    static FaultOutcome judge(FaultOutcome o, Vehicle vehicle, boolean onlyWarned) {
        Verdict verdict;
        if (harms(o, vehicle)) {
            verdict = Verdict.HARM;
        } else if (o.interlock().isEmpty()) {
            verdict = o.shownMs() < 0 ? Verdict.DORMANT : Verdict.UNDETECTED;
        } else if (!onlyWarned && (o.reactMs() < 0 || o.marginMs() < 0)) {
            verdict = Verdict.LATE;
        } else {
            verdict = Verdict.SAFE;
        }
        return new FaultOutcome(
                o.vehicle(),
                o.moment(),
                o.fault(),
                verdict,
                o.interlock(),
                o.shownMs(),
                o.detectMs(),
                o.reactMs(),
                o.exposedMs(),
                o.budgetMs(),
                o.end(),
                o.unaskedNms(),
                o.arcJ(),
                o.inrushJ(),
                o.overV(),
                o.liveS(),
                o.tetheredM());
    }

    private static boolean harms(FaultOutcome o, Vehicle vehicle) {
        double torqueNms =
                vehicle.get(Parameter.DRIVE_TORQUE_NM) * vehicle.get(Parameter.BUDGET_TORQUE_MS) / 1000 * UNASKED_SHARE;
        return o.unaskedNms() > torqueNms
                || o.arcJ() > ARC_J
                || o.inrushJ() > INRUSH_J
                || o.overV() > vehicle.get(Parameter.PACK_MAX_V) * OVER_SHARE
                || o.tetheredM() > TETHERED_M;
    }
}
