package sprag.bench.loop.trace;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import sprag.bench.scenario.Strip;

/** A trace written and read back says what happened. */
class TraceTest {
    private static final String RUN = "OFF:0 OFF:0 ON:12.345 ON:?* FAULT:-7";

    private interface Opened {
        TraceWriter over(StringWriter out) throws IOException;
    }

    private static String written(List<Frame> frames, Opened opened) throws IOException {
        StringWriter out = new StringWriter();
        try (TraceWriter trace = opened.over(out)) {
            for (Frame frame : frames) {
                trace.write(frame);
            }
        }
        return out.toString();
    }

    @Test
    void csv_aShortRun_hasAHeadingAndOneLineATick() throws Exception {
        assertEquals("""
                time_s,state,bus_v,plug,torque_nm,contactor,car.speed_kph,interlocks
                0,OFF,0,0,0,0,0,
                0.1,OFF,0,0,0,0,0,
                0.2,ON,12.345,1,12.345,1,12.345,
                0.3,ON,,,,,,bus-high
                0.4,FAULT,-7,0,-7,0,-7,
                """, written(Strip.frames(RUN), out -> new CsvTrace(Strip.CHANNELS, out)));
    }

    @Test
    void vcd_readBack_givesEveryValueOfEveryTick() throws Exception {
        List<Frame> frames = Strip.frames(RUN);
        Dump dump = Dump.read(written(frames, out -> new VcdTrace(Strip.CHANNELS, "a run", out)));
        for (Frame frame : frames) {
            Map<String, String> at = dump.at(frame.timeMs);
            String state = Strip.CHANNELS.states().get(frame.state);
            assertAll(
                    () -> assertEquals(frame.state, Integer.parseInt(at.get("sprag.state"), 2)),
                    () -> assertEquals("1", at.get("sprag.states." + state)),
                    () -> assertEquals(
                            1,
                            at.entrySet().stream()
                                    .filter(e -> e.getKey().startsWith("sprag.states.")
                                            && e.getValue().equals("1"))
                                    .count()),
                    () -> assertEquals(
                            frame.value[0],
                            Double.parseDouble(at.get("sprag.signals.bus_v").replace("nan", "NaN")),
                            1e-4),
                    () -> assertEquals(level(frame.value[1]), at.get("sprag.signals.plug")),
                    () -> assertEquals(
                            frame.value[4],
                            Double.parseDouble(at.get("sprag.car.speed_kph").replace("nan", "NaN")),
                            1e-4),
                    () -> assertEquals(frame.acting[0] ? "1" : "0", at.get("sprag.interlocks.bus_high")));
        }
        assertEquals("1 ms", dump.timescale);
    }

    @Test
    void vcd_nothingChangesToTheEnd_stillEndsAtTheEnd() throws Exception {
        String dump = written(Strip.frames("OFF:0 OFF:0 OFF:0"), out -> new VcdTrace(Strip.CHANNELS, "quiet", out));
        assertTrue(dump.endsWith("$end\n#200\n"), dump);
    }

    @Test
    void vcd_moreColumnsThanOneCharacterNames_keepsTheNamesApart() throws Exception {
        List<Channel> many = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            many.add(new Channel(Channel.Source.SIGNAL, "s" + i, sprag.supervisor.vocabulary.Unit.VOLT, ""));
        }
        Channels channels = new Channels(many, List.of("A", "B"), List.of());
        Frame frame = channels.newFrame();
        for (int i = 0; i < 300; i++) {
            frame.value[i] = i;
        }
        Map<String, String> at = Dump.read(written(List.of(frame), out -> new VcdTrace(channels, "", out)))
                .at(0);
        for (int i = 0; i < 300; i++) {
            assertEquals("" + i, at.get("sprag.signals.s" + i));
        }
    }

    private static String level(double value) {
        return Double.isNaN(value) ? "x" : value != 0 ? "1" : "0";
    }

    @Test
    void thinner_longRun_keepsEveryChangeAndFewOthers() {
        Thinner thinner = new Thinner(Strip.CHANNELS, 10_000_000, 100);
        Frame frame = Strip.CHANNELS.newFrame();
        int kept = 0;
        for (int tick = 0; tick < 100_000; tick++) {
            frame.timeMs = tick * 100L;
            frame.value[0] = tick;
            frame.value[3] = tick == 777 ? 1 : 0;
            frame.state = tick >= 55_555 ? 1 : 0;
            boolean keeps = thinner.keeps(frame);
            kept += keeps ? 1 : 0;
            boolean change = tick == 0 || tick == 777 || tick == 778 || tick == 55_555;
            assertTrue(keeps || !change, "tick " + tick);
        }
        assertTrue(kept > 20_000 && kept < 30_010, "kept " + kept);
    }

    /** A reader of value change dumps, written from IEEE 1364-2005, clause 18.2, apart from the writer. */
    private static final class Dump {
        private final Map<String, List<String>> names = new HashMap<>();
        private final List<Object[]> changes = new ArrayList<>();
        private String timescale = "";

        static Dump read(String text) {
            Dump dump = new Dump();
            List<String> scope = new ArrayList<>();
            Set<String> codes = new HashSet<>();
            String[] words = text.strip().split("\\s+");
            long time = -1;
            for (int i = 0; i < words.length; i++) {
                String word = words[i];
                if (word.equals("$comment") || word.equals("$version") || word.equals("$date")) {
                    i = end(words, i);
                } else if (word.equals("$timescale")) {
                    int to = end(words, i);
                    dump.timescale = String.join(" ", List.of(words).subList(i + 1, to));
                    i = to;
                } else if (word.equals("$scope")) {
                    scope.add(words[i + 2]);
                    i = end(words, i);
                } else if (word.equals("$upscope")) {
                    scope.remove(scope.size() - 1);
                    i = end(words, i);
                } else if (word.equals("$var")) {
                    assertTrue(List.of("wire", "reg", "real").contains(words[i + 1]), words[i + 1]);
                    assertTrue(codes.add(words[i + 3]), "code used twice: " + words[i + 3]);
                    dump.names.put(words[i + 3], List.of(String.join(".", scope) + "." + words[i + 4]));
                    i = end(words, i);
                } else if (word.startsWith("#")) {
                    long next = Long.parseLong(word.substring(1));
                    assertTrue(next > time, "time goes back: " + word);
                    time = next;
                } else if (word.startsWith("r") || word.startsWith("b")) {
                    dump.change(time, words[++i], word.substring(1));
                } else if (word.startsWith("0") || word.startsWith("1") || word.startsWith("x")) {
                    dump.change(time, word.substring(1), word.substring(0, 1));
                } else {
                    assertTrue(Set.of("$enddefinitions", "$dumpvars", "$end").contains(word), "unknown word " + word);
                }
            }
            return dump;
        }

        private static int end(String[] words, int from) {
            int at = from;
            while (!words[at].equals("$end")) {
                at++;
            }
            return at;
        }

        private void change(long time, String code, String value) {
            assertTrue(names.containsKey(code), "never declared: " + code);
            changes.add(new Object[] {time, names.get(code).get(0), value});
        }

        Map<String, String> at(long time) {
            Map<String, String> values = new HashMap<>();
            for (Object[] change : changes) {
                if ((Long) change[0] <= time) {
                    values.put((String) change[1], (String) change[2]);
                }
            }
            return values;
        }
    }
}
