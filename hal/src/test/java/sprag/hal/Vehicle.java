package sprag.hal;

import java.util.Arrays;
import java.util.EnumSet;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Values of some vehicle: what is not given by default lies in the middle of its range. */
final class Vehicle {
    private Vehicle() {}

    static Settings any() {
        double[] values = new double[Parameter.COUNT];
        Arrays.fill(values, Double.NaN);
        for (Parameter p : Parameter.values()) {
            if (p.required()) {
                values[p.ordinal()] = p.choices().isEmpty() ? (p.min() + p.max()) / 2 : 0;
            }
        }
        return Settings.of(values, EnumSet.allOf(Signal.class));
    }
}
