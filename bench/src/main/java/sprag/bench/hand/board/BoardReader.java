package sprag.bench.hand.board;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import sprag.bench.bus.BusReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.BoardReference;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;
import sprag.hal.board.BoardDriver;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.InputPin;
import sprag.hal.board.MapCheck;
import sprag.hal.board.MapFault;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.PortChoice;
import sprag.supervisor.vocabulary.Row;

/** Reads {@code board.toml}. Either the whole file is good and becomes a board, or nothing does. */
public final class BoardReader {
    private static final String HEX_ID = "[0-9a-fA-F]{4}";

    private final Problems problems = new Problems();
    private final Section root;
    private final List<Section> inputPlaces = new ArrayList<>();
    private final List<Section> outputPlaces = new ArrayList<>();
    private BoardReference reference;

    private BoardReader(Path file) throws BadInput {
        root = TomlFile.read(file, problems);
    }

    /**
     * Reads a board.
     *
     * @return all about it, with a map that its driver has found good
     * @throws BadInput with every problem of the file
     */
    public static BoardSpec read(Path file) throws BadInput {
        BoardReader reader = new BoardReader(file);
        return reader.isBus() ? BusReader.read(file).spec() : reader.board(file);
    }

    /** A data bus is used like a board; its file says [bus] where a board's says [board]. */
    private boolean isBus() {
        return root.has("bus");
    }

    /**
     * Reads what a board's file says about the voltage that it measures against.
     *
     * @return empty when nothing that it measures depends on such a voltage
     * @throws BadInput with every problem of the file
     */
    public static Optional<BoardReference> reference(Path file) throws BadInput {
        BoardReader reader = new BoardReader(file);
        if (reader.isBus()) {
            return Optional.empty();
        }
        BoardSpec board = reader.board(file);
        boolean depends = board.driver().measuresAgainstSupply()
                && board.map().inputs().stream().anyMatch(pin -> pin.kind() == PinKind.ANALOGUE);
        return depends ? Optional.of(reader.reference) : Optional.empty();
    }

    private BoardSpec board(Path file) throws BadInput {
        String name = root.text("board.name", nameOf(file));
        BoardDriver driver = driver();
        PortChoice port = port();
        Map<Row, Double> values = new HashMap<>();
        takeRows(Arrays.asList(BoardSetting.values()), values);
        if (driver == null) {
            // Without the protocol nothing can be said about its section and its pins.
            problems.throwIfAny();
        }
        takeRows(driver.settings(), values);
        reference = BoardReference.read(root, driver.measuresAgainstSupply());
        BoardMap map = map(driver);
        root.end();
        for (MapFault fault : MapCheck.faults(map, driver)) {
            note(fault);
        }
        problems.throwIfAny();
        return new BoardSpec(name, driver, port, new BoardSettings(values), map);
    }

    private BoardDriver driver() {
        List<BoardDriver> drivers = new ArrayList<>(BoardDriver.all());
        drivers.sort(Comparator.comparing(BoardDriver::protocol));
        int index = root.choice(
                "board.protocol",
                -1,
                drivers.stream().map(BoardDriver::protocol).toList());
        return index < 0 ? null : drivers.get(index);
    }

    private PortChoice port() {
        String path = root.text("board.port", "");
        String vendor = hexId("board.usb_vendor");
        String product = hexId("board.usb_product");
        String serial = root.text("board.usb_serial", "");
        boolean byUsb = !(vendor + product + serial).isEmpty();
        if (path.isEmpty() == !byUsb) {
            String found = byUsb ? "is given beside a USB identity" : "is missing, and no USB identity is given";
            root.note(
                    "board.port",
                    found,
                    "port, or usb_vendor, usb_product, usb_serial",
                    "",
                    "Give one of the two; \"sprag ports\"" + " lists what is attached.");
        }
        return new PortChoice(path, vendor, product, serial);
    }

    private String hexId(String key) {
        String text = root.text(key, "");
        if (!text.isEmpty() && !text.matches(HEX_ID)) {
            root.problem(
                    key, "four hex digits in quotes, such as \"2a03\"", "", "Write it as \"sprag ports\" shows it.");
        }
        return text;
    }

    private void takeRows(List<? extends Row> rows, Map<Row, Double> values) {
        for (Row row : rows) {
            double value = root.value(row);
            if (!Double.isNaN(value)) {
                values.put(row, value);
            }
        }
    }

    private BoardMap map(BoardDriver driver) {
        PinReader reader = new PinReader(driver, reference.factor(), problems);
        List<InputPin> inputs = new ArrayList<>();
        List<OutputPin> outputs = new ArrayList<>();
        List<Section> inputEntries = root.list("input");
        List<Section> outputEntries = root.list("output");
        for (Section entry : inputEntries) {
            reader.input(entry).ifPresent(pin -> {
                inputs.add(pin);
                inputPlaces.add(entry);
            });
        }
        for (Section entry : outputEntries) {
            reader.output(entry).ifPresent(pin -> {
                outputs.add(pin);
                outputPlaces.add(entry);
            });
        }
        if (inputEntries.isEmpty() && outputEntries.isEmpty()) {
            root.note(
                    "input",
                    "is missing, and output too",
                    "at least one [[input]] or [[output]]",
                    "",
                    "Add what is wired.");
        }
        return new BoardMap(inputs, outputs);
    }

    private void note(MapFault fault) {
        boolean input = fault.list() == MapFault.Where.INPUT;
        Section place = (input ? inputPlaces : outputPlaces).get(fault.index());
        place.note(fault.key(), "is wrong: " + fault.words(), "", "", "Correct it, or take the entry out.");
    }

    /** A board file is named after the board, or lies in the folder of its vehicle. */
    private static String nameOf(Path file) {
        Path whole = file.toAbsolutePath().normalize();
        String name = String.valueOf(whole.getFileName()).replaceFirst("\\.toml$", "");
        return BoardFiles.FILE.equals(name + ".toml") && whole.getParent() != null
                ? String.valueOf(whole.getParent().getFileName())
                : name;
    }
}
