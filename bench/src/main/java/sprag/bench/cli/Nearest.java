package sprag.bench.cli;

import java.util.Collection;
import java.util.Optional;

/** Finds the known name that somebody probably meant. */
public final class Nearest {
    /** A longer name gets no proposal: it is no slip of a known name, and the search would take too long. */
    private static final int LONGEST = 200;

    private Nearest() {}

    /**
     * The known name with the fewest slips to what was written, when there are few enough to be a slip. Returns the
     * likeliest, or none when nothing is near.
     */
    public static Optional<String> to(String written, Collection<String> known) {
        if (written.length() > LONGEST) {
            return Optional.empty();
        }
        String best = null;
        int bestSlips = Math.max(2, written.length() / 3) + 1;
        for (String name : known) {
            boolean lengthsAreNear = Math.abs(name.length() - written.length()) < bestSlips;
            int slips = lengthsAreNear ? slips(written, name) : bestSlips;
            if (slips < bestSlips) {
                bestSlips = slips;
                best = name;
            }
        }
        return Optional.ofNullable(best);
    }

    /** A sentence that helps the user: the likeliest name, or the list of names. E.g. {@code Did you mean "start"?}. */
    public static String hint(String written, Collection<String> known) {
        return to(written, known)
                .map(name -> "Did you mean " + name + "?")
                .orElseGet(() -> known.size() <= 12
                        ? "Use one of: " + String.join(", ", known) + "."
                        : "There is no name near it; remove it, or look for it in the lists of \"sprag key\".");
    }

    /** The least number of letters inserted, left out, changed or swapped with their neighbour (optimal string alignment). */
    public static int slips(String a, String b) {
        int[][] cost = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            for (int j = 0; j <= b.length(); j++) {
                cost[i][j] = i == 0 || j == 0 ? i + j : cheapest(cost, a, b, i, j);
            }
        }
        return cost[a.length()][b.length()];
    }

    private static int cheapest(int[][] cost, String a, String b, int i, int j) {
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        int least = Math.min(cost[i - 1][j - 1] + change, 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
        boolean swapped = i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
        return swapped ? Math.min(least, cost[i - 2][j - 2] + 1) : least;
    }
}
