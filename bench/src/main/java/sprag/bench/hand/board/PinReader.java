package sprag.bench.hand.board;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import sprag.bench.cli.Numbers;
import sprag.bench.review.pins.InputCircuit;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.hal.board.BoardDriver;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** Reads one entry of a board's map. An entry with a mistake becomes no pin; its mistakes go to the problems. */
final class PinReader {
    private static final double ANY = 1e9;
    private static final int MAX_BITS = 32;
    private static final double MAX_FILTER_MS = 1000;
    private static final List<String> SIGNALS =
            Arrays.stream(Signal.values()).map(Signal::key).toList();
    private static final List<String> OUTPUTS =
            Arrays.stream(Output.values()).map(Output::key).toList();
    private static final List<PinKind> INPUT_KINDS =
            Arrays.stream(PinKind.values()).filter(k -> k.input).toList();
    private static final List<PinKind> OUTPUT_KINDS =
            Arrays.stream(PinKind.values()).filter(k -> k.output).toList();

    private static final double MOST_OHM = 1e6;

    private final BoardDriver driver;
    private final double referenceFactor;
    private final Problems problems;

    /** A reader for a board.
     *
     * @param referenceFactor the board's measured reference voltage over its nominal one
     */
    PinReader(BoardDriver driver, double referenceFactor, Problems problems) {
        this.driver = driver;
        this.referenceFactor = referenceFactor;
        this.problems = problems;
    }

    Optional<InputPin> input(Section entry) {
        int before = problems.count();
        int signal = entry.choice("signal", -1, SIGNALS);
        int kind = entry.choice("kind", -1, words(INPUT_KINDS));
        String pin = pin(entry);
        PinKind pinKind = kind < 0 ? null : INPUT_KINDS.get(kind);
        boolean inverted = inverted(entry, pinKind);
        double filterMs = entry.number("filter_ms", 0, 0, MAX_FILTER_MS, "hide a fault from the supervisor");
        Scale scale = scale(entry, pinKind);
        checkCircuit(entry, pinKind);
        if (signal < 0 || pinKind == null) {
            return Optional.empty();
        }
        Signal known = Signal.values()[signal];
        checkUnit(entry, known.key(), known.unit);
        return problems.count() > before
                ? Optional.empty()
                : Optional.of(new InputPin(known, pin, pinKind, inverted, scale, filterMs));
    }

    Optional<OutputPin> output(Section entry) {
        int before = problems.count();
        int output = entry.choice("output", -1, OUTPUTS);
        int kind = entry.choice("kind", -1, words(OUTPUT_KINDS));
        String pin = pin(entry);
        PinKind pinKind = kind < 0 ? null : OUTPUT_KINDS.get(kind);
        boolean inverted = entry.flag("invert", false);
        Scale scale = scale(entry, pinKind);
        double safe = safe(entry, pinKind);
        if (output < 0 || pinKind == null) {
            return Optional.empty();
        }
        Output known = Output.values()[output];
        checkUnit(entry, known.key(), known.unit);
        return problems.count() > before
                ? Optional.empty()
                : Optional.of(new OutputPin(known, pin, pinKind, inverted, scale, safe));
    }

    /** The circuit before the pin, where the file says one. */
    private static void checkCircuit(Section entry, PinKind kind) {
        double upperOhm = entry.number("upper_ohm", 0, 0, MOST_OHM, "not be a resistor of a divider");
        double lowerOhm = entry.number("lower_ohm", 0, 0, MOST_OHM, "not be a resistor of a divider");
        double seriesOhm = entry.number("series_ohm", 0, 0, MOST_OHM, "not be a resistor before an optocoupler");
        if (!entry.has("circuit")) {
            return;
        }
        int index = entry.choice("circuit", -1, InputCircuit.WORDS);
        if (index < 0 || kind == null) {
            return;
        }
        InputCircuit circuit = InputCircuit.values()[index];
        if (kind != circuit.kind) {
            String found = "= " + circuit.word() + " needs kind = \"" + circuit.kind.word() + "\"";
            entry.note("circuit", found, circuit.kind.word(), "", "Correct the kind or the circuit.");
        }
        if (circuit == InputCircuit.DIVIDER) {
            checkDivider(entry, upperOhm, lowerOhm);
        } else if (circuit == InputCircuit.OPTOCOUPLER) {
            checkOptocoupler(entry, seriesOhm);
        }
    }

