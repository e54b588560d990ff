package sprag.bench.evidence.campaign.harm;

/** How the amounts of single ticks become one of the run. */
enum HarmWay {
    /** Added up, each times the length of a tick. */
    SUM,
    /** The longest time without a gap in which the amount was above 0. */
    LONGEST,
    /** The same as {@link #LONGEST}, less that time in the run without the fault. */
    LONGER,
    /** The greatest amount of any tick. */
    MOST,
    /** The car adds it up itself: the last amount, less that of the run without the fault. */
    GROWN
}
