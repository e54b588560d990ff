package sprag.bench.evidence.mcdc;

import java.util.List;

/** A place of the code that goes one way or the other, made of conditions. */
record Decision(int id, String file, long line, String text, List<String> conditions) {
    /** Whether a condition, shown by two ticks in which the others agree or were not asked, decides alone. */
    boolean decidesAlone(int condition, boolean[] hits) {
        int vectors = hits.length / 2;
        for (int a = 0; a < vectors; a++) {
            for (int b = 0; b < vectors; b++) {
                boolean other = hits[a * 2] && hits[b * 2 + 1];
                if (other && differInOne(condition, a, b)) {
                    return true;
                }
            }
        }
        return false;
    }

    private boolean differInOne(int condition, int a, int b) {
        int x = a;
        int y = b;
        for (int i = 0; i < conditions.size(); i++) {
            int p = x % 3;
            int q = y % 3;
            boolean differs = p != 0 && q != 0 && p != q;
            if (i == condition ? !differs : differs) {
                return false;
            }
            x /= 3;
            y /= 3;
        }
        return true;
    }

    /** How a condition stands in the list of those that do not decide alone. */
    String name(int condition) {
        String own = conditions.get(condition);
        return file + " | " + text + (conditions.size() == 1 ? "" : " | " + own);
    }
}