    private static void checkDivider(Section entry, double upperOhm, double lowerOhm) {
        double share = lowerOhm / (upperOhm + lowerOhm);
        double highestV = InputCircuit.HIGHEST_V * share;
        double lowestV = InputCircuit.LOWEST_V * share;
        if (!(highestV <= InputCircuit.PIN_MAX_V) || !(lowestV >= InputCircuit.PIN_HIGH_V)) {
            String found =
                    "and lower_ohm give " + Numbers.text(lowestV) + ".." + Numbers.text(highestV) + " V at the pin";
            String allowed = InputCircuit.PIN_HIGH_V + ".." + InputCircuit.PIN_MAX_V + " V for " + InputCircuit.LOWEST_V
                    + ".." + InputCircuit.HIGHEST_V + " V";
            entry.note(
                    "upper_ohm",
                    found,
                    allowed,
                    "",
                    "Take for example 22000 over 11000 ohm (" + allowed + " is needed).");
        }
    }

    private static void checkOptocoupler(Section entry, double seriesOhm) {
        double leastA = (InputCircuit.LOWEST_V - InputCircuit.DIODE_V) / seriesOhm;
        double mostA = (InputCircuit.HIGHEST_V - InputCircuit.DIODE_V) / seriesOhm;
        if (!(leastA >= InputCircuit.LEAST_A) || !(mostA <= InputCircuit.MOST_A)) {
            String found = "gives " + Numbers.text(leastA, "A") + " to " + Numbers.text(mostA, "A");
            String allowed = InputCircuit.LEAST_A + " A to " + InputCircuit.MOST_A + " A";
            entry.note("series_ohm", found, allowed, "", "Take for example 2200 ohm (" + allowed + " is needed).");
        }
    }

    /** A pin is a text, or a whole number where the board counts its pins. */
    private static String pin(Section entry) {
        Object found = entry.plainValue("pin");
        if (found instanceof Long) {
            return found.toString();
        }
        return entry.text("pin", null);
    }

    /** A switch to ground is low when it is closed; which of the two counts as on must be said, not guessed. */
    private static boolean inverted(Section entry, PinKind kind) {
        if (kind == PinKind.PULL_UP && !entry.has("invert")) {
            entry.note(
                    "invert",
                    "is missing",
                    "true or false",
                    "",
                    "A pull-up input is low when its switch closes: say invert = true when closed means on, else"
                            + " false.");
        }
        return entry.flag("invert", false);
    }

    private Scale scale(Section entry, PinKind kind) {
        if (kind == null || kind.twoState) {
            return Scale.SWITCH;
        }
        double perCount = entry.number("scale", Double.NaN, -ANY, ANY, "not be the value of one count");
        double offset = entry.number("offset", 0, -ANY, ANY, "not be the value at zero counts");
        double bits = entry.number("bits", driver.usualBits(kind), 1, MAX_BITS, "not be a number of bits");
        boolean signed = entry.flag("signed", false);
        double factor = kind == PinKind.ANALOGUE && kind.input ? referenceFactor : 1;
        return new Scale(perCount * factor, offset, Double.isNaN(bits) ? 1 : (int) bits, signed);
    }

    private static double safe(Section entry, PinKind kind) {
        if (kind != null && kind.twoState) {
            return entry.flag("safe", false) ? 1 : 0;
        }
        return entry.number("safe", 0, -ANY, ANY, "not be a value to fall back to");
    }

    /** The unit is written beside every scale, so that a wrong one is seen before it is driven. */
    private static void checkUnit(Section entry, String key, Unit unit) {
        if (unit.symbol.isEmpty()) {
            if (entry.has("unit")) {
                entry.note("unit", "is given, but " + key + " has no unit", "no unit", "", "Take it out.");
            }
            return;
        }
        String written = entry.text("unit", null);
        if (entry.has("unit") && !written.equals(unit.symbol)) {
            entry.problem(
                    "unit",
                    "\"" + unit.symbol + "\", the unit of " + key,
                    "scale it wrong",
                    "Scale it into " + unit.symbol + " and say so.");
        }
    }

    private static List<String> words(List<PinKind> kinds) {
        return kinds.stream().map(PinKind::word).toList();
    }
}
