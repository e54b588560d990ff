package sprag.bench.bus;

import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import sprag.bench.vehicle.Section;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Scale;
import sprag.hal.bus.BitField;
import sprag.hal.bus.BusField;
import sprag.hal.bus.Codes;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** Reads the fields of one message. */
final class FieldReader {
    private static final double ANY = 1e9;
    private static final int MOST_BITS = 64;
    /** A signal or an output has at most as many bits as a pin of a board. */
    private static final int MOST_PIN_BITS = 32;

    private static final List<String> SIGNALS =
            Arrays.stream(Signal.values()).map(Signal::key).toList();
    private static final List<String> OUTPUTS =
            Arrays.stream(Output.values()).map(Output::key).toList();
    private static final List<String> ORDERS = List.of("little", "big");

    private final MessageReader all;
    private final String message;
    private final boolean sent;
    private final int length;

    FieldReader(MessageReader all, String message, boolean sent, int length) {
        this.all = all;
        this.message = message;
        this.sent = sent;
        this.length = length;
    }

    BusField field(Section entry) {
        String name = entry.text("name", null);
        BitField place = place(entry);
        double factor = entry.number("factor", 1, -ANY, ANY, "be no value of one count");
        double offset = entry.number("offset", 0, -ANY, ANY, "be no value at zero counts");
        Codes codes = codes(entry, place);
        int signal = entry.has("signal") ? entry.choice("signal", -1, SIGNALS) : -1;
        int output = entry.has("output") ? entry.choice("output", -1, OUTPUTS) : -1;
        long fixed = raw(entry, "value", 0, place);
        Scale scale = new Scale(factor, offset, Math.min(place.length(), MOST_PIN_BITS), place.signed());
        String pin = message + "." + name;
        int index = BusField.NO_PIN;
        if (signal >= 0 && isAllowed(entry, "signal", !sent, place)) {
            Signal known = Signal.values()[signal];
            checkUnit(entry, known.key(), known.unit);
            all.inputs.add(new InputPin(known, pin, kind(known.unit), false, scaleOf(known.unit, scale), 0));
            all.inputPlaces.add(entry);
            index = all.inputs.size() - 1;
        } else if (output >= 0 && isAllowed(entry, "output", sent, place)) {
            Output known = Output.values()[output];
            checkUnit(entry, known.key(), known.unit);
            index = outputPin(entry, new OutputPin(known, pin, kind(known.unit), false, scaleOf(known.unit, scale), 0));
        } else if (!entry.has("unit") && codes.texts().isEmpty() && !entry.has("value")) {
            entry.note(
                    "unit", "is missing", "its symbol, or \"\" for none", "", "Write the unit, such as unit = \"a\".");
        }
        return new BusField(name, place, factor, offset, entry.text("unit", ""), codes, index, fixed);
    }

    /** One output may stand in several messages, as the enable of several chargers does, if it is counted alike. */
    private int outputPin(Section entry, OutputPin pin) {
        for (int i = 0; i < all.outputs.size(); i++) {
            OutputPin other = all.outputs.get(i);
            if (other.output() == pin.output() && other.scale().equals(pin.scale())) {
                return i;
            }
        }
        all.outputs.add(pin);
        all.outputPlaces.add(entry);
        return all.outputs.size() - 1;
    }

    private BitField place(Section entry) {
        int start = MessageReader.whole(entry, "start", 0, MOST_BITS - 1, "lie outside the frame");
        int bits = MessageReader.whole(entry, "bits", 1, MOST_BITS, "be no number of bits");
        boolean big = entry.choice("order", 0, ORDERS) == 1;
        BitField place = new BitField(start, Math.max(1, bits), big, entry.flag("signed", false));
        if (!place.fits(length)) {
            entry.note(
                    "start",
                    "= " + start + " with " + bits + " bits, " + (big ? "big" : "little")
                            + " end first, does not fit into " + length + " bytes",
                    "a place in the frame",
                    "",
                    "Big: start is the most significant bit; little: the least significant.");
            return new BitField(0, 1, false, false);
        }
        return place;
    }

