package sprag.bench.cli;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/**
 * Which share of long work this machine does.
 *
 * @param part which share, from 1
 * @param of how many shares there are
 */
public record Shard(int part, int of) {
    private static final Pattern FORM = Pattern.compile("(\\d{1,7})/(\\d{1,7})");

    /** Reads {@code --shard I/N}. Ends the command as wrong usage when the text is not that.
     *
     * @param spec the command
     * @param text what was given
     * @param most how many shares there can be
     * @param what names what is limited, in the plural
     */
    public static Shard of(CommandSpec spec, String text, int most, String what) {
        Matcher form = FORM.matcher(text);
        Shard shard = form.matches()
                ? new Shard(Integer.parseInt(form.group(1)), Integer.parseInt(form.group(2)))
                : new Shard(0, 0);
        if (shard.part < 1 || shard.part > shard.of || shard.of > most) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--shard " + text + " is not I/N with I from 1 to N and N up to " + most + " " + what
                            + ", e.g. 2/8");
        }
        return shard;
    }

    @Override
    public String toString() {
        return part + "/" + of;
    }
}
