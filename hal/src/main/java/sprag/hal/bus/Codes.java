package sprag.hal.bus;

import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What certain raw values of a field mean.
 *
 * @param texts names of raw values, for people
 * @param on raw values that mean on, for a switch; the first is the one that is sent
 * @param off raw values that mean off, for a switch; the first is the one that is sent
 * @param unknown raw values that mean "not available" or "error"
 * @param unknownFrom every raw value from here on means the same; -1 for none
 */
public record Codes(Map<Long, String> texts, List<Long> on, List<Long> off, Set<Long> unknown, long unknownFrom) {
    /** For a number without certain values. */
    public static final Codes NONE = new Codes(Map.of(), List.of(1L), List.of(0L), Set.of(), -1);

    /** Keeps copies.
     *
     * @param texts names
     * @param on values that mean on
     * @param off values that mean off
     * @param unknown values that mean not available
     * @param unknownFrom from here on not available
     */
    public Codes {
        texts = Map.copyOf(texts);
        on = List.copyOf(on);
        off = List.copyOf(off);
        unknown = Set.copyOf(unknown);
    }

    /** Whether a raw value says that the number is not known.
     *
     * @param raw bits without sign
     * @return true for a code of "not available"
     */
    public boolean isUnknown(long raw) {
        return unknownFrom >= 0 && Long.compareUnsigned(raw, unknownFrom) >= 0 || unknown.contains(raw);
    }
}
