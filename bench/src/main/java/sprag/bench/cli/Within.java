package sprag.bench.cli;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/** Refuses a number on the command line that is outside its range. */
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
}
