package sprag.supervisor.vocabulary;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;

/** The values of one vehicle: a number for each {@link Parameter} and which optional signals are fitted. Immutable. */
public final class Settings {
    private final double[] value;
    private final EnumSet<Signal> fitted;

    private Settings(double[] value, Set<Signal> optional) {
        this.value = value;
        this.fitted = EnumSet.noneOf(Signal.class);
        boolean pilot = is(Parameter.INLET_KIND, "type-1") || is(Parameter.INLET_KIND, "type-2");
        for (Signal signal : Signal.values()) {
            if (signal.isFitted(optional.contains(signal), pilot)) {
                fitted.add(signal);
            }
        }
    }

    /** Makes settings from a number for each parameter, in the order of {@link Parameter#values()}.
     *
     * @param values one number a parameter; NaN takes the default
     * @param optional the optional signals that are fitted
     * @return the settings
     * @throws IllegalArgumentException when a value is missing or out of range, naming it; our mistake, never the owner's
     */
    public static Settings of(double[] values, Set<Signal> optional) {
        if (values.length != Parameter.COUNT) {
            throw new IllegalArgumentException(values.length + " values for " + Parameter.COUNT + " parameters");
        }
        double[] checked = values.clone();
        for (Parameter p : Parameter.values()) {
            int i = p.ordinal();
            checked[i] = Double.isNaN(checked[i]) ? p.byDefault() : checked[i];
            if (!(checked[i] >= p.min() && checked[i] <= p.max())) {
                throw new IllegalArgumentException(
                        p.key() + " = " + checked[i] + " is outside " + p.min() + ".." + p.max());
            }
        }
        return new Settings(checked, optional);
    }

    /** The value of a parameter in its unit; for a choice, the index of the word.
     *
     * @param parameter which one
     * @return its value, always within its range
     */
    public double get(Parameter parameter) {
        return value[parameter.ordinal()];
    }

    /** Whether a choice has a certain word.
     *
     * @param parameter a parameter of unit {@link Unit#CHOICE}
     * @param word one of its choices
     * @return true when it was chosen
     */
    public boolean is(Parameter parameter, String word) {
        return parameter.choices().indexOf(word) == (int) get(parameter);
    }

    /** A duration in ticks, rounded up and at least one, so that no wait is shorter than asked.
     *
     * @param parameter a parameter in milliseconds
     * @return whole ticks
     */
    public int ticks(Parameter parameter) {
        return Math.max(1, (int) Math.ceil(get(parameter) / get(Parameter.LOOP_TICK_MS)));
    }

    /** The length of a tick.
     *
     * @return seconds
     */
    public double tickS() {
        return get(Parameter.LOOP_TICK_MS) / 1000;
    }

    /** Whether the vehicle has a signal.
     *
     * @param signal which one
     * @return true when fitted
     */
    public boolean has(Signal signal) {
        return fitted.contains(signal);
    }

    /** The same settings with one value changed, for tests and for weakening one value at a time.
     *
     * @param parameter what to change
     * @param newValue the new value, within the range
     * @return changed settings; these stay as they are
     */
    public Settings with(Parameter parameter, double newValue) {
        double[] changed = value.clone();
        changed[parameter.ordinal()] = newValue;
        return of(changed, fitted);
    }

    /** The same settings without an optional signal.
     *
     * @param signal what to take away
     * @return changed settings; these stay as they are
     */
    public Settings without(Signal signal) {
        EnumSet<Signal> fewer = EnumSet.copyOf(fitted);
        fewer.remove(signal);
        return new Settings(value.clone(), fewer);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Settings
                && Arrays.equals(value, ((Settings) other).value)
                && fitted.equals(((Settings) other).fitted);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(value) * 31 + fitted.hashCode();
    }
}
