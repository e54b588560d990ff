package sprag.bench.port.equal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Small planted mistakes in the C, one at a time. A comparison that does not find them proves little. */
final class Mutants {
    /** What stands in the C, and what is put in its place. */
    private static final Map<String, String> SWAPS = Map.ofEntries(
            Map.entry(" < ", " <= "),
            Map.entry(" <= ", " < "),
            Map.entry(" > ", " >= "),
            Map.entry(" >= ", " > "),
            Map.entry(" == ", " != "),
            Map.entry(" != ", " == "),
            Map.entry(" && ", " || "),
            Map.entry(" || ", " && "),
            Map.entry(" + ", " - "),
            Map.entry(" - ", " + "),
            Map.entry(" * ", " / "),
            Map.entry("++;", "--;"),
            Map.entry(" true", " false"),
            Map.entry(" false", " true"),
            Map.entry("(!", "("),
            Map.entry("return true", "return false"));

    private static final Pattern PLACE = Pattern.compile(String.join(
            "|", SWAPS.keySet().stream().map(Pattern::quote).sorted().toList()));

    private Mutants() {}

    /**
     * One planted mistake.
     *
     * @param file where
     * @param text the whole file with the mistake
     * @param words what it is, for people
     */
    record Mutant(String file, String text, String words) {}

    /** Some of all that there can be, chosen by chance: each by its own words, so that a change elsewhere in the code does not choose others.
     *
     * @param code the files
     * @param most how many
     * @param seed where chance starts
     */
    static List<Mutant> some(Map<String, String> code, int most, long seed) {
        List<Mutant> all = new ArrayList<>();
        code.forEach((file, text) -> {
            if (file.endsWith(".c") && !file.equals("self_test.c")) {
                all.addAll(of(file, text));
            }
        });
        all.sort(Comparator.comparingLong(each -> draw(each.words(), seed)));
        return all.subList(0, Math.min(most, all.size()));
    }

    private static long draw(String words, long seed) {
        return new Random(seed ^ words.replaceFirst(":\\d+:", ":").hashCode()).nextLong();
    }

    private static List<Mutant> of(String file, String text) {
        List<Mutant> found = new ArrayList<>();
        Matcher place = PLACE.matcher(text);
        while (place.find()) {
            int line = (int) text.substring(0, place.start())
                            .chars()
                            .filter(c -> c == '\n')
                            .count()
                    + 1;
            String whole = text.lines().skip(line - 1L).findFirst().orElse("").strip();
            boolean code = !whole.startsWith("/*")
                    && !whole.startsWith("*")
                    && !whole.startsWith("for (")
                    && !whole.startsWith("static const")
                    && text.substring(0, place.start()).contains("{\n");
            if (code) {
                String after = SWAPS.get(place.group());
                found.add(new Mutant(
                        file,
                        text.substring(0, place.start()) + after + text.substring(place.end()),
                        file + ":" + line + ": \"" + place.group().strip() + "\" made \"" + after.strip() + "\" in "
                                + whole));
            }
        }
        return found;
    }
}
