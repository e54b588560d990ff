package sprag.supervisor;

/** Pump, fan, heater, DC-DC converter, lamps, buzzer and gauge. */
final class Auxiliaries {
    private boolean beat;

    Auxiliaries(Settings settings) {
        // nothing to keep yet
    }

    /** Sets the auxiliary commands for one tick.
     *
     * @param logic its state and what it permits
     * @param f the facts of this tick
     * @param c the quantities of this tick
     * @param in the readings
     * @param out where the commands are set
     */
    void shape(Logic logic, Facts f, Conditioned c, Readings in, Commands out) {
        LogicState s = logic.state();
        Permissions p = logic.permissions();
        beat = !beat;
        out.set(Output.HEARTBEAT, beat);
        out.set(Output.DCDC_ENABLE, p.busConnected);
        out.set(Output.BRAKE_LAMP, f.is(Fact.BRAKE_PRESSED));
        out.set(Output.READY_LAMP, s.state == State.DRIVE_ENABLE);
        out.set(Output.FAULT_LAMP, s.state == State.FAULT);
        out.set(Output.CHARGE_LAMP, p.charging);
        out.set(Output.GAUGE_FRACTION, c.stateOfCharge);
    }
}
