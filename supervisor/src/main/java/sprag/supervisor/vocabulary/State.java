package sprag.supervisor.vocabulary;

import java.util.EnumSet;
import java.util.Set;

/** What the vehicle is doing. The ways from one to another are the rows of {@link Transition}. */
public enum State {
    /** Key off, no plug, everything asked to open. The gauge and an after-running pump may live on. */
    OFF('o'),
    /** Key on, everything still asked to open. The driver is told what is missing for a start. */
    IGNITION('i'),
    /** The contactors are tested for welds, then the bus is charged through the resistor. No torque. */
    PRECHARGE('p'),
    /** The contactors were asked to close and torque follows the pedal, once it has been seen released with the brake pressed. */
    DRIVE_ENABLE('d'),
    /** Torque goes to zero, contactors open at low current, the bus bleeds down. */
    RUNDOWN('r'),
    /** A plug is seen. No torque whatever else is asked; charging happens here. */
    CHARGE_LOCKOUT('c'),
    /** Everything is asked to open and latched, until the cause is gone and somebody resets on purpose. */
    FAULT('f');

    private static final State[] VALUES = values();
    /** How many there are. */
    public static final int COUNT = VALUES.length;

    /** Its letter in the tables that say where something applies, such as {@link Interlock}. No two states share one. */
    public final char letter;

    static {
        for (State state : VALUES) {
            if (ofLetter(state.letter) != state) {
                throw new IllegalStateException(state + " has the letter of " + ofLetter(state.letter));
            }
        }
    }

    State(char letter) {
        this.letter = letter;
    }

    private static State ofLetter(char letter) {
        for (State state : VALUES) {
            if (state.letter == letter) {
                return state;
            }
        }
        throw new IllegalStateException("no state has the letter " + letter);
    }

    /** The states that a table's column names: the letter of each state in the order of the states, or a blank in its place.
     *
     * @param letters e.g. {@code "  pd   "} for PRECHARGE and DRIVE_ENABLE
     * @return the states
     * @throws IllegalStateException when a state has no place in it, or another letter stands there; our mistake
     */
    public static Set<State> inColumn(String letters) {
        Set<State> states = EnumSet.noneOf(State.class);
        for (State state : VALUES) {
            char letter = state.ordinal() < letters.length() ? letters.charAt(state.ordinal()) : '?';
            if (letter == state.letter) {
                states.add(state);
            } else if (letter != ' ') {
                throw new IllegalStateException(
                        "\"" + letters + "\" does not say whether " + state + " is one of them: '" + state.letter
                                + "' or a blank belongs in place " + (state.ordinal() + 1));
            }
        }
        if (letters.length() != COUNT) {
            throw new IllegalStateException(
                    "\"" + letters + "\" has " + letters.length() + " places for " + COUNT + " states");
        }
        return states;
    }

    /** The state with a certain ordinal. It copies no array, so a tick may call it.
     *
     * @param ordinal 0 to {@link #COUNT} - 1
     * @return the state
     */
    public static State of(int ordinal) {
        return VALUES[ordinal];
    }
}
