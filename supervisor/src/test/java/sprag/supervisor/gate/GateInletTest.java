package sprag.supervisor.gate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** What tells the gate of a plug, in each kind of inlet. */
class GateInletTest {
    private static Settings inlet(String kind, int chargers, boolean plugSwitch) {
        Settings settings = TestVehicle.full()
                .with(Parameter.INLET_KIND, Parameter.INLET_KIND.choices().indexOf(kind))
                .with(Parameter.CHARGER_COUNT, chargers);
        return plugSwitch ? settings : settings.without(Signal.PLUG_PRESENT);
    }

    private static Readings readings(double plug, double[] lines) {
        Readings in = new Rig().in;
        in.set(Signal.PLUG_PRESENT, plug);
        in.set(Signal.CHARGER_1_OK, lines[0]);
        in.set(Signal.CHARGER_2_OK, lines[1]);
        in.set(Signal.CHARGER_3_OK, lines[2]);
        return in;
    }

    /** Signals that no inlet of this kind has are NaN, as in a car without them: they say nothing then. */
    private static boolean vetoesTorque(Settings settings, double plug, double[] lines) {
        Readings in = readings(plug, lines);
        in.set(Signal.KEY_ON, 1);
        boolean pilot = settings.has(Signal.PILOT_PEAK_V);
        in.set(Signal.PROXIMITY_V, pilot ? 4.46 : Double.NaN);
        in.set(Signal.PILOT_PEAK_V, pilot ? 0 : Double.NaN);
        in.set(Signal.BUS_VOLTAGE_V, 350);
        Commands c = new Commands();
        c.set(Output.NEGATIVE_CONTACTOR, true);
        c.set(Output.POSITIVE_CONTACTOR, true);
        c.set(Output.INVERTER_ENABLE, true);
        c.set(Output.TORQUE_REQUEST_NM, 100);
        return new Gate(settings).check(in, c);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            KIND   | CHARGERS | SWITCH | PLUG | OK_1 | OK_2 | OK_3 | VETO  | BECAUSE
            type-2 | 1        | true   | 0    | 0    | 0    | 0    | false | no sign of a plug
            type-2 | 1        | true   | 0    | 1    | 1    | 1    | false | a charger's line is no sign where there is a pilot
            type-2 | 1        | true   | 1    | 0    | 0    | 0    | true  | the switch
            plain  | 1        | true   | 0    | 0    | 0    | 0    | false | no sign of a plug
            plain  | 1        | true   | 1    | 0    | 0    | 0    | true  | the switch of a plain lead
            plain  | 3        | true   | 0    | 1    | 1    | 1    | false | lines say nothing beside a switch
            plain  | 1        | false  | NaN  | 0    | NaN  | NaN  | false | its one charger has no mains
            plain  | 1        | false  | NaN  | 1    | 0    | 0    | true  | its one charger has mains
            plain  | 1        | false  | NaN  | NaN  | 0    | 0    | true  | unknown
            plain  | 1        | false  | NaN  | 0    | 1    | 1    | false | there is no second and no third
            plain  | 2        | false  | NaN  | 0    | 1    | 0    | true  | the second
            plain  | 2        | false  | NaN  | 0    | 0    | 1    | false | there is no third
            plain  | 3        | false  | NaN  | 0    | 0    | 1    | true  | the third
            none   | 1        | true   | 1    | 1    | 1    | 1    | false | a car without an inlet
            """)
    void signOfAPlug_endsTorque(
            String kind,
            int chargers,
            boolean plugSwitch,
            double plug,
            double ok1,
            double ok2,
            double ok3,
            boolean veto,
            String because) {
        Settings settings = inlet(kind, chargers, plugSwitch);
        assertEquals(veto, vetoesTorque(settings, plug, new double[] {ok1, ok2, ok3}), because);
    }

    private static boolean vetoesCharge(Settings settings, double plug, double[] lines) {
        Readings in = readings(plug, lines);
        in.set(Signal.PLUG_LOCKED, 1);
        in.set(Signal.PROXIMITY_V, Double.NaN);
        in.set(Signal.PILOT_PEAK_V, Double.NaN);
        Commands c = new Commands();
        c.set(Output.CHARGER_ENABLE, true);
        return new Gate(settings).check(in, c);
    }

    /** What is no sign of a plug for certain is no leave to charge, although it may be enough to end the drive. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            KIND   | CHARGERS | SWITCH | PLUG | OK_1 | OK_2 | OK_3 | VETO  | BECAUSE
            plain  | 1        | true   | 1    | 0    | 0    | 0    | false | the switch of a plain lead
            plain  | 1        | true   | 0    | 1    | 1    | 1    | true  | lines say nothing beside a switch
            plain  | 1        | true   | NaN  | 1    | 1    | 1    | true  | unknown
            plain  | 1        | false  | NaN  | 1    | 0    | 0    | false | its one charger has mains
            plain  | 1        | false  | 1    | 0    | 1    | 1    | true  | there is no second and no third, and no switch
            plain  | 1        | false  | NaN  | NaN  | 0    | 0    | true  | unknown
            plain  | 3        | false  | NaN  | 0    | 0    | 1    | false | the third has mains
            plain  | 3        | false  | NaN  | 0    | 0    | 0    | true  | no charger has mains
            type-2 | 1        | true   | 1    | 0    | 0    | 0    | false | the switch beside a silent pilot
            type-2 | 1        | true   | 0    | 1    | 1    | 1    | true  | a charger's line is no sign where there is a pilot
            none   | 1        | true   | 1    | 1    | 1    | 1    | true  | a car without an inlet
            """)
    void signOfAPlug_isLeaveToCharge_whenItIsKnown(
            String kind,
            int chargers,
            boolean plugSwitch,
            double plug,
            double ok1,
            double ok2,
            double ok3,
            boolean veto,
            String because) {
        Settings settings = inlet(kind, chargers, plugSwitch);
        assertEquals(veto, vetoesCharge(settings, plug, new double[] {ok1, ok2, ok3}), because);
    }

    /** A lock whose contact is not wired, and a contact of a lock that is not fitted, hold nothing back. */
    @ParameterizedTest(name = "lock {0}, contact {1}")
    @CsvSource({"none, true, false", "fitted, false, false", "fitted, true, true"})
    void chargeWithTheContactOpen_isVetoedWithALockAndItsContactOnly(String lock, boolean contact, boolean veto) {
        Settings settings = TestVehicle.full()
                .with(Parameter.INLET_LOCK, Parameter.INLET_LOCK.choices().indexOf(lock));
        Readings in = new Rig().in;
        in.set(Signal.PLUG_PRESENT, 1);
        in.set(Signal.PLUG_LOCKED, 0);
        Commands c = new Commands();
        c.set(Output.CHARGER_ENABLE, true);
        Gate gate = new Gate(contact ? settings : settings.without(Signal.PLUG_LOCKED));
        assertEquals(veto, gate.check(in, c));
    }
}
