package sprag.bench.bus;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import sprag.bench.vehicle.Section;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.hal.bus.BitField;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.CheckSum;

/** Reads the messages of a bus file one after the other; collects the inputs and outputs that their fields stand for. */
final class MessageReader {
    private static final double LONGEST_MS = 60_000;
    private static final double SHORTEST_MS = 1;
    private static final int BITS_OF_A_BYTE = 8;
    private static final int MOST_COUNTER_BITS = 16;
    private static final List<String> SUMS =
            Arrays.stream(CheckSum.values()).map(CheckSum::word).toList();

    final List<InputPin> inputs = new ArrayList<>();
    final List<OutputPin> outputs = new ArrayList<>();
    final List<Section> inputPlaces = new ArrayList<>();
    final List<Section> outputPlaces = new ArrayList<>();
    final List<Double> jitterMs = new ArrayList<>();

    private final double staleMs;

    MessageReader(double staleMs) {
        this.staleMs = staleMs;
    }

    BusMessage message(Section entry) {
        String name = entry.text("name", null);
        String sender = entry.text("sender", null);
        boolean extended = entry.flag("extended", false);
        int id = id(entry, extended);
        int length = whole(entry, "length", 0, CanFrame.MOST_BYTES, "be no length of a frame");
        double periodMs = entry.number(
                "period_ms", Double.NaN, SHORTEST_MS, LONGEST_MS, "flood the bus, or leave its values unknown");
        double timeoutMs = entry.number(
                "timeout_ms", 3 * periodMs, SHORTEST_MS, LONGEST_MS, "lose it for one late frame, or trust old values");
        jitterMs.add(entry.number("jitter_ms", 0, 0, LONGEST_MS, "be no delay of a sender"));
        if (timeoutMs <= periodMs) {
            String found = "= " + timeoutMs + " is not longer than period_ms = " + periodMs;
            entry.note(
                    "timeout_ms",
                    found,
                    "more than the period",
                    "make every frame late",
                    "Allow two or three periods.");
        }
        BitField counter = counter(entry, length);
        CheckSum sum = CheckSum.values()[Math.max(0, entry.choice("sum", 0, SUMS))];
        int sumByte = sum == CheckSum.NONE
                ? 0
                : whole(entry, "sum_byte", 0, Math.max(0, length - 1), "lie outside the frame");
        List<Section> places = entry.list("field");
        FieldReader reader = new FieldReader(this, name, BusMessage.SUPERVISOR.equals(sender), length);
        List<BusField> fields = places.stream().map(reader::field).toList();
        BusMessage message =
                new BusMessage(name, id, extended, sender, length, periodMs, timeoutMs, counter, sum, sumByte, fields);
        checkOverlaps(entry, places, message);
        checkStale(entry, message);
        return message;
    }

    private static int id(Section entry, boolean extended) {
        int greatest = extended ? CanFrame.GREATEST_LONG_ID : CanFrame.GREATEST_SHORT_ID;
        Object written = entry.plainValue("id");
        if (written instanceof Long id && id >= 0 && id <= greatest) {
            return id.intValue();
        }
        String allowed = "0.." + String.format(java.util.Locale.ROOT, "0x%X", greatest)
                + (extended ? " (29 bits)" : " (11 bits)");
        String remedy = "Write it as in 0x120; an identifier of 29 bits needs extended = true.";
        if (written == null) {
            entry.note("id", "is missing", allowed, "", remedy);
        } else {
            entry.problem("id", allowed, "", remedy);
        }
        return 0;
    }

    private static BitField counter(Section entry, int length) {
        if (!entry.has("counter_bits") && !entry.has("counter_start")) {
            return null;
        }
        int bits = whole(entry, "counter_bits", 2, MOST_COUNTER_BITS, "count too few or too many");
        BitField place =
                new BitField(whole(entry, "counter_start", 0, 63, "lie outside the frame"), bits, false, false);
        if (bits > 0 && !place.fits(length)) {
            String found = "= " + place.start() + " with " + bits + " bits does not fit into " + length + " bytes";
            entry.note("counter_start", found, "a place in the frame", "", "Correct the place or the length.");
        }
        return place;
    }

    /** No bit belongs to two. */
    private static void checkOverlaps(Section entry, List<Section> places, BusMessage message) {
        BitField counter = message.counter();
        long counted = counter != null && counter.fits(message.length()) ? counter.positions() : 0;
        long summed = message.sum() == CheckSum.NONE ? 0 : 0xFFL << BITS_OF_A_BYTE * message.sumByte();
        if ((counted & summed) != 0) {
            overlap(entry, "sum_byte", "the counter");
        }
        for (int i = 0; i < message.fields().size(); i++) {
            BusField field = message.fields().get(i);
            long own = field.place().fits(message.length()) ? field.place().positions() : 0;
            if ((own & counted) != 0) {
                overlap(places.get(i), "start", "the counter");
            }
            if ((own & summed) != 0) {
                overlap(places.get(i), "start", "the check sum");
            }
            for (BusField other : message.fields().subList(0, i)) {
                if (other.place().fits(message.length()) && (own & other.place().positions()) != 0) {
                    overlap(places.get(i), "start", "field " + other.name());
                }
            }
        }
    }

    private static void overlap(Section place, String key, String other) {
        place.note(
                key, "takes bits of " + other, "bits of its own", "mix two numbers", "Correct the start or the bits.");
    }

    private void checkStale(Section entry, BusMessage message) {
        boolean carries = message.fields().stream().anyMatch(field -> field.pin() != BusField.NO_PIN);
        if (!message.isSent() && carries && message.periodMs() >= staleMs) {
            entry.note(
                    "period_ms",
                    "= " + message.periodMs() + " is not shorter than loop.stale_ms = " + staleMs + " of the vehicle",
                    "less than " + staleMs,
                    "make its signals unknown between two frames",
                    "Let the sender send more often, or raise loop.stale_ms and look at the budgets again.");
        }
    }

    /** A whole number that must be given; 0 when it is wrong. */
    static int whole(Section entry, String key, int least, int greatest, String risk) {
        double value = entry.number(key, Double.NaN, least, greatest, risk);
        if (value != Math.rint(value)) {
            entry.problem(key, "a whole number", "", "Correct it.");
        }
        return (int) value;
    }
}
