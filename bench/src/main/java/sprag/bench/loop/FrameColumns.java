package sprag.bench.loop;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.car.Lever;
import sprag.bench.car.OutputFault;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.car.SignalFault;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.cli.Nearest;
import sprag.bench.loop.Vocabulary.Range;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.hal.Loop;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Unit;

/** The names of everything in a run: signals, outputs, truths, states, interlocks, levers, faults. */
public final class FrameColumns {
    /** How far the shown state of charge may be off: what the supervisor itself judges, and sends nowhere. */
    private static final Channel DOUBT = new Channel(
            Source.OUTPUT,
            "gauge_doubt",
            Unit.NUMBER,
            "how far gauge_fraction may be off either way, as the supervisor judges");
    /** The columns of every trace: all signals, outputs and truths, each in the order of its table, then the doubt of the gauge. */
    public static final Channels CHANNELS = channels();
    /** What a scenario may name. */
    public static final Vocabulary VOCABULARY = new Vocabulary(CHANNELS, levers(), FrameColumns::faultComplaint);

    private FrameColumns() {}

    /** Writes the values of one tick into a frame of these columns.
     *
     * @param car what was true
     */
    public static void fill(Frame into, Loop loop, Supervisor supervisor, SimulatedCar car) {
        loop.readings().copyTo(into.value, 0);
        loop.commands().copyTo(into.value, Signal.COUNT);
        car.truths(into.value, Signal.COUNT + Output.COUNT);
        into.value[Signal.COUNT + Output.COUNT + Quantity.COUNT] = supervisor.conditioned().stateOfChargeUncertainty;
    }

    private static Channels channels() {
        List<Channel> all = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            all.add(new Channel(Source.SIGNAL, signal.key(), signal.unit, signal.meaning));
        }
        for (Output output : Output.values()) {
            all.add(new Channel(Source.OUTPUT, output.key(), output.unit, output.meaning, output.switchesPower()));
        }
        for (Quantity quantity : Quantity.values()) {
            all.add(new Channel(Source.QUANTITY, quantity.key(), quantity.unit, quantity.meaning));
        }
        all.add(DOUBT);
        List<String> states = Arrays.stream(State.values()).map(State::name).toList();
        return new Channels(
                all,
                states,
                Arrays.stream(Interlock.values()).map(FrameColumns::rule).toList());
    }

    private static Channels.Rule rule(Interlock row) {
        boolean quiet = row.response == Response.BLOCK_START;
        return new Channels.Rule(
                row.id(), row.cause.toString(), row.response.words, row.why, quiet, row.cause.awaited());
    }

    private static Map<String, Range> levers() {
        Map<String, Range> all = new LinkedHashMap<>();
        for (Lever lever : Lever.values()) {
            all.put(lever.key(), new Range(lever.min, lever.max, lever.meaning));
        }
        return all;
    }

    /** What is wrong with a fault's name on any vehicle; whether this vehicle can have it is asked when it is known. */
    private static String faultComplaint(String written) {
        String name = written.replaceFirst("=.*", "").strip();
        List<String> names = faults();
        return names.contains(name) ? "" : Nearest.hint(name, names);
    }

    private static List<String> faults() {
        List<String> names = new ArrayList<>(List.of(TickClock.LATE));
        for (Signal signal : Signal.values()) {
            for (SignalFault kind : SignalFault.values()) {
                names.add(signal.key() + "." + kind.key());
            }
        }
        for (Output output : Output.values()) {
            for (OutputFault kind : OutputFault.values()) {
                names.add(output.key() + "." + kind.key());
            }
        }
        for (PartFault part : PartFault.values()) {
            names.add(part.key);
        }
        return names;
    }
}
