package sprag.bench.vehicle;

import java.nio.file.Path;
import java.util.Optional;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Numbers;

/**
 * The voltage that a microcontroller board measures against, as its file says. Every analogue reading is in proportion to it.
 *
 * @param nominalV what the scales of the file are computed for
 * @param measuredV what was measured on this board; NaN when nobody has
 * @param line where the file says it, or where the section [board] begins
 */
public record BoardReference(double nominalV, double measuredV, int line) {
    /** The file of a vehicle's board, in its folder. */
    public static final String FILE = "board.toml";
    /** The key for what was measured. */
    public static final String KEY = "board.reference_v";

    private static final String NOMINAL_KEY = "board.reference_nominal_v";
    private static final double USUAL_V = 5;
    private static final double LEAST_V = 1;
    private static final double MOST_V = 5.5;
    /** A reference further from its nominal voltage belongs to another board, or was not measured. */
    private static final double WITHIN_SHARE = 0.15;
    /** What a USB port gives to a small board (USB 2.0, table 7-7; from memory). */
    private static final double USB_LEAST_V = 4.40;

    private static final double USB_MOST_V = 5.25;
    /** What a regulator of another voltage keeps to, and a simple meter; common practice. */
    private static final double REGULATOR_SHARE = 0.05;

    private static final double METER_SHARE = 0.01;

    /** Reads it from a board's file; what is wrong goes to the problems.
     *
     * @param root the file
     * @param measuresAgainstSupply whether boards of this protocol do; a module has a reference of its own
     */
    public static BoardReference read(Section root, boolean measuresAgainstSupply) {
        double nominalV = root.number(NOMINAL_KEY, USUAL_V, LEAST_V, MOST_V, "scale every analogue input wrongly");
        for (String key : new String[] {NOMINAL_KEY, KEY}) {
            if (!measuresAgainstSupply && root.has(key)) {
                root.note(
                        key,
                        "is for boards that measure against their supply",
                        "protocol = \"firmata\"",
                        "",
                        "Take it out: a module measures against a reference of its own.");
            }
        }
        int line = root.line(root.has(KEY) ? KEY : "board");
        if (!root.has(KEY)) {
            return new BoardReference(nominalV, Double.NaN, line);
        }
        double base = Double.isNaN(nominalV) ? USUAL_V : nominalV;
        double leastV = base * (1 - WITHIN_SHARE);
        double mostV = base * (1 + WITHIN_SHARE);
        double measuredV = root.number(KEY, USUAL_V, leastV, mostV, "scale every analogue input wrongly");
        return new BoardReference(base, measuredV, line);
    }

    /** That of the board file in a vehicle's folder; empty without such a file, or when nothing in it depends on a reference. */
    public static Optional<BoardReference> of(Path folder) throws BadInput {
        Path file = folder.resolve(FILE);
        if (!InputFile.isThere(file)) {
            return Optional.empty();
        }
        Problems problems = new Problems();
        Section root = TomlFile.read(file, problems);
        boolean depends = "firmata".equals(root.plainValue("board.protocol"))
                && root.list("input").stream().anyMatch(pin -> "analogue".equals(pin.plainValue("kind")));
        BoardReference found = depends ? read(root, true) : null;
        problems.throwIfAny();
        return Optional.ofNullable(found);
    }

    /** What the value of one count is multiplied by. */
    public double factor() {
        return Double.isNaN(measuredV) ? 1 : measuredV / nominalV;
    }

    /** Whether somebody has measured it. */
    public boolean isMeasured() {
        return !Double.isNaN(measuredV);
    }

    /** How much too high a reading may be (%). */
    public double highPercent() {
        double leastV = nominalV == USUAL_V ? USB_LEAST_V : nominalV * (1 - REGULATOR_SHARE);
        return 100 * (isMeasured() ? METER_SHARE : nominalV / leastV - 1);
    }

    /** How much too low a reading may be (%). */
    public double lowPercent() {
        double mostV = nominalV == USUAL_V ? USB_MOST_V : nominalV * (1 + REGULATOR_SHARE);
        return 100 * (isMeasured() ? METER_SHARE : 1 - nominalV / mostV);
    }

    /** For people, before anything is measured with the board. */
    public String text() {
        String error = "may be up to " + Numbers.text(highPercent(), "%") + " too high or "
                + Numbers.text(lowPercent(), "%") + " too low";
        return isMeasured()
                ? "The board measures against " + Numbers.text(measuredV, "V") + " (" + KEY + ", measured)."
                : "Nobody has measured the reference of this board (" + KEY + "). " + Numbers.text(nominalV, "V")
                        + " is taken, so its analogue readings " + error + ". docs/boards.md tells how to measure it.";
    }
}
