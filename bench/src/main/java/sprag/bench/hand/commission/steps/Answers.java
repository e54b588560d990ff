package sprag.bench.hand.commission.steps;

import sprag.bench.hand.commission.pins.PinDriver;

/** Where answers come from: a person at a keyboard, a file on the standard input, or the rehearsal itself. */
public interface Answers {
    /** The next line.
     *
     * @param driver must keep ticking meanwhile when time is real
     * @param simulated what the simulated person would say
     * @return what was typed; null at the end of the input, or when the program is being ended
     */
    String next(PinDriver driver, String simulated);

    /** A line that was typed while nothing was asked; null when there is none. */
    String unasked();

    /** Whether nobody is there any more who could stop what is driven. */
    boolean isDeserted();
}
