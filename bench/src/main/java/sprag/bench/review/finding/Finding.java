package sprag.bench.review.finding;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * One thing that the review has to say.
 *
 * @param id the rule or calculation, in words with hyphens; never renamed
 * @param where the wire, terminal, part, net or key it is about; stable when lines move
 * @param sentence what is wrong, with the numbers
 * @param why why that matters, a clause; empty when the sentence says it
 * @param numbers the same numbers for a program, each name with its unit, in the order of the sentence
 * @param source the standard or "common practice" behind the rule
 */
public record Finding(
        String id,
        Weight weight,
        String where,
        Place place,
        String sentence,
        String why,
        Map<String, Double> numbers,
        String source) {

    /**
     * Where to look.
     *
     * @param line the line, counted from 1; 0 when no single line is to blame
     */
    public record Place(String file, int line) {
        @Override
        public String toString() {
            return line > 0 ? file + ":" + line : file;
        }
    }

    /** Keeps the numbers in their order and unchangeable. */
    public Finding {
        numbers = Collections.unmodifiableMap(new LinkedHashMap<>(numbers));
    }

    /**
     * Names and their numbers as a map that keeps their order.
     *
     * @param namesAndNumbers a name, its number, the next name, its number, and so on
     */
    public static Map<String, Double> numbersOf(Object... namesAndNumbers) {
        Map<String, Double> map = new LinkedHashMap<>();
        for (int i = 0; i < namesAndNumbers.length; i += 2) {
            map.put((String) namesAndNumbers[i], ((Number) namesAndNumbers[i + 1]).doubleValue());
        }
        return map;
    }
}
