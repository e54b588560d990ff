package sprag.bench.loop.bus;

import java.util.List;
import java.util.Set;
import sprag.hal.Samples;
import sprag.hal.board.InputPin;
import sprag.hal.bus.BusEncoder;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.Codes;
import sprag.supervisor.vocabulary.Signal;

/** The other nodes of a simulated bus: they make frames of what the car's sensors show. */
final class BusNodes {
    /** A sensor without a new sample for so long has no value to send. */
    private static final long OLD_NS = 200_000_000;

    private final List<BusMessage> messages;
    private final List<InputPin> inputs;
    private final Set<Signal> sampled;
    private final long[] count;
    private final long[] otherCount;
    private final CanFrame[] last;

    /** Nodes on a bus.
     *
     * @param sampled the signals that the car has; of others the nodes say zero, for nobody reads them
     */
    BusNodes(BusMap map, Set<Signal> sampled) {
        this.sampled = sampled;
        messages = map.messages();
        inputs = map.pins().inputs();
        count = new long[messages.size()];
        otherCount = new long[messages.size()];
        last = new CanFrame[messages.size()];
    }

    /** Makes the next frame of a message. Returns false when a value is missing and the message has no code for that. */
    boolean compose(int m, boolean stuck, Samples samples, long nowNs, CanFrame into) {
        BusMessage message = messages.get(m);
        if (stuck && last[m] != null) {
            into.copyFrom(last[m]);
            return true;
        }
        into.begin(message.id(), message.extended(), message.length());
        for (BusField field : message.fields()) {
            long raw = field.pin() == BusField.NO_PIN ? field.fixedRaw() : raw(field, samples, nowNs);
            if (raw < 0) {
                return false;
            }
            field.place().put(into.data(), raw);
        }
        if (message.counter() != null) {
            message.counter().put(into.data(), count[m]++);
        }
        BusEncoder.finish(message, into);
        if (last[m] == null) {
            last[m] = new CanFrame();
        }
        last[m].copyFrom(into);
        return true;
    }

    /** A frame of a second node that knows nothing: all values 0. */
    void composeOther(int m, CanFrame into) {
        BusMessage message = messages.get(m);
        into.begin(message.id(), message.extended(), message.length());
        if (message.counter() != null) {
            message.counter().put(into.data(), 7 + 2 * otherCount[m]++);
        }
        BusEncoder.finish(message, into);
    }

    private long raw(BusField field, Samples samples, long nowNs) {
        InputPin pin = inputs.get(field.pin());
        Codes codes = field.codes();
        if (!sampled.contains(pin.signal())) {
            return 0;
        }
        double value = samples.get(pin.signal());
        if (!(Double.isFinite(value)) || samples.ageNs(pin.signal(), nowNs) > OLD_NS) {
            return codes.unknownFrom() >= 0
                    ? codes.unknownFrom()
                    : codes.unknown().stream().findFirst().orElse(-1L);
        }
        if (pin.kind().twoState) {
            return value != 0 ? codes.on().get(0) : codes.off().get(0);
        }
        long raw = pin.scale().raw(value);
        return codes.unknownFrom() >= 0 ? Math.min(raw, codes.unknownFrom() - 1) : raw;
    }
}
