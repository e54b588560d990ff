package sprag.hal.board;

import java.util.Locale;

/** What a pin does. One row each. */
public enum PinKind {
    // @formatter:off
    //        in or out   switch    what it is
    /** A switch to a supply, with its own resistor. */
    DIGITAL  (true, true,    true,  "an input that is high or low, or an output that is on or off"),
    /** A switch to ground. */
    PULL_UP  (true, false,   true,  "an input held high by the board's own resistor, low when the switch closes"),
    /** A voltage or a number. */
    ANALOGUE (true, true,    false, "a measured number, or a number written to the board"),
    /** A share of the time. */
    PWM      (false, true,   false, "an output that is on for a share of the time");
    // @formatter:on

    /** Whether an input can be of this kind. */
    public final boolean input;
    /** Whether an output can be of this kind. */
    public final boolean output;
    /** Whether it is on or off and nothing between. */
    public final boolean twoState;
    /** One clause for people. */
    public final String meaning;

    PinKind(boolean input, boolean output, boolean twoState, String meaning) {
        this.input = input;
        this.output = output;
        this.twoState = twoState;
        this.meaning = meaning;
    }

    /** The word in files.
     *
     * @return e.g. {@code pull-up}
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
