package sprag.bench.scenario;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sprag.bench.loop.Vocabulary;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.BadInput;
import sprag.supervisor.vocabulary.Unit;

/** A run written as a line of text, one word a tick of 100 ms: {@code OFF:80 OFF:90 ON:95* ON:?}. Star: the interlock acts. */
public final class Strip {
    public static final long TICK_MS = 100;
    public static final Channels CHANNELS = new Channels(
            List.of(
                    new Channel(Source.SIGNAL, "bus_v", Unit.VOLT, "bus voltage"),
                    new Channel(Source.SIGNAL, "plug", Unit.SWITCH, "plug"),
                    new Channel(Source.OUTPUT, "torque_nm", Unit.NEWTON_METRE, "torque"),
                    new Channel(Source.OUTPUT, "contactor", Unit.SWITCH, "a contactor", true),
                    new Channel(Source.QUANTITY, "speed_kph", Unit.KPH, "speed")),
            List.of("OFF", "ON", "FAULT"),
            List.of(
                    new Channels.Rule(
                            "bus-high", "the bus is high", "takes the torque away", "it would rise", false, ""),
                    new Channels.Rule("plugged", "a plug is seen", "refuses a start", "the car is tied", true, "")));
    public static final Vocabulary VOCABULARY = new Vocabulary(
            CHANNELS,
            Map.of(
                    "key", new Vocabulary.Range(0, 1, "key"),
                    "pedal", new Vocabulary.Range(0, 1, "pedal"),
                    "grade", new Vocabulary.Range(-0.3, 0.3, "slope")),
            spec -> spec.equals("contactor.welded") ? "" : "Did you mean contactor.welded?");

    private Strip() {}

    /** The frames of a strip. The value goes into every column that is not a switch; switches are on while it is above 0. */
    public static List<Frame> frames(String words) {
        List<Frame> all = new ArrayList<>();
        for (String word : words.strip().split("\\s+")) {
            String[] part = word.replace("*", "").split(":");
            Frame frame = CHANNELS.newFrame();
            frame.timeMs = all.size() * TICK_MS;
            frame.state = CHANNELS.states().indexOf(part[0]);
            frame.acting[0] = word.endsWith("*");
            double value = part[1].equals("?") ? Double.NaN : Double.parseDouble(part[1]);
            for (int i = 0; i < frame.value.length; i++) {
                boolean isSwitch = CHANNELS.all().get(i).isSwitch();
                frame.value[i] = isSwitch && value == value ? (value > 0 ? 1 : 0) : value;
            }
            all.add(frame);
        }
        return all;
    }

    /** Reads an expectation from its keys, divided by semicolons. */
    public static Expectation expect(String keys) throws BadInput {
        return scenario("[[expect]]\ntext = \"t\"\n" + keys.replace(';', '\n'))
                .expectations()
                .get(0);
    }

    /** Reads a scenario of 20 s with one step called "go". */
    public static Scenario scenario(String body) throws BadInput {
        String head = "[about]\ntitle = \"t\"\nwhy = \"w\"\nduration_s = 20\n"
                + "[[do]]\nname = \"go\"\nat_s = 0\nset = { key = 1 }\n";
        return ScenarioReader.parse(Path.of("t.toml"), head + body, VOCABULARY);
    }

    /** What comes of an expectation on a strip; the step "go" happens at a time, -1 for never. */
    public static ExpectationVerdict judge(String keys, String words, long goMs) throws BadInput {
        Watcher watcher = new Watcher(expect(keys));
        Events events = new Events();
        for (Frame frame : frames(words)) {
            if (goMs >= 0 && frame.timeMs >= goMs) {
                events.happened("go", frame.timeMs);
            }
            watcher.observe(frame, events);
        }
        return watcher.verdict();
    }
}
