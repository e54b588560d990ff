package sprag.supervisor;

/** Shapes the charge current. */
final class ChargeShaper {
    ChargeShaper(Settings settings) {
        // nothing to keep yet
    }

    /** Sets the charge commands for one tick.
     *
     * @param p what is permitted
     * @param c the quantities of this tick
     * @param in the readings
     * @param out where the commands are set
     */
    void shape(Permissions p, Conditioned c, Readings in, Commands out) {
        out.set(Output.CHARGER_ENABLE, false);
        out.set(Output.CHARGE_CURRENT_LIMIT_A, 0);
        out.set(Output.CHARGE_VOLTAGE_LIMIT_V, 0);
        out.set(Output.CHARGER_1_LIMIT_A, 0);
        out.set(Output.CHARGER_2_LIMIT_A, 0);
        out.set(Output.CHARGER_3_LIMIT_A, 0);
    }
}
