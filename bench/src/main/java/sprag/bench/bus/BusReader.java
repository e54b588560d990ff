package sprag.bench.bus;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.bus.BusFile.Node;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.MapCheck;
import sprag.hal.board.MapFault;
import sprag.hal.board.PortChoice;
import sprag.hal.bus.BusDriver;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.SlcanLine;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;

/** Reads {@code bus.toml}. Either the whole file is good and becomes a bus, or nothing does. */
public final class BusReader {
    private static final double USUAL_BAUD = 115_200;
    private static final double LONGEST_M = 1000;
    private static final double MOST_OHM = 100_000;

    private final Problems problems = new Problems();
    private final Section root;
    private final double staleMs;

    private BusReader(Path file, double staleMs) throws BadInput {
        this.root = TomlFile.read(file, problems);
        this.staleMs = staleMs;
    }

    /**
     * Reads a bus for itself.
     *
     * @param file its file
     * @throws BadInput with every problem of the file
     */
    public static BusFile read(Path file) throws BadInput {
        return new BusReader(file, Double.POSITIVE_INFINITY).bus(file);
    }

    /**
     * Reads a bus for a vehicle: its messages must come before the vehicle counts their signals as unknown.
     *
     * @param file its file
     * @param vehicle whose signals it carries
     * @throws BadInput with every problem of the file
     */
    public static BusFile read(Path file, Vehicle vehicle) throws BadInput {
        return new BusReader(file, vehicle.get(Parameter.LOOP_STALE_MS)).bus(file);
    }

    private BusFile bus(Path file) throws BadInput {
        String name = root.text("bus.name", fileName(file));
        int bitRate = SlcanLine.SPEEDS_KBIT.get(Math.max(0, bitRate()));
        PortChoice port = port();
        BoardSettings settings = settings();
        boolean bench = root.flag("bus.bench", false);
        double trunkM = root.has("bus.trunk_m")
                ? root.number("bus.trunk_m", Double.NaN, 0.1, LONGEST_M, "be no length of a car's wires")
                : Double.NaN;
        List<Node> nodes = nodes();
        MessageReader reader = new MessageReader(staleMs);
        List<BusMessage> messages = new ArrayList<>();
        List<Section> entries = root.list("message");
        for (Section entry : entries) {
            messages.add(reader.message(entry));
        }
        if (entries.isEmpty()) {
            root.note("message", "is missing", "at least one [[message]]", "", "Add the messages of the bus.");
        }
        root.end();
        checkNames(entries, messages, nodes);
        BoardMap pins = new BoardMap(reader.inputs, reader.outputs);
        BusMap map = new BusMap(bitRate, messages, pins, bench);
        BusDriver driver = new BusDriver(map);
        if (problems.list().isEmpty()) {
            // One output may stand in several messages, counted in the way of each receiver.
            MapCheck.faults(pins, driver).stream()
                    .filter(fault ->
                            fault.list() == MapFault.Where.INPUT || !fault.key().equals("output"))
                    .forEach(fault -> note(fault, reader));
        }
        problems.throwIfAny();
        return new BusFile(
                file,
                new BoardSpec(name, driver, port, settings, pins),
                map,
                entries.stream().map(entry -> entry.line("name")).toList(),
                reader.jitterMs,
                nodes,
                trunkM);
    }

    private int bitRate() {
        Object written = root.plainValue("bus.bit_rate_kbit");
        int index = written instanceof Long rate ? SlcanLine.SPEEDS_KBIT.indexOf(rate.intValue()) : -1;
        if (index < 0) {
            root.problem(
                    "bus.bit_rate_kbit",
                    "one of " + SlcanLine.SPEEDS_KBIT + " kbit/s",
                    "",
                    "Give the speed that the parts on the bus are set to.");
        }
        return index;
    }

    private PortChoice port() {
        String path = root.text("bus.port", "");
        String vendor = root.text("bus.usb_vendor", "");
        String product = root.text("bus.usb_product", "");
        String serial = root.text("bus.usb_serial", "");
        boolean byUsb = !(vendor + product + serial).isEmpty();
        if (path.isEmpty() == !byUsb) {
            root.note(
                    "bus.port",
                    byUsb ? "is given beside a USB identity" : "is missing, and no USB identity is given",
                    "port, or usb_vendor, usb_product, usb_serial",
                    "",
                    "Give one of the two; \"sprag ports\" lists what is attached.");
        }
        return new PortChoice(path, vendor, product, serial);
    }

    private BoardSettings settings() {
        Map<Row, Double> values = new HashMap<>();
        take("bus.baud", BoardSetting.BAUD, USUAL_BAUD, values);
        take("bus.command_ms", BoardSetting.COMMAND_MS, BoardSetting.COMMAND_MS.byDefault(), values);
        take("bus.retry_ms", BoardSetting.RETRY_MS, BoardSetting.RETRY_MS.byDefault(), values);
        return new BoardSettings(values);
    }

    private void take(String key, Row row, double byDefault, Map<Row, Double> values) {
        double value = root.number(key, byDefault, row.min(), row.max(), row.risk());
        values.put(row, Double.isNaN(value) ? byDefault : value);
    }

    private List<Node> nodes() {
        List<Node> nodes = new ArrayList<>();
        for (Section entry : root.list("node")) {
            nodes.add(new Node(
                    entry.text("name", null),
                    entry.number("stub_m", 0, 0, LONGEST_M, "be no length of a branch"),
                    entry.number("terminator_ohm", 0, 0, MOST_OHM, "be no resistor across two wires"),
                    entry.line("name")));
        }
        return nodes;
    }

    /** Names and identifiers stand once, and who sends is one of the nodes. */
    private static void checkNames(List<Section> entries, List<BusMessage> messages, List<Node> nodes) {
        Map<String, Integer> names = new HashMap<>();
        Map<Long, String> ids = new HashMap<>();
        for (int i = 0; i < messages.size(); i++) {
            BusMessage message = messages.get(i);
            Section entry = entries.get(i);
            Integer first = names.putIfAbsent(message.name(), entry.line("name"));
            if (first != null) {
                entry.note(
                        "name", "= \"" + message.name() + "\" stands in line " + first + " too", "", "", "Rename one.");
            }
            String other = ids.putIfAbsent(message.key(), message.name() + " of " + message.sender());
            if (other != null) {
                entry.note(
                        "id",
                        "= 0x" + message.idText() + " is that of " + other + " too",
                        "an identifier of its own",
                        "let two nodes destroy each other's frames",
                        "Give each message an identifier of its own, from one sender.");
            }
            boolean known = nodes.isEmpty()
                    || nodes.stream().anyMatch(node -> node.name().equals(message.sender()));
            if (!known) {
                entry.problem("sender", "the name of a [[node]]", "", "Add the node, or correct the sender.");
            }
        }
    }

    private static void note(MapFault fault, MessageReader reader) {
        boolean input = fault.list() == MapFault.Where.INPUT;
        Section place = (input ? reader.inputPlaces : reader.outputPlaces).get(fault.index());
        String key = fault.key().equals("scale") ? "factor" : fault.key();
        place.note(key, "is wrong: " + fault.words(), "", "", "Correct it, or take the field out.");
    }

    private static String fileName(Path file) {
        return String.valueOf(file.getFileName()).replaceFirst("\\.toml$", "");
    }
}
