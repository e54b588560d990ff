package sprag.hal;

import java.util.Objects;

/** Whether a device's pins can be trusted, and if not, why. */
public final class Health {
    /** All is well. */
    public static final Health OK = new Health(true, "");

    private final boolean well;
    private final String reason;

    private Health(boolean well, String reason) {
        this.well = well;
        this.reason = reason;
    }

    /** A device whose pins cannot be trusted.
     *
     * @param reason what is wrong, in words a builder understands
     * @return the health
     */
    public static Health lost(String reason) {
        return new Health(false, Objects.requireNonNull(reason, "reason"));
    }

    /** Whether its pins can be trusted.
     *
     * @return true when all is well
     */
    public boolean isWell() {
        return well;
    }

    /** What is wrong.
     *
     * @return the reason, empty when all is well
     */
    public String reason() {
        return reason;
    }

    @Override
    public String toString() {
        return well ? "well" : reason;
    }
}
