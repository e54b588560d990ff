package sprag.bench.loop;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.LowPack;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Why nothing is charged at a voltage far below the least of pack or cell, or at none. */
public final class DeadVoltage {
    private DeadVoltage() {}

    /** One sentence or two for each of them that forbids a charge; empty when none does.
     *
     * @param packV the pack's voltage as it is read, NaN when unknown
     * @param cellMinV that of the lowest cell
     */
    public static List<String> reasons(Settings settings, double packV, double cellMinV) {
        List<String> reasons = new ArrayList<>();
        add(reasons, "pack", packV, Parameter.PACK_MIN_V, settings);
        if (settings.has(Signal.CELL_MIN_V)) {
            add(reasons, "lowest cell", cellMinV, Parameter.CELL_MIN_V, settings);
        }
        return reasons;
    }

    private static void add(List<String> to, String what, double volts, Parameter least, Settings settings) {
        double leastV = settings.get(least);
        if (volts >= LowPack.DEAD_SHARE * leastV) {
            return;
        }
        String shown = Double.isNaN(volts) ? "no voltage" : String.format(Locale.ROOT, "%.2f V", volts);
        to.add("No charge current is asked for: the " + what + " shows " + shown + ", less than half of "
                + Numbers.text(leastV) + " V (" + least.key() + "). "
                + (Math.abs(volts) < 1 ? "0 V is what an open wire shows; it does not mean that nothing is live. " : "")
                + "A wire or fuse is open, or cells are dead; charging dead cells can start a fire. Unplug, and let"
                + " licensed hands measure.");
    }
}
