package sprag.bench.loop.bus;

import java.util.Arrays;
import java.util.List;
import sprag.hal.board.OutputPin;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.supervisor.vocabulary.Commands;

/**
 * Who obeys the messages of the supervisor on a simulated bus. Each goes on with the last good frame until the time-out of the message,
 * and then switches itself off.
 */
final class BusReceivers {
    private static final long NEVER = Long.MIN_VALUE;
    private static final double NS_PER_MS = 1e6;

    private final List<BusMessage> messages;
    private final List<OutputPin> outputs;
    private final BusFaults faults;
    private final long[][] arrived;
    private final long[] arrivedNs;
    private final long[] sentNs;
    private final long[][] sent;

    BusReceivers(BusMap map, BusFaults faults) {
        this.messages = map.messages();
        this.outputs = map.pins().outputs();
        this.faults = faults;
        this.arrived = new long[messages.size()][outputs.size()];
        this.sent = new long[messages.size()][outputs.size()];
        this.arrivedNs = new long[messages.size()];
        this.sentNs = new long[messages.size()];
        Arrays.fill(arrivedNs, NEVER);
        Arrays.fill(sentNs, NEVER);
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
        for (int p = 0; p < outputs.size(); p++) {
            OutputPin pin = outputs.get(p);
            double greatest = 0;
            for (int m = 0; m < messages.size(); m++) {
                if (carries(m, p) && isInTime(m, nowNs)) {
                    double value =
                            pin.kind().twoState ? arrived[m][p] : pin.scale().value(arrived[m][p]);
                    greatest = Math.abs(value) > Math.abs(greatest) ? value : greatest;
                }
            }
            commands.set(pin.output(), greatest);
        }
    }

    private boolean isInTime(int m, long nowNs) {
        return arrivedNs[m] != NEVER && nowNs - arrivedNs[m] <= messages.get(m).timeoutMs() * NS_PER_MS;
    }

    private boolean carries(int m, int p) {
        if (!messages.get(m).isSent()) {
            return false;
        }
        for (BusField field : messages.get(m).fields()) {
            if (field.pin() == p) {
                return true;
            }
        }
        return false;
    }

    void release() {
        Arrays.fill(arrivedNs, NEVER);
    }
}
