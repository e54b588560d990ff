package sprag.hal.bus;

import java.util.List;
import sprag.hal.board.BoardMap;

/**
 * All messages of a bus, and which of their fields stand for signals and outputs.
 *
 * @param bitRateKbit bits per millisecond on the wire
 * @param messages in the order of the file
 * @param pins the inputs and outputs that the fields point to
 * @param bench whether this is declared a bench, where frames may be sent by hand
 */
public record BusMap(int bitRateKbit, List<BusMessage> messages, BoardMap pins, boolean bench) {
    /** Keeps a copy.
     *
     * @param bitRateKbit bits per millisecond
     * @param messages in the order of the file
     * @param pins inputs and outputs
     * @param bench whether frames may be sent by hand
     */
    public BusMap {
        messages = List.copyOf(messages);
    }
}
