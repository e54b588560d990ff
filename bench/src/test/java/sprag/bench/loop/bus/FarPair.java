package sprag.bench.loop.bus;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.hal.Clock;
import sprag.hal.Samples;
import sprag.hal.board.MemoryPort;
import sprag.hal.board.OutputPin;
import sprag.hal.bus.AdapterSim;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.CandumpText;
import sprag.hal.bus.SlcanText;

/** An adapter with a pair behind it, on which the nodes of a simulated car speak; and what can go wrong on the way to the computer. */
public final class FarPair implements MemoryPort.FarEnd {
    /** What can go wrong, and whether the link must be given up. One row each. */
    public enum Trouble {
        /** No node speaks any more. */
        SILENCE(true),
        /** Random bytes between the frames of the nodes. */
        GARBAGE(false),
        /** Random bytes and nothing else. */
        GARBAGE_ONLY(true),
        /** Each line ends too soon, some without an end. */
        HALF_LINES(true),
        /** Foreign frames as fast as they fit, between those of the nodes. */
        FLOOD(false),
        /** Foreign frames only: an urgent identifier lets nobody else through. */
        FLOOD_ONLY(true),
        /** A line without an end. */
        ENDLESS_LINE(true),
        /** Bytes without an end of line, faster than anybody can read them. */
        NOISE_WITHOUT_END(true),
        /** The nodes are heard, but nobody acknowledges: the adapter takes no frame any more. */
        REFUSED(true),
        /** The adapter says that it has left the bus. */
        BUS_OFF(true),
        /** Another node sends the first message of the supervisor. */
        OUR_IDENTIFIER(true);

        /** Whether the outputs must be released by it. */
        public final boolean losesTheLink;

        Trouble(boolean losesTheLink) {
            this.losesTheLink = losesTheLink;
        }
    }

    private static final int AT_ONCE = 8;
    private static final double NS_PER_MS = 1e6;

    /** The adapter; it keeps what was sent to it. */
    public final AdapterSim adapter;

    private final Clock clock;
    private final BusMap map;
    private final SimulatedCar car;
    private final BusNodes nodes;
    private final Samples samples = new Samples();
    private final CanFrame frame = new CanFrame();
    private final byte[] text = new byte[40];
    private final long[] dueNs;
    private final Random random;
    private Trouble trouble;

    public FarPair(Clock clock, BusMap map, SimulatedCar car, long seed) {
        this.clock = clock;
        this.map = map;
        this.car = car;
        this.adapter = new AdapterSim(clock);
        this.nodes = new BusNodes(map, car.samples());
        this.dueNs = new long[map.messages().size()];
        this.random = new Random(seed);
    }

    /** From now on something is wrong. */
    public void begin(Trouble what) {
        trouble = what;
    }

    /** To be called each millisecond. */
    public void speak() {
        boolean sampled = false;
        for (int m = 0; m < dueNs.length; m++) {
            BusMessage message = map.messages().get(m);
            if (!message.isSent() && clock.nowNs() >= dueNs[m]) {
                if (!sampled) {
                    car.sample(samples, clock.nowNs());
                    sampled = true;
                }
                dueNs[m] = clock.nowNs() + Math.round(message.periodMs() * NS_PER_MS);
                if (nodes.compose(m, false, samples, clock.nowNs(), frame)) {
                    pass();
                }
            }
        }
        if (trouble != null) {
            meddle();
        }
    }

    /** A frame of a node, as far as it gets through. */
    private void pass() {
        if (trouble == null
                || !trouble.losesTheLink
                || trouble == Trouble.BUS_OFF
                || trouble == Trouble.REFUSED
                || trouble == Trouble.OUR_IDENTIFIER) {
            adapter.receive(frame);
        } else if (trouble == Trouble.HALF_LINES) {
            int length = SlcanText.write(frame, text);
            String part =
                    new String(text, 0, 1 + random.nextInt(length - 2), java.nio.charset.StandardCharsets.US_ASCII);
            adapter.say(random.nextBoolean() ? part + "\r" : part);
        }
    }

    private void meddle() {
        switch (trouble) {
            case GARBAGE, GARBAGE_ONLY -> {
                StringBuilder bytes = new StringBuilder();
                IntStream.range(0, AT_ONCE).forEach(i -> bytes.append((char) random.nextInt(256)));
                // An end of line, so that the next frame of a node can be told from it.
                adapter.say(bytes.append('\r').toString());
            }
            case FLOOD, FLOOD_ONLY -> {
                for (int i = 0; i < AT_ONCE; i++) {
                    adapter.receive(frame.begin(i, false, 0));
                }
            }
            case ENDLESS_LINE -> adapter.say("t1238");
            case REFUSED -> adapter.loseOthers();
            case BUS_OFF -> adapter.say("sb000256\r");
            case OUR_IDENTIFIER -> {
                BusMessage own = map.messages().stream()
                        .filter(BusMessage::isSent)
                        .findFirst()
                        .orElseThrow();
                adapter.receive(frame.begin(own.id(), own.extended(), own.length()));
            }
            default -> {}
        }
    }

    /** The messages of the supervisor whose last frame does not release every output in it. */
    public List<String> notReleased() {
        return map.messages().stream()
                .filter(BusMessage::isSent)
                .filter(message -> lastOf(message) != null
                        && !isReleased(message, lastOf(message).frame()))
                .map(BusMessage::name)
                .toList();
    }

    /** When an output was last driven by a frame, in milliseconds from the beginning; negative when never. */
    public long lastDrivenMs() {
        return adapter.sent.stream()
                .filter(sent -> map.messages().stream()
                        .anyMatch(m -> m.isSent()
                                && sent.frame().startsWith(m.idText() + "#")
                                && !isReleased(m, sent.frame())))
                .mapToLong(AdapterSim.Sent::atMs)
                .max()
                .orElse(-1);
    }

    private AdapterSim.Sent lastOf(BusMessage message) {
        return adapter.sent.stream()
                .filter(sent -> sent.frame().startsWith(message.idText() + "#"))
                .reduce((first, second) -> second)
                .orElse(null);
    }

    private boolean isReleased(BusMessage message, String sent) {
        CandumpText.read("(0000000000.000000) can0 " + sent, frame);
        for (BusField field : message.fields()) {
            if (field.pin() != BusField.NO_PIN) {
                OutputPin pin = map.pins().outputs().get(field.pin());
                long raw = field.place().raw(frame.data());
                if (pin.kind().twoState ? field.codes().on().contains(raw) : raw != pin.safeRaw()) {
                    return false;
                }
            }
        }
        return true;
    }

    @Override
    public void take(byte[] bytes, int length) {
        adapter.take(bytes, length);
    }

    @Override
    public int give(byte[] into) {
        if (trouble == Trouble.NOISE_WITHOUT_END) {
            Arrays.fill(into, (byte) '?');
            return into.length;
        }
        return adapter.give(into);
    }

    @Override
    public String toString() {
        return Arrays.toString(adapter.sent.stream().map(AdapterSim.Sent::frame).toArray());
    }
}
