package sprag.bench.review.formula;

/** The direct voltage above which people must be kept away from both poles. Every rule that needs it takes it from here. */
public final class DangerousVoltage {
    /** Above this a person can be killed: voltage class B of UN R100 and ISO 6469-3 (from memory). */
    public static final double ABOVE_V = 60;

    private DangerousVoltage() {}
}
