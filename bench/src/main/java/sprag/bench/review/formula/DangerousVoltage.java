package sprag.bench.review.formula;

/** From which direct voltage on people must be kept from both poles. Everything that asks takes it from here. */
public final class DangerousVoltage {
    /** Above this a person can be killed: voltage class B of UN R100 and ISO 6469-3 (from memory). */
    public static final double ABOVE_V = 60;

    private DangerousVoltage() {}
}
