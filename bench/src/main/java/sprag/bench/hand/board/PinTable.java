package sprag.bench.hand.board;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Json;
import sprag.bench.cli.Wrap;
import sprag.hal.board.Board;
import sprag.hal.board.BoardState;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;

/** What the pins of a board show now, for people and for programs. */
record PinTable(Board board) {
    /** Lines of at most 80 columns. */
    List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add(board.name() + ": " + (board.health().isWell() ? board.identity() : "LOST"));
        if (!board.health().isWell()) {
            lines.addAll(Wrap.at(board.health().reason(), 78, "  "));
        }
        lines.add(String.format("%-14s %-22s %7s  %-16s %9s", "pin", "signal", "counts", "value", "age"));
        for (int i = 0; i < board.spec().map().inputs().size(); i++) {
            lines.add(inputLine(i));
        }
        if (!board.spec().map().outputs().isEmpty()) {
            String state = board.state() == BoardState.ARMED ? "armed" : "released, not armed";
            lines.add(String.format("%-14s %-22s %s", "pin", "output (" + state + ")", "falls back to"));
        }
        for (OutputPin pin : board.spec().map().outputs()) {
            lines.add(String.format("%-14s %-22s %s", pin.pin(), pin.output().key(), safe(pin)));
        }
        return lines;
    }

    private String inputLine(int i) {
        InputPin pin = board.spec().map().inputs().get(i);
        double value = board.value(i);
        boolean odd = !(value >= pin.signal().min && value <= pin.signal().max);
        String age = Double.isNaN(value) ? "never" : board.ageNs(i) / 1_000_000 + " ms";
        return String.format(
                        "%-14s %-22s %7s  %-16s %9s%s",
                        pin.pin(),
                        pin.signal().key(),
                        Double.isNaN(value) ? "" : board.raw(i),
                        shown(pin, value),
                        age,
                        odd && !Double.isNaN(value) ? " !" : "")
                .stripTrailing();
    }

    private static String shown(InputPin pin, double value) {
        if (Double.isNaN(value)) {
            return "unknown";
        }
        if (pin.kind().twoState) {
            return value == 0 ? "off" : "on";
        }
        return String.format(Locale.ROOT, "%.3f %s", value, pin.signal().unit.symbol)
                .trim();
    }

    private static String safe(OutputPin pin) {
        if (pin.kind().twoState) {
            return (pin.safe() == 0 ? "off" : "on") + (pin.safeRaw() == 0 ? "" : " (high level)");
        }
        return String.format(Locale.ROOT, "%.3f %s", pin.safe(), pin.output().unit.symbol)
                .trim();
    }

    ObjectNode json() {
        ObjectNode all = Json.object();
        all.put("board", board.name());
        all.put("well", board.health().isWell());
        all.put("health", board.health().toString());
        all.put("identity", board.identity());
        all.put("state", board.state().name().toLowerCase(Locale.ROOT));
        ArrayNode inputs = all.putArray("inputs");
        for (int i = 0; i < board.spec().map().inputs().size(); i++) {
            InputPin pin = board.spec().map().inputs().get(i);
            ObjectNode node = inputs.addObject();
            node.put("signal", pin.signal().key());
            node.put("pin", pin.pin());
            node.put("kind", pin.kind().word());
            node.put("unit", pin.signal().unit.symbol);
            if (Double.isNaN(board.value(i))) {
                node.putNull("counts").putNull("value").putNull("age_ms");
            } else {
                node.put("counts", board.raw(i)).put("value", board.value(i)).put("age_ms", board.ageNs(i) / 1e6);
            }
        }
        ArrayNode outputs = all.putArray("outputs");
        for (OutputPin pin : board.spec().map().outputs()) {
            outputs.addObject()
                    .put("output", pin.output().key())
                    .put("pin", pin.pin())
                    .put("kind", pin.kind().word())
                    .put("safe", pin.safe());
        }
        return all;
    }
}
