package sprag.hal.board;

/**
 * Something wrong in a board's map.
 *
 * @param list whether it is among the inputs or the outputs
 * @param index which entry, from 0
 * @param key which value of the entry, e.g. {@code pin}
 * @param words what is wrong and what is allowed
 */
public record MapFault(Where list, int index, String key, String words) {
    /** Which list of the map. */
    public enum Where {
        /** The inputs. */
        INPUT,
        /** The outputs. */
        OUTPUT
    }

    /** A fault of an input.
     *
     * @param index which one, from 0
     * @param key which value
     * @param words what is wrong and what is allowed
     * @return the fault
     */
    public static MapFault input(int index, String key, String words) {
        return new MapFault(Where.INPUT, index, key, words);
    }

    /** A fault of an output.
     *
     * @param index which one, from 0
     * @param key which value
     * @param words what is wrong and what is allowed
     * @return the fault
     */
    public static MapFault output(int index, String key, String words) {
        return new MapFault(Where.OUTPUT, index, key, words);
    }

    @Override
    public String toString() {
        return (list == Where.INPUT ? "input " : "output ") + (index + 1) + ", " + key + ": " + words;
    }
}
