package sprag.bench.hand.board;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * What was seen of one pedal track: released, fully pressed, and released again.
 *
 * <pre>
 *  full      ________            mean of the plateau
 *           /        \
 *  released/          \__ back   the spread of both, over the travel, makes the dead band
 * </pre>
 */
record PedalTravel(Plateau released, Plateau full, Plateau back) {
    private static final double LEAST_TRAVEL_V = 0.5;
    private static final double BAND_PER_SPREAD = 1.5;
    private static final double LEAST_BAND = 0.02;
    private static final double GREATEST_BAND = 0.2;
    private static final double STEADY_V = 0.1;

    /** The voltages seen while the pedal was held still. */
    record Plateau(double minV, double meanV, double maxV) {
        static Plateau of(List<Double> volts) {
            double sumV = 0;
            double minV = Double.POSITIVE_INFINITY;
            double maxV = Double.NEGATIVE_INFINITY;
            for (double v : volts) {
                sumV += v;
                minV = Math.min(minV, v);
                maxV = Math.max(maxV, v);
            }
            return new Plateau(minV, sumV / volts.size(), maxV);
        }

        double spreadV() {
            return maxV - minV;
        }
    }

    /** Why this is no travel to write down; empty when it is one. */
    List<String> objections() {
        List<String> found = new ArrayList<>();
        steady("released", released, found);
        steady("fully pressed", full, found);
        steady("released again", back, found);
        if (travelV() < LEAST_TRAVEL_V) {
            found.add(String.format(
                    Locale.ROOT,
                    "the wiper moved only %.3f V, at least %.1f V is expected: is it the right pin, and was the pedal pressed?",
                    travelV(),
                    LEAST_TRAVEL_V));
        } else if (share() > GREATEST_BAND) {
            found.add(String.format(
                    Locale.ROOT,
                    "released it stands anywhere within %.3f V, %.0f %% of the travel: the pedal sticks, or its wiper is worn",
                    releasedSpreadV(),
                    100 * share()));
        }
        return found;
    }

    /** The values for the vehicle's file, by key within its pedal section. */
    Map<String, Double> values(char track) {
        Map<String, Double> values = new LinkedHashMap<>();
        values.put(track + "_released_v", round(middle()));
        values.put(track + "_full_v", round(full.meanV));
        return values;
    }

    /** The share of the travel within which the pedal counts as released. */
    double deadbandShare() {
        double band = Math.ceil(100 * BAND_PER_SPREAD * share()) / 100;
        return Math.max(LEAST_BAND, Math.min(GREATEST_BAND, band));
    }

    private double middle() {
        return (Math.min(released.minV, back.minV) + Math.max(released.maxV, back.maxV)) / 2;
    }

    private double travelV() {
        return Math.abs(full.meanV - middle());
    }

    private double releasedSpreadV() {
        return Math.max(released.maxV, back.maxV) - Math.min(released.minV, back.minV);
    }

    private double share() {
        return releasedSpreadV() / travelV();
    }

    private static void steady(String what, Plateau plateau, List<String> found) {
        if (plateau.spreadV() > STEADY_V) {
            found.add(String.format(
                    Locale.ROOT,
                    "%s, the wiper moved between %.3f and %.3f V: hold it still, or look for a loose" + " wire",
                    what,
                    plateau.minV,
                    plateau.maxV));
        }
    }

    private static double round(double volts) {
        return Math.round(volts * 1000) / 1000.0;
    }
}
