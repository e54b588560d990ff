package sprag.bench.port.equal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
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

    /** Where a function begins. */
    private static final Pattern HEAD = Pattern.compile("(?m)^[a-z][^;{}=]*?(\\w+)\\([^;{}]*\\{");

    private Mutants() {}

    /**
     * One planted mistake.
     *
     * @param file where
     * @param text the whole file with the mistake
     * @param words the function, the line and the change in it; the same wherever the function stands
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

    /** Two numbers that begin alike must not draw alike: seeds that are neighbours would choose nearly the same. */
    private static long draw(String words, long seed) {
        return new SplittableRandom(new SplittableRandom(seed).nextLong() ^ words.hashCode()).nextLong();
    }

    private static List<Mutant> of(String file, String text) {
        List<Mutant> found = new ArrayList<>();
        NavigableMap<Integer, String> functions = functions(text);
        int firstBody = text.indexOf("{\n");
        Matcher place = PLACE.matcher(text);
        while (place.find()) {
            int begin = text.lastIndexOf('\n', place.start()) + 1;
            String line = text.substring(begin, text.indexOf('\n', begin));
            boolean code = !line.strip().startsWith("/*")
                    && !line.strip().startsWith("*")
                    && !line.strip().startsWith("for (")
                    && !line.startsWith("static const")
                    && firstBody >= 0
                    && firstBody + 2 <= place.start();
            if (code) {
                String after = SWAPS.get(place.group());
                String change = "{" + place.group().strip() + " made " + after.strip() + "}";
                String changed = line.substring(0, place.start() - begin)
                        + place.group().replace(place.group().strip(), change)
                        + line.substring(place.end() - begin);
                found.add(new Mutant(
                        file,
                        text.substring(0, place.start()) + after + text.substring(place.end()),
                        file + ", " + functions.floorEntry(begin).getValue() + ": " + changed.strip()));
            }
        }
        return found;
    }

    /** The name of each function, at the place where its body begins. */
    private static NavigableMap<Integer, String> functions(String text) {
        NavigableMap<Integer, String> names = new TreeMap<>(Map.of(0, "no function"));
        Matcher head = HEAD.matcher(text);
        while (head.find()) {
            names.put(head.end(), head.group(1));
        }
        return names;
    }
}
