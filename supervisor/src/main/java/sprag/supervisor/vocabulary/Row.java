package sprag.supervisor.vocabulary;

import java.util.List;

/**
 * One value that a file may give: its key, unit, default, range, and what goes wrong outside the range.
 *
 * <p>The supervisor's own values are {@link Parameter}; whoever reads files may have rows of its own, read the same way.
 */
public interface Row {
    /** Section and name as in the file, e.g. {@code precharge.done_fraction}.
     *
     * @return the dotted key
     */
    String key();

    /** The unit.
     *
     * @return what the value is measured in
     */
    Unit unit();

    /** The value when the file gives none.
     *
     * @return the default; NaN when the file must give one
     */
    double byDefault();

    /** The least allowed value.
     *
     * @return in {@link #unit()}
     */
    double min();

    /** The greatest allowed value.
     *
     * @return in {@link #unit()}
     */
    double max();

    /** For a choice, the words; the value is the index.
     *
     * @return the words, empty for a number
     */
    List<String> choices();

    /** What a value outside the range would do, to finish the sentence "it would ...".
     *
     * @return a clause
     */
    String risk();

    /** Whether every file must give a value.
     *
     * @return true when there is no default
     */
    default boolean required() {
        return Double.isNaN(byDefault());
    }
}
