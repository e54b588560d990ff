package sprag.hal.bus;

import java.util.List;

/**
 * A message: frames with one identifier, from one sender, with one meaning.
 *
 * @param name what people call it
 * @param id identifier
 * @param extended whether the identifier has 29 bits
 * @param sender who sends it; {@link #SUPERVISOR} when it is sent from here
 * @param length data bytes
 * @param periodMs how often it is sent
 * @param timeoutMs after so much time without a good frame, what it carries is unknown
 * @param counter where it counts its frames, null when it does not
 * @param sum how its check sum is made
 * @param sumByte in which byte the check sum stands
 * @param fields the numbers in it
 */
public record BusMessage(
        String name,
        int id,
        boolean extended,
        String sender,
        int length,
        double periodMs,
        double timeoutMs,
        BitField counter,
        CheckSum sum,
        int sumByte,
        List<BusField> fields) {
    /** The sender of what is sent from here. */
    public static final String SUPERVISOR = "supervisor";

    /** Keeps a copy of the fields.
     *
     * @param name what people call it
     * @param id identifier
     * @param extended whether it has 29 bits
     * @param sender who sends it
     * @param length data bytes
     * @param periodMs how often
     * @param timeoutMs how long it may be away
     * @param counter where it counts, or null
     * @param sum how the check sum is made
     * @param sumByte where it stands
     * @param fields the numbers in it
     */
    public BusMessage {
        fields = List.copyOf(fields);
    }

    /** Whether it is sent from here.
     *
     * @return false when it is received
     */
    public boolean isSent() {
        return SUPERVISOR.equals(sender);
    }

    /** See {@link CanFrame#key()}.
     *
     * @return the key of its identifier
     */
    public long key() {
        return CanFrame.keyOf(id, extended);
    }

    /** The identifier as people write it.
     *
     * @return hex digits
     */
    public String idText() {
        return CanFrame.idText(id, extended);
    }
}
