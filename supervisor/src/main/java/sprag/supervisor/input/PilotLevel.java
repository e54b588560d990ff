package sprag.supervisor.input;

/**
 * What the positive peak of the control pilot says, by the letters of IEC 61851-1 and SAE J1772.
 *
 * <p>A level holds within {@value #BAND_V} V of its centre. Between two bands lies {@value #BAND_V} V of no man's land: there
 * the level of before is kept, so that a pilot at an edge does not chatter.
 */
enum PilotLevel {
    // @formatter:off
    //           centre
    /** State A: a station, but this car's own resistor is not there. */
    UNLOADED    (12),
    /** State B: a car is there and does not ask for power. */
    CONNECTED   (9),
    /** State C: the car asks for power. */
    READY       (6),
    /** State D: the car asks for power and for ventilation, which this car never does. */
    VENTILATED  (3),
    /** State E, or nothing there at all. */
    SILENT      (0),
    /** State F: the station is not available. */
    UNAVAILABLE (-12),
    /** None of these, or not known. */
    UNKNOWN     (Double.NaN);
    // @formatter:on

    /** Tolerance of a level: 1 V either side, as a maker of charging controllers prints it for its measuring point. */
    static final double BAND_V = 1;

    private static final PilotLevel[] VALUES = values();

    /** The voltage at the middle of the band. */
    final double centreV;

    PilotLevel(double centreV) {
        this.centreV = centreV;
    }

    /** The level for a peak. 8.0 V is {@link #CONNECTED}; 7.5 V is whatever it was before, when that was B or C.
     *
     * @param peakV positive peak of the pilot
     * @param before the level of the tick before
     * @return the level now
     */
    static PilotLevel of(double peakV, PilotLevel before) {
        if (before.fits(peakV)) {
            return before;
        }
        for (PilotLevel level : VALUES) {
            if (level.fits(peakV)) {
                return level;
            }
        }
        return before.within(peakV, 2 * BAND_V) ? before : UNKNOWN;
    }

    /** Whether a peak lies within the band of this level. */
    boolean fits(double peakV) {
        return within(peakV, BAND_V);
    }

    private boolean within(double peakV, double bandV) {
        return Math.abs(peakV - centreV) <= bandV;
    }

    /** Whether a station and this car have found each other, so that the duty counts.
     *
     * @return true in the states B and C
     */
    boolean counts() {
        return this == CONNECTED || this == READY;
    }
}
