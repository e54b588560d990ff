package sprag.supervisor.vocabulary;

import java.util.List;
import java.util.Locale;

/**
 * One value that a file may give: its key, unit, default, range, and what goes wrong outside the range.
 *
 * <p>The supervisor's own values are {@link Parameter}. Programs that read other files have tables of their own, made of the
 * same rows and read the same way. A table is an enum: it gives a {@link Spec} for each row, and the rest follows.
 */
public interface Row {
    /** Everything about a row but its key.
     *
     * @param unit what the value is measured in
     * @param byDefault the value when the file gives none, in that unit; NaN when there is none
     * @param min the least allowed value
     * @param max the greatest allowed value
     * @param choices for a choice, the words, and the value is the index of one; empty for a number
     * @param risk what a value outside the range would do, to finish the sentence "it would ..."
     */
    record Spec(Unit unit, double byDefault, double min, double max, List<String> choices, String risk) {
        /** A number.
         *
         * @param unit what it is measured in
         * @param byDefault its default; NaN when there is none
         * @param min the least allowed value
         * @param max the greatest allowed value
         * @param risk what a value outside the range would do
         * @return the row's values
         */
        public static Spec number(Unit unit, double byDefault, double min, double max, String risk) {
            return new Spec(unit, byDefault, min, max, List.of(), risk);
        }

        /** One of several words.
         *
         * @param byDefault the index of the default word; NaN when there is none
         * @param choices the words
         * @param risk what a wrong word would do
         * @return the row's values
         */
        public static Spec choice(double byDefault, List<String> choices, String risk) {
            return new Spec(Unit.CHOICE, byDefault, 0, choices.size() - 1.0, choices, risk);
        }
    }

    /** The name of the row in its table.
     *
     * @return the enum constant's name
     */
    String name();

    /** Everything about the row but its key.
     *
     * @return unit, default, range and risk
     */
    Spec spec();

    /** Section and name as in the file: {@code PRECHARGE_DONE_FRACTION} is {@code precharge.done_fraction}.
     *
     * @return the dotted key
     */
    default String key() {
        return lowerName().replaceFirst("_", ".");
    }

    /** The name in lower case, for keys.
     *
     * @return e.g. {@code precharge_done_fraction}
     */
    default String lowerName() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The unit.
     *
     * @return what the value is measured in
     */
    default Unit unit() {
        return spec().unit;
    }

    /** The value when the file gives none.
     *
     * @return the default; NaN when there is none
     */
    default double byDefault() {
        return spec().byDefault;
    }

    /** The least allowed value.
     *
     * @return in {@link #unit()}
     */
    default double min() {
        return spec().min;
    }

    /** The greatest allowed value.
     *
     * @return in {@link #unit()}
     */
    default double max() {
        return spec().max;
    }

    /** For a choice, the words; the value is the index.
     *
     * @return the words, empty for a number
     */
    default List<String> choices() {
        return spec().choices;
    }

    /** What a value outside the range would do, to finish the sentence "it would ...".
     *
     * @return a clause
     */
    default String risk() {
        return spec().risk;
    }

    /** Whether every file must give a value.
     *
     * @return true when there is no default
     */
    default boolean required() {
        return Double.isNaN(byDefault());
    }
}
