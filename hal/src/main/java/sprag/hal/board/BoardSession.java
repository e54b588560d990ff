package sprag.hal.board;

/**
 * The session with one board, from the opening of its port to the loss of the link. Used by the board's own thread only.
 *
 * <p>Every method returns in a bounded time and throws {@link LinkLost} with words for people as soon as the board can not be
 * trusted. After that only {@link #release()} is called, and the talk is thrown away.
 */
public interface BoardSession {
    /** Finds out which board answers, checks the map against it, sets up the inputs and releases every mapped output.
     *
     * <p>No other pin becomes an output here.
     *
     * @param sink where inputs go
     * @throws LinkLost when nobody answers, somebody else answers, or the map does not fit
     */
    void connect(PinSink sink) throws LinkLost;

    /** What answered, for people.
     *
     * @return name and version
     */
    String identity();

    /** Takes what has arrived and asks for what is due.
     *
     * @param sink where inputs go
     * @throws LinkLost when the board fell silent, talks nonsense or started anew
     */
    void turn(PinSink sink) throws LinkLost;

    /** Makes every mapped output an output at its safe value.
     *
     * @throws LinkLost when the board does not confirm it
     */
    void arm() throws LinkLost;

    /** Drives the outputs; called only after {@link #arm()}. What has not changed since the last call need not be sent again.
     *
     * @param raw counts, one an output in the order of the map
     * @return true when something was sent because it changed
     * @throws LinkLost when it could not be sent
     */
    boolean drive(long[] raw) throws LinkLost;

    /** Lets go of the line after the last release was handed over, so that nothing that still waits somewhere is sent later.
     *
     * @throws LinkLost when it could not be told
     */
    default void leave() throws LinkLost {}

    /** Sets every driven output to its safe value; also called while the link is being lost.
     *
     * @throws LinkLost when it could not be sent
     */
    void release() throws LinkLost;
}
