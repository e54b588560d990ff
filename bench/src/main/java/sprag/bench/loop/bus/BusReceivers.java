package sprag.bench.loop.bus;

import java.util.Arrays;
import java.util.List;
import sprag.bench.car.charge.ChargerOrders;
import sprag.bench.car.charge.Chargers;
import sprag.hal.board.OutputPin;
import sprag.hal.bus.BusEncoder;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.FrameListener;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;

/**
 * Who obeys the messages of the supervisor on a simulated bus. Each goes on with the last good frame until the time-out of the message,
 * and then switches itself off. A charger obeys the message that carries its own limit. The wire that asks the station for power is
 * none of theirs.
 */
final class BusReceivers {
    private static final long NEVER = Long.MIN_VALUE;
    private static final double NS_PER_MS = 1e6;
    private static final List<Output> LIMITS =
            List.of(Output.CHARGER_1_LIMIT_A, Output.CHARGER_2_LIMIT_A, Output.CHARGER_3_LIMIT_A);

    private final List<BusMessage> messages;
    private final List<OutputPin> outputs;
    private final BusEncoder encoder;
    private final CanFrame frame = new CanFrame();
    private FrameListener listener;
    private final BusFaults faults;
    private final long[][] arrived;
    private final int[][] pinOf;
    private final long[] arrivedNs;
    private final long[] sentNs;
    private final long[][] sent;
    /** What each charger has been told; for {@link sprag.bench.car.simulation.SimulatedCar#tellChargers}. */
    final ChargerOrders orders = new ChargerOrders();

    BusReceivers(BusMap map, BusFaults faults) {
        this.messages = map.messages();
        this.outputs = map.pins().outputs();
        this.faults = faults;
        this.encoder = new BusEncoder(map);
        this.pinOf = messages.stream().map(this::pinsOf).toArray(int[][]::new);
        this.arrived = new long[messages.size()][outputs.size()];
        this.sent = new long[messages.size()][outputs.size()];
        this.arrivedNs = new long[messages.size()];
        this.sentNs = new long[messages.size()];
        Arrays.fill(arrivedNs, NEVER);
        Arrays.fill(sentNs, NEVER);
    }

    void listen(FrameListener who) {
        listener = who;
    }

    /** Sends what is due, and what has changed. */
    void send(Commands commands, long nowNs) {
        for (int m = 0; m < messages.size(); m++) {
            BusMessage message = messages.get(m);
            if (!message.isSent()) {
                continue;
            }
            boolean changed = false;
            for (BusField field : message.fields()) {
                if (field.pin() != BusField.NO_PIN) {
                    OutputPin pin = outputs.get(field.pin());
                    long raw = pin.raw(commands.get(pin.output()));
                    changed |= raw != sent[m][field.pin()];
                    sent[m][field.pin()] = raw;
                }
            }
            if (changed || sentNs[m] == NEVER || nowNs - sentNs[m] >= message.periodMs() * NS_PER_MS) {
                sentNs[m] = nowNs;
                if (listener != null) {
                    encoder.compose(m, sent[m], frame);
                    listener.frame(frame, true, nowNs);
                }
                receive(m, nowNs);
            }
        }
    }

    private void receive(int m, long nowNs) {
        boolean good = !faults.has(m, FrameFault.LOST)
                && !faults.has(m, FrameFault.WRONG_LENGTH)
                && !faults.has(m, FrameFault.WRONG_SUM)
                && !faults.has(m, FrameFault.STUCK_COUNTER)
                && !faults.has(m, FrameFault.TWO_SENDERS);
        if (good) {
            arrivedNs[m] = nowNs;
            System.arraycopy(sent[m], 0, arrived[m], 0, sent[m].length);
        }
    }

    /** Puts what the receivers do in the place of what was asked. */
    void obey(Commands commands, long nowNs) {
        for (int i = 0; i < Chargers.MOST; i++) {
            orders.enabled[i] = told(Output.CHARGER_ENABLE, i, commands, nowNs) != 0;
            orders.limitV[i] = told(Output.CHARGE_VOLTAGE_LIMIT_V, i, commands, nowNs);
        }
        for (OutputPin pin : outputs) {
            if (pin.output() != Output.CHARGER_ENABLE) {
                commands.set(pin.output(), greatest(pin.output(), pin.output(), nowNs));
            }
        }
    }

    /** What a charger has heard: from the messages with its own limit; where those do not carry it, from any; by wire where none does. */
    private double told(Output what, int charger, Commands byWire, long nowNs) {
        Output own = LIMITS.get(charger);
        boolean any = false;
        boolean withOwn = false;
        for (int[] pins : pinOf) {
            any |= pins[what.ordinal()] >= 0;
            withOwn |= pins[what.ordinal()] >= 0 && pins[own.ordinal()] >= 0;
        }
        return any ? greatest(what, withOwn ? own : what, nowNs) : byWire.get(what);
    }

    /** The greatest value of an output among the messages that arrived in time and carry another output too. */
    private double greatest(Output what, Output beside, long nowNs) {
        double greatest = 0;
        for (int m = 0; m < messages.size(); m++) {
            int p = pinOf[m][what.ordinal()];
            if (p >= 0 && isInTime(m, nowNs) && pinOf[m][beside.ordinal()] >= 0) {
                OutputPin pin = outputs.get(p);
                double value = pin.kind().twoState ? arrived[m][p] : pin.scale().value(arrived[m][p]);
                greatest = Math.abs(value) > Math.abs(greatest) ? value : greatest;
            }
        }
        return greatest;
    }

    private boolean isInTime(int m, long nowNs) {
        return arrivedNs[m] != NEVER && nowNs - arrivedNs[m] <= messages.get(m).timeoutMs() * NS_PER_MS;
    }

    /** Which pin stands for an output in a message, by its ordinal; -1 where the message does not carry it. */
    private int[] pinsOf(BusMessage message) {
        int[] pins = new int[Output.COUNT];
        Arrays.fill(pins, -1);
        for (BusField field : message.fields()) {
            if (message.isSent() && field.pin() != BusField.NO_PIN) {
                pins[outputs.get(field.pin()).output().ordinal()] = field.pin();
            }
        }
        return pins;
    }

    void release() {
        Arrays.fill(arrivedNs, NEVER);
    }
}
