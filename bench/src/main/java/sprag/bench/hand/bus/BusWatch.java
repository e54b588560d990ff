package sprag.bench.hand.bus;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.cli.Numbers;
import sprag.hal.board.PinSink;
import sprag.hal.bus.BusDecoder;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.FrameBits;

/** Collects what is heard on a bus and shows it as a table. */
final class BusWatch {
    private static final PinSink NOWHERE = new PinSink() {
        @Override
        public void put(int input, long raw, long arrivedNs) {
            // only the verdict counts here
        }

        @Override
        public void putUnknown(int input, long nowNs) {
            // only the verdict counts here
        }
    };

    private final BusMap map;
    private final BusDecoder decoder;
    private final int bitRateKbit;
    private final Map<Long, Heard> heard = new TreeMap<>();
    private long startNs = Long.MIN_VALUE;
    private long lookNs;
    private long lastNs;
    private long bits;

    /** Watches a bus.
     *
     * @param map its messages; none are known when it is empty
     */
    BusWatch(BusMap map) {
        this.map = map;
        this.decoder = new BusDecoder(map);
        this.bitRateKbit = map.bitRateKbit();
    }

    void begin(long nowNs) {
        startNs = nowNs;
        lookNs = nowNs;
        lastNs = nowNs;
        decoder.startAnew(nowNs);
    }

    void accept(CanFrame frame, long nowNs) {
        heard.computeIfAbsent(frame.key(), key -> new Heard()).add(frame, nowNs);
        decoder.accept(frame, nowNs, NOWHERE);
        bits += FrameBits.exact(frame);
        lastNs = nowNs;
    }

    BusMap map() {
        return map;
    }

    long frames() {
        return heard.values().stream().mapToLong(h -> h.total).sum();
    }

    /** The share of the time that the wires were busy since the last look. */
    double load(long nowNs) {
        double possible = (nowNs - lookNs) * 1e-6 * bitRateKbit;
        return possible > 0 ? bits / possible : Double.NaN;
    }

    void print(PrintWriter out, long nowNs, String adapter) {
        out.printf(
                Locale.ROOT,
                "%9.3f s  load %s %% of %d kbit/s, %d identifiers, %d frames%s%n",
                (nowNs - startNs) / 1e9,
                Numbers.text(100 * load(nowNs)),
                bitRateKbit,
                heard.size(),
                frames(),
                adapter.isEmpty() ? "" : "; " + adapter);
        out.println("id         per s   jitter ms  bytes (* has changed)      message");
        heard.forEach((key, one) -> out.println(row(key, one)));
        troubles(nowNs).forEach(out::println);
        out.flush();
        heard.values().forEach(Heard::look);
        bits = 0;
        lookNs = nowNs;
    }

    private String row(long key, Heard one) {
        StringBuilder bytes = new StringBuilder();
        for (int i = 0; i < one.last.length() && !one.last.remote(); i++) {
            bytes.append(String.format(Locale.ROOT, "%02X", one.last.data()[i]));
            bytes.append((one.changed >> i & 1) != 0 ? '*' : ' ');
        }
        return String.format(
                        Locale.ROOT,
                        "%-9s %6s  %10s  %-25s %s",
                        CanFrame.idText(one.last.id(), one.last.extended()),
                        Numbers.text(one.rateHz()),
                        Numbers.text(one.jitterMs()),
                        one.last.remote() ? "asks for " + one.last.length() : bytes,
                        meaning(key, one.last))
                .stripTrailing();
    }

    private String meaning(long key, CanFrame frame) {
        int index = decoder.indexOf(key);
        if (index < 0) {
            return map.messages().isEmpty() ? "" : "not in the file";
        }
        BusMessage message = map.messages().get(index);
        List<String> values = new ArrayList<>();
        for (BusField field : message.fields()) {
            if (frame.length() == message.length()) {
                values.add(field.name() + " " + text(field, frame));
            }
        }
        return message.name() + ": " + String.join(", ", values);
    }

    private static String text(BusField field, CanFrame frame) {
        String word = field.codes().texts().get(field.place().raw(frame.data()));
        return word != null ? word : Numbers.text(field.value(frame.data()), field.unit());
    }

    /** What is late, missing or wrong, one line each. */
    List<String> troubles(long nowNs) {
        List<String> found = new ArrayList<>();
        for (int m = 0; m < map.messages().size(); m++) {
            BusMessage message = map.messages().get(m);
            Heard one = heard.get(message.key());
            if (!message.isSent() && decoder.isLate(m, nowNs)) {
                found.add("late: " + message.name() + " of " + message.sender() + ", "
                        + (one == null
                                ? "never heard"
                                : Numbers.text((nowNs - one.lastNs) / 1e6, "ms") + " since the last frame")
                        + " (time-out " + Numbers.text(message.timeoutMs(), "ms") + ")");
            }
            for (BusDecoder.Verdict verdict : BusDecoder.Verdict.values()) {
                if (verdict != BusDecoder.Verdict.TAKEN && decoder.count(m, verdict) > 0) {
                    found.add("wrong: " + message.name() + ", " + decoder.count(m, verdict) + " frames: "
                            + verdict.words);
                }
            }
            if (decoder.missed(m) > 0) {
                found.add("missing: " + decoder.missed(m) + " frames of " + message.name() + " by its counter");
            }
        }
        return found;
    }

    String json(long nowNs) {
        ObjectNode root = new ObjectMapper().createObjectNode();
        root.put("seconds", (nowNs - startNs) / 1e9).put("load", load(nowNs)).put("frames", frames());
        ArrayNode all = root.putArray("identifiers");
        heard.forEach((key, one) -> {
            ObjectNode entry = all.addObject();
            entry.put("id", CanFrame.idText(one.last.id(), one.last.extended()));
            entry.put("rate_hz", one.rateHz()).put("jitter_ms", one.jitterMs()).put("frames", one.total);
            entry.put("last", one.last.toString());
            int index = decoder.indexOf(key);
            if (index >= 0) {
                entry.put("message", map.messages().get(index).name());
                ObjectNode values = entry.putObject("values");
                map.messages().get(index).fields().forEach(f -> values.put(f.name(), f.value(one.last.data())));
            }
        });
        ArrayNode troubles = root.putArray("troubles");
        troubles(nowNs).forEach(troubles::add);
        return root.toPrettyString();
    }

    long lastNs() {
        return lastNs;
    }
}
