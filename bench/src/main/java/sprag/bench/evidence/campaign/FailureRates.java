package sprag.bench.evidence.campaign;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Nearest;

/**
 * How often faults come, as the user says, and what follows for a set of them. Faults are taken to be independent and to stay until
 * the end of the time.
 *
 * @param perHour the rate of each fault
 * @param hours how long no one looks
 */
record FailureRates(Map<String, Double> perHour, double hours) {
    private static final String HEADING = "fault,per_hour";
    private static final int MOST_BYTES = 1 << 22;
    private static final int MOST_TOLD = 10;

    /** No rate is known. */
    static FailureRates none() {
        return new FailureRates(Map.of(), 0);
    }

    /**
     * Reads a file of lines such as {@code pedal_a_v.open,1e-7}.
     *
     * @param known every fault of the campaign
     * @throws IllegalArgumentException with everything that is wrong, one line each
     */
    static FailureRates read(Path file, Collection<String> known, double hours) {
        List<String> lines;
        try {
            lines = new String(InputFile.bytes(file, MOST_BYTES), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
        } catch (InputFile.Refused e) {
            throw new IllegalArgumentException(file + " " + e.getMessage() + ". " + e.remedy(), e);
        }
        List<String> wrong = new ArrayList<>();
        Set<String> faults = Set.copyOf(known);
        Map<String, Double> rates = new TreeMap<>();
        if (lines.isEmpty() || !lines.get(0).strip().equals(HEADING)) {
            wrong.add(file + ":1: the first line must be " + HEADING);
        }
        for (int i = 1; i < lines.size(); i++) {
            String line = lines.get(i).strip();
            String trouble = line.isEmpty() ? "" : put(line, faults, rates);
            if (!trouble.isEmpty()) {
                wrong.add(file + ":" + (i + 1) + ": " + trouble);
            }
        }
        if (!wrong.isEmpty()) {
            int more = wrong.size() - MOST_TOLD;
            String rest = more > 0 ? System.lineSeparator() + "and " + more + " more" : "";
            throw new IllegalArgumentException(String.join(
                            System.lineSeparator(), wrong.subList(0, Math.min(MOST_TOLD, wrong.size())))
                    + rest);
        }
        return new FailureRates(rates, hours);
    }

    private static String put(String line, Set<String> known, Map<String, Double> rates) {
        int comma = line.lastIndexOf(',');
        String fault = comma < 0 ? line : line.substring(0, comma).strip();
        if (!known.contains(fault)) {
            return "\"" + fault + "\" is no fault of this campaign. " + Nearest.hint(fault, known);
        }
        double rate;
        try {
            rate = Double.parseDouble(line.substring(comma + 1).strip());
        } catch (NumberFormatException e) {
            rate = -1;
        }
        if (!(rate >= 0 && rate <= 1)) {
            return "the rate of " + fault + " is not a number from 0 to 1 per hour. Write for example 1e-7";
        }
        return rates.put(fault, rate) == null ? "" : fault + " has a rate already. Keep one of them";
    }

    /** The probability that all faults of a set come within the time; NaN when a rate is not known. */
    double probability(Set<String> faults) {
        double all = 1;
        for (String fault : faults) {
            all *= perHour.containsKey(fault) ? -Math.expm1(-perHour.get(fault) * hours) : Double.NaN;
        }
        return all;
    }

    /** An upper bound for any of independent sets, from the probability of each (min-cut upper bound); NaN for none. */
    static double any(Collection<Double> known) {
        double none = 0;
        for (double probability : known) {
            none += Math.log1p(-probability);
        }
        return known.isEmpty() ? Double.NaN : -Math.expm1(none);
    }

    /** A probability for people. */
    static String text(double probability) {
        return Double.isNaN(probability) ? "" : String.format(Locale.ROOT, "%.2e", probability);
    }
}
