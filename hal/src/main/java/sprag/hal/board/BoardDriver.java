package sprag.hal.board;

import java.util.ArrayList;
import java.util.List;
import java.util.ServiceLoader;
import sprag.hal.Clock;
import sprag.supervisor.vocabulary.Row;

/** A protocol that boards speak. Found by name through {@link ServiceLoader}, so a new protocol changes nothing here. */
public interface BoardDriver {
    /** The word in board files.
     *
     * @return e.g. {@code firmata}
     */
    String protocol();

    /** One sentence for people.
     *
     * @return what kind of board it is for
     */
    String meaning();

    /** The settings of this protocol; the keys begin with the protocol's word and a dot.
     *
     * @return the rows, empty when there is nothing to set
     */
    List<Row> settings();

    /** How many bits the counts of a pin have when the map does not say.
     *
     * @param kind what the pin does
     * @return the bits that boards of this protocol usually have, 1 for a switch
     */
    int usualBits(PinKind kind);

    /** Whether its boards measure against their own supply, so that every analogue reading is in proportion to that voltage.
     *
     * @return false for modules, which have a reference of their own
     */
    default boolean measuresAgainstSupply() {
        return false;
    }

    /** Checks the pins as far as that is possible without the board: their names, and the kinds that the protocol has.
     *
     * @param map the map, already checked for what holds for every board
     * @return every fault, empty when there is none
     */
    List<MapFault> checkPins(BoardMap map);

    /** Makes the session with one board. Nothing is sent before {@link BoardSession#connect(PinSink)}.
     *
     * @param port the line, opened
     * @param map what is wired
     * @param settings what is set
     * @param clock the loop's clock
     * @return the session, for one thread
     */
    BoardSession talk(Port port, BoardMap map, BoardSettings settings, Clock clock);

    /** Every driver on the class path.
     *
     * @return the drivers, in no certain order
     */
    static List<BoardDriver> all() {
        List<BoardDriver> found = new ArrayList<>();
        ServiceLoader.load(BoardDriver.class).forEach(found::add);
        return found;
    }
}
