package sprag.bench.port.chip;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Numbers;
import sprag.hal.TickListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Unit;

/**
 * How far a chip with single precision moves away from the Java that decides: the ticks in which it makes another decision, and
 * the greatest difference of each amount. It ends nothing: rounding may differ where a limit is near.
 */
public final class Drift implements TickListener {
    /** The last decimal that is printed. */
    private static final double LEAST_SHOWN = 1e-6;

    private final Chip chip;
    private final Supervisor java;
    private final double[] greatest = new double[Output.COUNT];
    private long ticks;
    private long otherwise;
    private long firstOtherwise;
    private String firstWhat = "";

    /** Looks at a chip beside a supervisor that gets the same readings. */
    public Drift(Chip chip, Supervisor java) {
        this.chip = chip;
        this.java = java;
    }

    @Override
    public void ticked(long tick, Readings in, Commands out) {
        chip.mustTick(tick, in);
        ticks++;
        String what = chip.packed() == java.state().pack() ? "" : "its state";
        for (Output output : Output.values()) {
            double by = Math.abs(chip.command(output) - out.get(output));
            if (output.unit != Unit.SWITCH) {
                greatest[output.ordinal()] = Math.max(greatest[output.ordinal()], by);
            } else if (by != 0) {
                what = what.isEmpty() ? output.key() : what;
            }
        }
        if (!what.isEmpty() && otherwise++ == 0) {
            firstOtherwise = tick;
            firstWhat = what;
        }
    }

    /** In how many ticks the chip made another decision. */
    long otherwise() {
        return otherwise;
    }

    /** The result, a line each. */
    public List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add(String.format(
                Locale.ROOT,
                "%,d ticks; in %,d of them the chip decides differently%s",
                ticks,
                otherwise,
                otherwise == 0
                        ? ""
                        : String.format(Locale.ROOT, ", first in tick %,d: %s", firstOtherwise, firstWhat)));
        for (Output output : Output.values()) {
            double by = greatest[output.ordinal()];
            if (by > 0) {
                String most =
                        by < LEAST_SHOWN ? "less than " + Numbers.text(LEAST_SHOWN) : Numbers.text(by) + " at the most";
                lines.add("  " + output.key() + " differs by " + most);
            }
        }
        return lines;
    }
}