    private static Codes codes(Section entry, BitField place) {
        Map<Long, String> texts = new HashMap<>();
        if (entry.has("texts")) {
            Section words = entry.section("texts");
            for (String key : words.keys()) {
                String word = words.text(key, null);
                if (!key.matches("\\d{1,9}") || !fits(Long.parseLong(key), place)) {
                    words.note(
                            key, "is no raw value of this field", range(place), "", "Write texts = { 0 = \"off\" }.");
                } else {
                    texts.put(Long.parseLong(key), word);
                }
            }
        }
        List<Long> on = raws(entry, "on", place, 1);
        List<Long> off = raws(entry, "off", place, 0);
        if (on.stream().anyMatch(off::contains)) {
            entry.note("on", "and off have a value in common", "values of their own", "", "Take it out of one.");
        }
        if (place.signed() && entry.has("unknown_from")) {
            entry.note(
                    "unknown_from",
                    "stands in a field with a sign, where the greatest counts are negative numbers",
                    "a field without sign",
                    "make negative numbers unknown",
                    "List the counts instead, such as unknown = [0x8000].");
        }
        return new Codes(
                texts,
                on,
                off,
                new HashSet<>(raws(entry, "unknown", place, -1)),
                raw(entry, "unknown_from", -1, place));
    }

    private static List<Long> raws(Section entry, String key, BitField place, long byDefault) {
        List<Long> found = entry.wholeNumbers(key);
        for (long raw : found) {
            if (!fits(raw, place)) {
                entry.note(key, "holds " + raw + ", which is outside " + range(place), range(place), "", "Correct it.");
            }
        }
        return !found.isEmpty() ? found : byDefault < 0 ? List.of() : List.of(byDefault);
    }

    private static long raw(Section entry, String key, long byDefault, BitField place) {
        Object written = entry.plainValue(key);
        if (written == null) {
            return byDefault;
        }
        if (!(written instanceof Long raw) || !fits(raw, place)) {
            entry.problem(key, "a raw value, " + range(place), "not fit into the field", "Give counts, not the unit.");
            return byDefault;
        }
        return raw;
    }

    private static boolean fits(long raw, BitField place) {
        return raw >= 0 && (place.length() > 62 || raw <= place.allOnes());
    }

    private static String range(BitField place) {
        return "0.." + Long.toUnsignedString(place.allOnes());
    }

    private boolean isAllowed(Section entry, String key, boolean direction, BitField place) {
        if (!direction) {
            entry.note(
                    key,
                    "stands in a message " + (sent ? "of the supervisor" : "of another node"),
                    sent ? "output" : "signal",
                    "",
                    "A signal is received and an output is sent: correct the sender or the field.");
        }
        if (place.length() > MOST_PIN_BITS) {
            entry.note("bits", "= " + place.length() + " are too many", "at most " + MOST_PIN_BITS, "", "Take fewer.");
        }
        return direction && place.length() <= MOST_PIN_BITS;
    }

    /** The unit is written beside every factor, so that a wrong one is seen before it is driven. */
    private static void checkUnit(Section entry, String key, Unit unit) {
        String written = entry.text("unit", unit.symbol.isEmpty() ? "" : null);
        if (entry.has("unit") && !written.equals(unit.symbol)) {
            String allowed = unit.symbol.isEmpty() ? "nothing: " + key + " has no unit" : "\"" + unit.symbol + "\"";
            entry.problem("unit", allowed + ", the unit of " + key, "scale it wrong", "Scale it into this unit.");
        }
    }

    private static PinKind kind(Unit unit) {
        return unit == Unit.SWITCH ? PinKind.DIGITAL : PinKind.ANALOGUE;
    }

    private static Scale scaleOf(Unit unit, Scale scale) {
        return unit == Unit.SWITCH ? Scale.SWITCH : scale;
    }
}
