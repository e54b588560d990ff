package sprag.bench.car.relay;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * A car wired with relays, as carefully as relays allow. No voltage and no temperature is measured.
 *
 * <pre>
 *  12 V --key--cut-off--covers--crash--permit--plug out--+--[start AND brake]--+-- run relay (holds itself)
 *                                                        +-----[run]-----------+
 *  run ---------------- negative contactor, precharge relay
 *  run --[timer]------- positive contactor, inverter enable      (two timers: contacts in parallel or in series)
 *  plug in --[charge permit]-- chargers
 * </pre>
 *
 * <p>A contact that cannot be read is a broken wire: no current flows through it. The pedal goes to the inverter, which gives no
 * torque at a broken wire, under the brake, and before the pedal was seen released: inverters do that by themselves.
 */
public final class RelayBox {
    private static final double RELEASED = 0.05;
    private static final double LEAST_SOUND_V = 0.25;
    private static final double MOST_SOUND_V = 4.75;
    private static final double RADPS_PER_RPM = Math.PI / 30;
    /** Amperes a phase for a duty of 1, as IEC 61851-1 codes currents up to 51 A. */
    private static final double PILOT_A = 60;

    /** Between 1.5 V, latched, and 2.8 V, pressed (the network of SAE J1772, from memory). */
    private static final double MOST_LATCHED_V = 2.1;

    private static final double LEAST_PILOT_DUTY = 0.1;
    private static final double MOST_PILOT_DUTY = 0.85;

    private final Vehicle vehicle;
    private final Faults faults;
    private final double timerMs;
    private final boolean twoTimers;
    private final boolean inSeries;
    private final boolean chargesOverBus;
    private boolean runs;
    private boolean charges;
    private boolean mainCloses;
    private boolean pedalSeenReleased;
    private double energisedMs;
    private double torqueNm;
    private boolean beat;

    /** Relays at rest.
     *
     * @param vehicle how the timers are wired, and the sizes of its parts
     * @param faults what is broken; the timers are looked up in it
     */
    public RelayBox(Vehicle vehicle, Faults faults) {
        this.vehicle = vehicle;
        this.faults = faults;
        timerMs = vehicle.get(CarParameter.RELAYS_TIMER_MS);
        twoTimers = !vehicle.is(CarParameter.RELAYS_TIMERS, "one");
        inSeries = vehicle.is(CarParameter.RELAYS_TIMERS, "series");
        chargesOverBus = !vehicle.is(Parameter.CHARGER_SIDE, "pack-side");
    }

    /** One tick: the contacts move, and with them what is switched. */
    public void step(Readings in, Commands out, double tickMs) {
        boolean safe = closed(in, Signal.CUT_LOOP_CLOSED)
                && closed(in, Signal.COVER_LOOP_CLOSED)
                && closed(in, Signal.CRASH_LOOP_CLOSED);
        boolean plugOut = in.isOff(Signal.PLUG_PRESENT);
        boolean chain = safe && plugOut && in.isOn(Signal.KEY_ON) && in.isOn(Signal.DISCHARGE_PERMIT);
        runs = chain && (runs || in.isOn(Signal.START_REQUEST) && in.isOn(Signal.BRAKE_PRESSED));
        charges = safe && in.isOn(Signal.PLUG_PRESENT) && in.isOn(Signal.CHARGE_PERMIT);
        boolean closes = runs || charges && chargesOverBus;
        energisedMs = closes ? energisedMs + tickMs : -tickMs;
        mainCloses = closes && timersLetThrough();
        out.set(Output.NEGATIVE_CONTACTOR, closes);
        serve(in, out, closes, tickMs);
    }

    /** One tick of a car whose contacts a drawn circuit moves: only inverter and chargers decide here. Switches are asked to be on.
     *
     * @param run whether the relays let the car drive
     * @param main whether the inverter is let to switch
     * @param charge whether the relays let the chargers charge
     */
    public void follow(Readings in, Commands out, double tickMs, boolean run, boolean main, boolean charge) {
        runs = run;
        mainCloses = main;
        charges = charge && plugIsLatched(in);
        serve(in, out, run, tickMs);
        out.set(Output.INVERTER_ENABLE, true);
        out.set(Output.DCDC_ENABLE, true);
        out.set(Output.HEATER_BLOWER, true);
        out.set(Output.HEATER_ELEMENT, true);
    }

    /** A charger with a proximity input stops when the latch of a type-1 plug is pressed, or when nothing is read there. */
    private boolean plugIsLatched(Readings in) {
        return !vehicle.is(Parameter.INLET_KIND, "type-1") || in.get(Signal.PROXIMITY_V) < MOST_LATCHED_V;
    }

    private void serve(Readings in, Commands out, boolean closes, double tickMs) {
        out.set(Output.PRECHARGE_RELAY, closes);
        out.set(Output.POSITIVE_CONTACTOR, mainCloses);
        out.set(Output.INVERTER_ENABLE, runs && mainCloses);
        out.set(Output.TORQUE_REQUEST_NM, torqueNm(in, tickMs));
        charge(in, out);
        comfort(in, out);
        beat = !beat;
        out.set(Output.HEARTBEAT, beat);
    }

    private boolean closed(Readings in, Signal loop) {
        return !vehicle.settings().has(loop) || in.isOn(loop);
    }

