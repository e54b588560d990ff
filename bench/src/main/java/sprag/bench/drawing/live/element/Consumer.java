package sprag.bench.drawing.live.element;

import sprag.bench.review.wiring.schedule.PartKind;

/**
 * Something that works while its two ends differ.
 *
 * @param kind what it is
 * @param owner what kind of part it belongs to
 * @param part the part
 * @param a node at its plus end
 * @param b node at its minus end
 */
public record Consumer(Kind kind, PartKind owner, String part, int a, int b) {
    /** What works, and between which two potentials. */
    public enum Kind {
        // @formatter:off
        /** The coil of a relay or a contactor. */
        COIL     (Potential.LOW_VOLTAGE, Potential.GROUND),
        /** A lamp. */
        LAMP     (Potential.LOW_VOLTAGE, Potential.GROUND),
        /** The supply of something that thinks, or of a motor. */
        SUPPLY   (Potential.LOW_VOLTAGE, Potential.GROUND),
        /** What takes or gives pack voltage: inverter, heater, charger, DC-DC converter. */
        TRACTION (Potential.PACK_PLUS,   Potential.PACK_MINUS),
        /** What takes mains. */
        MAINS    (Potential.LINE,        Potential.NEUTRAL);
        // @formatter:on

        public final int plus;
        public final int minus;

        Kind(Potential plus, Potential minus) {
            this.plus = plus.ordinal();
            this.minus = minus.ordinal();
        }
    }
}
