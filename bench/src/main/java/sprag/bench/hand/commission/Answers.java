package sprag.bench.hand.commission;

/** Who answers: a person at a keyboard, a file on the standard input, or the rehearsal itself. */
interface Answers {
    /** The next line.
     *
     * @param bed goes on ticking meanwhile, where time is real
     * @param simulated what the simulated person would say
     * @return what was typed; null when nobody will ever answer again, or the program is being ended
     */
    String next(PinDriver bed, String simulated);

    /** A line that was typed without being asked for, while something is watched; null when there is none. */
    String unasked();
}