    private boolean timersLetThrough() {
        boolean first = timer(PartFault.TIMER_1_STUCK_CLOSED, PartFault.TIMER_1_STUCK_OPEN);
        if (!twoTimers) {
            return first;
        }
        boolean second = timer(PartFault.TIMER_2_STUCK_CLOSED, PartFault.TIMER_2_STUCK_OPEN);
        return inSeries ? first && second : first || second;
    }

    private boolean timer(PartFault stuckClosed, PartFault stuckOpen) {
        return faults.has(stuckClosed) || energisedMs >= timerMs && !faults.has(stuckOpen);
    }

    /** What the inverter makes of its own pedal input. */
    private double torqueNm(Readings in, double tickMs) {
        double wiperV = in.get(Signal.PEDAL_A_V);
        double releasedV = vehicle.get(Parameter.PEDAL_A_RELEASED_V);
        double travel = (wiperV - releasedV) / (vehicle.get(Parameter.PEDAL_A_FULL_V) - releasedV);
        boolean enabled = runs && mainCloses && wiperV >= LEAST_SOUND_V && wiperV <= MOST_SOUND_V;
        pedalSeenReleased = enabled && (pedalSeenReleased || travel < RELEASED);
        boolean forward = in.isOn(Signal.FORWARD_SWITCH);
        boolean reverse = in.isOn(Signal.REVERSE_SWITCH);
        if (!pedalSeenReleased || forward == reverse || in.isOn(Signal.BRAKE_PRESSED) || travel < RELEASED) {
            torqueNm = 0;
            return 0;
        }
        double radps = Math.abs(in.get(Signal.MOTOR_SPEED_RPM)) * RADPS_PER_RPM;
        double byPowerNm = vehicle.get(Parameter.DRIVE_POWER_W) / Math.max(1, radps);
        double mostNm = Math.min(vehicle.get(Parameter.DRIVE_TORQUE_NM), byPowerNm);
        double aimNm = Math.min(1, travel) * mostNm * (forward ? 1 : -1);
        double stepNm = vehicle.get(Parameter.DRIVE_RISE_NM_PER_S) * tickMs / 1000;
        torqueNm = Math.max(torqueNm - stepNm, Math.min(torqueNm + stepNm, aimNm));
        torqueNm = Double.isNaN(torqueNm) ? 0 : torqueNm;
        return torqueNm;
    }

    /** The chargers obey the pilot by themselves; the monitor's permit is a contact in their supply. */
    private void charge(Readings in, Commands out) {
        double duty = in.get(Signal.PILOT_DUTY);
        boolean offered = duty >= LEAST_PILOT_DUTY && duty <= MOST_PILOT_DUTY;
        double inletW = duty * PILOT_A * vehicle.get(Parameter.INLET_SUPPLY_V) * vehicle.get(Parameter.INLET_PHASES);
        double byInletA = inletW * vehicle.get(Parameter.CHARGER_EFFICIENCY) / vehicle.get(Parameter.PACK_MAX_V);
        boolean on = charges && offered && (mainCloses || !chargesOverBus);
        double mostA = on ? Math.min(byInletA, vehicle.get(Parameter.CHARGE_CURRENT_A)) : 0;
        int count = (int) vehicle.get(Parameter.CHARGER_COUNT);
        out.set(Output.CHARGER_ENABLE, charges);
        out.set(Output.CHARGE_CURRENT_LIMIT_A, mostA);
        out.set(Output.CHARGER_1_LIMIT_A, count >= 1 ? mostA / count : 0);
        out.set(Output.CHARGER_2_LIMIT_A, count >= 2 ? mostA / count : 0);
        out.set(Output.CHARGER_3_LIMIT_A, count >= 3 ? mostA / count : 0);
        out.set(Output.CHARGE_VOLTAGE_LIMIT_V, on ? vehicle.get(Parameter.CHARGE_VOLTAGE_V) : 0);
    }

    private void comfort(Readings in, Commands out) {
        boolean packSide = vehicle.is(Parameter.DCDC_SIDE, "pack-side");
        boolean heats = mainCloses && in.isOn(Signal.HEATER_REQUEST);
        out.set(Output.DCDC_ENABLE, mainCloses || packSide && (in.isOn(Signal.KEY_ON) || charges));
        out.set(Output.COOLANT_PUMP, mainCloses);
        out.set(Output.RADIATOR_FAN_DUTY, mainCloses ? 1 : 0);
        out.set(Output.HEATER_BLOWER, heats);
        out.set(Output.HEATER_ELEMENT, heats && in.isOn(Signal.HEATER_AIRFLOW));
        out.set(Output.PLUG_LOCK, charges);
        out.set(Output.BRAKE_LAMP, in.isOn(Signal.BRAKE_PRESSED));
        out.set(Output.READY_LAMP, runs && mainCloses);
        out.set(Output.CHARGE_LAMP, charges);
    }

    /** The state of a supervised car that does the same, so that the same stories can be played. */
    public State state(Readings in) {
        if (runs) {
            return mainCloses ? State.DRIVE_ENABLE : State.PRECHARGE;
        }
        if (in.isOn(Signal.PLUG_PRESENT)) {
            return State.CHARGE_LOCKOUT;
        }
        return in.isOn(Signal.KEY_ON) ? State.IGNITION : State.OFF;
    }
}
