package sprag.bench.panel.web;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import sprag.bench.bus.BusFile;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.panel.bench.Order;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Signal;

/** Reads what a page says. Strict: an unknown word, an unknown field or a value out of range is refused, never mended. */
final class MessageReader {
    /** The slowest that time may pass. */
    static final double SLOWEST = 0.1;
    /** The fastest that time may pass. */
    static final double FASTEST = 20;

    private static final double MOST_PAGE = 1e9;
    private static final Pattern NAME = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{M}\\p{N} .'-]{0,23}");
    private static final Set<Signal> LOOPS_OWN = Set.of(Signal.LOOP_OVERRUN, Signal.LINK_LOST);

    private final Vehicle vehicle;
    private final BusFile bus;
    private final List<String> scenarios;
    private final ObjectMapper json = JsonMapper.builder(JsonFactory.builder()
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(2)
                            .maxStringLength(200)
                            .maxNumberLength(40)
                            .build())
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .build())
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    /** Reads for one vehicle.
     *
     * @param vehicle whose faults and signals may be named
     * @param bus the simulated bus whose faults may be named, null for none
     * @param scenarios the names that may be played
     */
    MessageReader(Vehicle vehicle, BusFile bus, List<String> scenarios) {
        this.bus = bus;
        this.vehicle = vehicle;
        this.scenarios = List.copyOf(scenarios);
    }

    /** Reads one message.
     *
     * @throws Refused when it is none
     */
    Message read(String text) throws Refused {
        JsonNode node;
        try {
            node = json.readTree(text);
        } catch (JsonProcessingException e) {
            throw new Refused("not JSON: " + e.getOriginalMessage());
        }
        if (!(node instanceof ObjectNode object)) {
            throw new Refused("not a JSON object");
        }
        return message(new Fields(object));
    }

    private Message message(Fields f) throws Refused {
        String verb = f.text("do");
        Order order = null;
        switch (verb) {
            case "alive", "ask", "take", "yield", "keep" -> {
                f.end();
                return Message.Word.valueOf(verb.toUpperCase(java.util.Locale.ROOT));
            }
            case "hand" -> {
                return handed(f);
            }
            case "name" -> {
                return named(f);
            }
            case "lever" -> order = move(f);
            case "fault" -> order = fault(f);
            case "mend" -> order = new Order.Mend(f.text("name"));
            case "mend-all" -> order = new Order.MendAll();
            case "force" -> order = force(f);
            case "unforce" -> order = new Order.Unforce(signal(f.text("signal")));
            case "speed" -> order = new Order.Speed(f.number("factor", SLOWEST, FASTEST));
            case "pause" -> order = new Order.Pause(f.flag("on"));
            case "tick" -> order = new Order.SingleTick();
            case "afresh" -> order = new Order.Afresh();
            case "play" -> order = play(f.text("scenario"));
            case "stop" -> order = new Order.StopPlaying();
            case "arm" -> order = new Order.Arm(f.flag("pack_absent"), f.flag("cautions_taken"));
            case "disarm" -> order = new Order.Disarm();
            default -> throw new Refused("do = \"" + verb + "\" is not known");
        }
        f.end();
        return new Message.Ordered(order);
    }

    private static Message handed(Fields f) throws Refused {
        double page = f.number("page", 1, MOST_PAGE);
        f.end();
        if (page != Math.rint(page)) {
            throw new Refused("page = " + page + " is not a whole number");
        }
        return new Message.Handed((long) page);
    }

    private static Message named(Fields f) throws Refused {
        String name = f.text("name").strip();
        f.end();
        if (!NAME.matcher(name).matches()) {
            throw new Refused("a name has 1 to 24 letters, digits, spaces, dots or hyphens");
        }
        return new Message.Named(name);
    }

    private static Order move(Fields f) throws Refused {
        String key = f.text("lever");
        Lever lever = Lever.of(key).orElseThrow(() -> new Refused("lever = \"" + key + "\" is not known"));
        return new Order.Move(lever, f.number("to", lever.min, lever.max));
    }

    private Order fault(Fields f) throws Refused {
        String name = f.text("name");
        if (BusFaults.isOne(name)) {
            String complaint = BusFaults.complaint(name, bus == null ? null : bus.map());
            if (!complaint.isEmpty()) {
                throw new Refused("\"" + name + "\" is no fault here. " + complaint);
            }
            return new Order.Break(name, BusFaults.meaning(name));
        }
        try {
            FaultSpec fault = FaultSpec.parse(name, vehicle);
            return new Order.Break(fault.toString(), fault.meaning());
        } catch (IllegalArgumentException e) {
            throw new Refused(e.getMessage());
        }
    }

    private Order force(Fields f) throws Refused {
        Signal signal = signal(f.text("signal"));
        if (f.isNull("to")) {
            return new Order.Force(signal, Double.NaN);
        }
        double to = f.number("to", signal.min, signal.max);
        if (signal.isSwitch() && to != 0 && to != 1) {
            throw new Refused(signal.key() + " = " + to + " is a switch: 0, 1 or null");
        }
        return new Order.Force(signal, to);
    }

    private Signal signal(String key) throws Refused {
        return Arrays.stream(Signal.values())
                .filter(s -> s.key().equals(key) && vehicle.settings().has(s) && !LOOPS_OWN.contains(s))
                .findFirst()
                .orElseThrow(() -> new Refused("signal = \"" + key + "\" is no signal that can be forced"));
    }

    private Order play(String name) throws Refused {
        if (!scenarios.contains(name)) {
            throw new Refused("scenario = \"" + name + "\" is not one that suits this vehicle");
        }
        return new Order.Play(name);
    }

    /** The fields of one message; what is not asked for is found at the end. */
    private static final class Fields {
        private final ObjectNode left;

        Fields(ObjectNode object) {
            left = object;
        }

        String text(String name) throws Refused {
            JsonNode node = left.remove(name);
            if (node == null || !node.isTextual()) {
                throw new Refused(name + " is not a text");
            }
            return node.textValue();
        }

        boolean isNull(String name) {
            boolean unknown = left.path(name).isNull();
            if (unknown) {
                left.remove(name);
            }
            return unknown;
        }

        double number(String name, double min, double max) throws Refused {
            JsonNode node = left.remove(name);
            double value = node != null && node.isNumber() ? node.doubleValue() : Double.NaN;
            if (!(value >= min && value <= max)) {
                throw new Refused(name + " = " + node + " is not a number within " + min + ".." + max);
            }
            return value;
        }

        boolean flag(String name) throws Refused {
            JsonNode node = left.remove(name);
            if (node == null || !node.isBoolean()) {
                throw new Refused(name + " = " + node + " is not true or false");
            }
            return node.booleanValue();
        }

        void end() throws Refused {
            Iterator<String> names = left.fieldNames();
            if (names.hasNext()) {
                throw new Refused("field \"" + names.next() + "\" is not known here");
            }
        }
    }
}
