package sprag.bench.review.wiring;

import java.util.List;
import java.util.Locale;

/** Whether two net names look like one name written twice, once with a slip. */
final class LooksLikeTypo {
    private static final int SHORTEST_WORD = 4;

    private LooksLikeTypo() {}

    /**
     * True when they differ by capitals, by one letter more, less or other, or by two neighbours swapped: "brake_lamp" and
     * "brake_lmp". Names that differ on purpose do not: numbers ("hv_1", "hv_2"), and parts of one letter ("pedal_a_v",
     * "pedal_b_v").
     */
    static boolean looksLikeASlip(String one, String other) {
        String a = one.toLowerCase(Locale.ROOT);
        String b = other.toLowerCase(Locale.ROOT);
        if (a.equals(b)) {
            return !one.equals(other);
        }
        List<String> left = List.of(a.split("[_ .-]+"));
        List<String> right = List.of(b.split("[_ .-]+"));
        if (left.size() != right.size()) {
            return a.replaceAll("[_ .-]", "").equals(b.replaceAll("[_ .-]", ""));
        }
        int differing = 0;
        boolean slip = true;
        for (int i = 0; i < left.size(); i++) {
            if (!left.get(i).equals(right.get(i))) {
                differing++;
                slip &= isSlip(left.get(i), right.get(i));
            }
        }
        return differing == 1 && slip;
    }

    private static boolean isSlip(String a, String b) {
        boolean digits = a.replaceAll("\\d", "").equals(b.replaceAll("\\d", ""));
        boolean letters = a.length() == 1 && b.length() == 1;
        // Short words differ by a letter on purpose: l and n, lv and hv, pe and ped.
        boolean tooShort = Math.max(a.length(), b.length()) < SHORTEST_WORD;
        return !digits && !letters && !tooShort && isOneChange(a, b);
    }

    private static boolean isOneChange(String a, String b) {
        int start = 0;
        while (start < Math.min(a.length(), b.length()) && a.charAt(start) == b.charAt(start)) {
            start++;
        }
        int end = 0;
        while (end < Math.min(a.length(), b.length()) - start
                && a.charAt(a.length() - 1 - end) == b.charAt(b.length() - 1 - end)) {
            end++;
        }
        int restA = a.length() - start - end;
        int restB = b.length() - start - end;
        boolean swapped = restA == 2
                && restB == 2
                && a.charAt(start) == b.charAt(start + 1)
                && a.charAt(start + 1) == b.charAt(start);
        return Math.max(restA, restB) == 1 || swapped;
    }
}
