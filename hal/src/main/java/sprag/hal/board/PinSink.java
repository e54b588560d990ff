package sprag.hal.board;

/** Where a driver puts what it reads. */
public interface PinSink {
    /** Puts the reading of an input.
     *
     * @param input which one, in the order of the map
     * @param raw counts without sign, or 0 and 1 for a switch
     * @param arrivedNs when its frame arrived, on the loop's clock
     */
    void put(int input, long raw, long arrivedNs);

    /** Says that an input is not known any more: its message stays away, or says that it has no value.
     *
     * @param input which one, in the order of the map
     * @param nowNs since when, on the loop's clock
     */
    void putUnknown(int input, long nowNs);
}
