package sprag.bench.cli;

import java.util.function.Supplier;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/** Refuses what a command cannot take as wrong usage. */
public final class Within {
    private Within() {}

    /** Ends the command as wrong usage, with the range, when a number is outside it.
     *
     * @param spec the command
     * @param option its option, e.g. {@code --port}
     * @param value what was given
     * @param min the least allowed
     * @param max the greatest allowed
     */
    public static void check(CommandSpec spec, String option, double value, double min, double max) {
        if (!(value >= min && value <= max)) {
            throw new ParameterException(
                    spec.commandLine(),
                    option + " " + Numbers.text(value) + " is outside " + Numbers.text(min) + ".." + Numbers.text(max));
        }
    }

    /** What a supplier gives. What it refuses with an {@link IllegalArgumentException} is the user's mistake, and ends the command so. */
    public static <T> T usage(CommandSpec spec, Supplier<T> supplier) {
        try {
            return supplier.get();
        } catch (IllegalArgumentException e) {
            throw new ParameterException(spec.commandLine(), e.getMessage(), e);
        }
    }
}
