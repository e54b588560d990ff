package sprag.hal.bus;

import java.util.List;
import sprag.hal.board.OutputPin;

/** Turns outputs into the frames that are sent from here. */
public final class BusEncoder {
    private final List<BusMessage> messages;
    private final List<OutputPin> outputs;
    private final long[] counter;

    /** Knows the messages and has sent none.
     *
     * @param map which messages there are
     */
    public BusEncoder(BusMap map) {
        messages = map.messages();
        outputs = map.pins().outputs();
        counter = new long[messages.size()];
    }

    /** Makes the next frame of a message.
     *
     * @param message its place in the file
     * @param raws counts, one an output in the order of the map
     * @param into the frame
     */
    public void compose(int message, long[] raws, CanFrame into) {
        BusMessage which = messages.get(message);
        into.begin(which.id(), which.extended(), which.length());
        for (BusField field : which.fields()) {
            field.place().put(into.data(), rawOf(field, raws));
        }
        if (which.counter() != null) {
            which.counter().put(into.data(), counter[message]++);
        }
        finish(which, into);
    }

    /** Puts the check sum in.
     *
     * @param message whose
     * @param into a frame that is complete otherwise
     */
    public static void finish(BusMessage message, CanFrame into) {
        if (message.sum() != CheckSum.NONE) {
            into.data()[message.sumByte()] = (byte) message.sum().of(into.data(), into.length(), message.sumByte());
        }
    }

    private long rawOf(BusField field, long[] raws) {
        if (field.pin() == BusField.NO_PIN) {
            return field.fixedRaw();
        }
        long raw = raws[field.pin()];
        if (!outputs.get(field.pin()).kind().twoState) {
            return raw;
        }
        return raw != 0 ? field.codes().on().get(0) : field.codes().off().get(0);
    }
}
