package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.pins.PinBudget;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.board.BoardDriver;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.PinKind;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** What the page about boards says of settings, kinds and outputs is what the code says. */
class BoardDocsTest {
    private static final Path PAGE = Catalogue.installed().home().resolve("docs/boards.md");

    @Test
    void settingsInThePage_areThoseInTheCode() throws Exception {
        List<Row> rows = new ArrayList<>(List.of(BoardSetting.values()));
        BoardDriver.all().stream()
                .filter(d -> !"wire".equals(d.protocol()))
                .sorted(Comparator.comparing(BoardDriver::protocol))
                .forEach(d -> rows.addAll(d.settings()));
        StringBuilder table =
                new StringBuilder("| key | default | allowed | a value outside would |\n|---|---|---|---|\n");
        for (Row row : rows) {
            table.append(String.format(
                    Locale.ROOT, "| `%s` | %s | %s | %s |%n", row.key(), byDefault(row), allowed(row), row.risk()));
        }
        assertHolds(table.toString());
    }

    @Test
    void kindsInThePage_areThoseInTheCode() throws Exception {
        StringBuilder table = new StringBuilder("| kind | in | out | what it is |\n|---|---|---|---|\n");
        for (PinKind kind : PinKind.values()) {
            table.append(String.format(
                    "| `%s` | %s | %s | %s |%n",
                    kind.word(), kind.input ? "yes" : "", kind.output ? "yes" : "", kind.meaning));
        }
        assertHolds(table.toString());
    }

    @Test
    void outputsThatMayStayOn_areThoseInTheCode() throws Exception {
        assertHolds(BoardMap.MAY_STAY_ON.stream()
                .sorted()
                .map(Output::key)
                .map(k -> "`" + k + "`")
                .collect(Collectors.joining(", ")));
    }

    @Test
    void namesInThePage_areThoseInTheCode() throws Exception {
        StringBuilder signals = new StringBuilder("| signal | what it is |\n|---|---|\n");
        for (Signal signal : Signal.values()) {
            if (signal != Signal.LOOP_OVERRUN && signal != Signal.LINK_LOST) {
                signals.append(String.format("| `%s` | %s |%n", signal.key(), signal.meaning));
            }
        }
        assertHolds(signals.toString());
        StringBuilder outputs = new StringBuilder("| output | what it drives |\n|---|---|\n");
        for (Output output : Output.values()) {
            outputs.append(String.format("| `%s` | %s |%n", output.key(), output.meaning));
        }
        assertHolds(outputs.toString());
    }

    @Test
    void pinsInThePage_areThoseOfTheSchedules() throws Exception {
        StringBuilder table =
                new StringBuilder("| vehicle | switches | measured | outputs | in all |\n|---|---|---|---|---|\n");
        for (String name : List.of("parcel-van", "coupe", "yard-cart")) {
            Path home = Catalogue.installed().vehicle(name);
            PinBudget budget = PinBudget.of(VehicleReader.read(home), Drawing.read(home));
            table.append(String.format(
                    "| %s | %d | %d | %d | %d |%n",
                    name,
                    budget.switches(),
                    budget.quantities(),
                    budget.outputs(),
                    budget.switches() + budget.quantities() + budget.outputs()));
        }
        assertHolds(table.toString());
    }

    private static String byDefault(Row row) {
        if (row.required()) {
            return "must be given";
        }
        return row.unit() == Unit.CHOICE ? row.choices().get((int) row.byDefault()) : plain(row.byDefault());
    }

    private static String allowed(Row row) {
        return row.unit() == Unit.CHOICE
                ? String.join(", ", row.choices())
                : plain(row.min()) + " to " + plain(row.max());
    }

    private static String plain(double value) {
        return Long.toString(Math.round(value));
    }

    private static void assertHolds(String text) throws Exception {
        String page = Files.readString(PAGE);
        assertTrue(page.contains(text), () -> PAGE + " is out of date. It must hold:\n" + text);
    }
}
