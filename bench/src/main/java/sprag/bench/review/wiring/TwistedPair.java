package sprag.bench.review.wiring;

/** Terminals that come in pairs whose two wires must be twisted. One row each. */
enum TwistedPair {
    /** A shunt's voltage of a few millivolts beside cables of several hundred amperes. */
    SENSE("sense_plus", "sense_minus"),
    /** A data bus. */
    DATA("data_high", "data_low"),
    /** A second data bus. */
    DATA_2("data_2_high", "data_2_low"),
    /** A resolver's sine winding. */
    SINE("sin_plus", "sin_minus"),
    /** A resolver's cosine winding. */
    COSINE("cos_plus", "cos_minus"),
    /** A resolver's excitation. */
    EXCITE("excite_plus", "excite_minus");

    private final String one;
    private final String other;

    TwistedPair(String one, String other) {
        this.one = one;
        this.other = other;
    }

    String one() {
        return one;
    }

    String other() {
        return other;
    }

    /** Whether a wire joins one half of the pair with the other half. */
    boolean crosses(String from, String to) {
        boolean forth = from.endsWith("." + one) && to.endsWith("." + other);
        return forth || from.endsWith("." + other) && to.endsWith("." + one);
    }

    /** The other terminal of the pair; null when a terminal belongs to none. */
    static String partnerOf(String pin) {
        for (TwistedPair pair : values()) {
            if (pair.one.equals(pin)) {
                return pair.other;
            }
            if (pair.other.equals(pin)) {
                return pair.one;
            }
        }
        return null;
    }
}
