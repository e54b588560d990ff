package sprag.hal.board;

/** A serial line, reduced to what a driver needs. Used by one thread only, except for {@link #close()}. */
public interface Port extends AutoCloseable {
    /** How people know it.
     *
     * @return e.g. {@code /dev/ttyACM0}
     */
    String name();

    /** Opens the line and throws away what was left in it.
     *
     * @throws LinkLost when it cannot be opened, saying why
     */
    void open() throws LinkLost;

    /** Takes what has arrived; never waits.
     *
     * @param into where to put the bytes
     * @return how many bytes, 0 when nothing has arrived
     * @throws LinkLost when the far end is gone
     */
    int read(byte[] into) throws LinkLost;

    /** Hands over bytes to be sent; may wait for a bounded time when the line is slow.
     *
     * @param bytes what to send
     * @param length how many of them
     * @throws LinkLost when not all of them could be handed over
     */
    void write(byte[] bytes, int length) throws LinkLost;

    /** Waits for a bounded time until the written bytes have left the machine, because closing throws the rest away.
     *
     * @throws LinkLost when the line failed meanwhile
     */
    default void drain() throws LinkLost {}

    /** Closes the line. Any thread may call it at any time, also more than once. A write in progress ends with {@link LinkLost}. */
    @Override
    void close();
}
