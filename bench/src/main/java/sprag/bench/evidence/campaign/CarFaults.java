package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.BooleanSupplier;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.vehicle.Vehicle;

/** Every single fault at every moment on one car, for those who compare cars. */
public final class CarFaults {
    /**
     * What came of one fault at one moment.
     *
     * @param verdict a word of docs/campaign.md, e.g. {@code late}
     * @param isShown whether the fault changed anything that somebody could see
     * @param isNoticed whether an interlock noticed it
     * @param overMs how much longer than the budget the car was exposed; negative when it was not
     */
    public record Outcome(
            String fault, String moment, String verdict, boolean isShown, boolean isNoticed, double overMs) {
        /** Whether it did harm. */
        public boolean isHarm() {
            return verdict.equals(Verdict.HARM.name().toLowerCase(Locale.ROOT));
        }
    }

    private CarFaults() {}

    /** Plays them in the caller's thread.
     *
     * @param seed where the noise of its sensors starts
     * @param only what the name of a run must hold, empty for all
     * @param stop asked before each run; after a stop the list is short
     */
    public static List<Outcome> of(Vehicle car, long seed, String only, BooleanSupplier stop) {
        Campaign campaign = new Campaign(car, seed);
        List<Outcome> all = new ArrayList<>();
        for (Campaign.Run run : campaign.runs()) {
            if (stop.getAsBoolean()) {
                break;
            }
            if (run.faults().size() == 1 && run.id(car).contains(only)) {
                all.add(outcome(campaign.play(run, loop -> {})));
            }
        }
        return all;
    }

    private static Outcome outcome(FaultOutcome o) {
        boolean noticed = !o.interlock().isEmpty();
        return new Outcome(
                o.fault(),
                o.moment(),
                o.verdict().name().toLowerCase(Locale.ROOT),
                o.verdict() != Verdict.DORMANT,
                noticed,
                noticed ? -o.marginMs() : Double.NaN);
    }
}
