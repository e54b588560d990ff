package sprag.bench.evidence.mcdc;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import sprag.bench.evidence.prove.explore.Exploration;
import sprag.bench.evidence.prove.explore.Explorer;
import sprag.bench.evidence.prove.explore.Watched;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.Supervisor;
import sprag.supervisor.gate.Gate;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** What drives the instrumented classes. It is loaded together with them. */
public final class Trial {
    /** The interlocks that Logic or a sequence asks for by name, to be left out in a demonstration. */
    private static final List<Interlock> NAMED = List.of(
            Interlock.KEY_NEVER_OFF,
            Interlock.START_HELD,
            Interlock.BUS_NOT_DISCHARGED,
            Interlock.PEDAL_AT_ENABLE,
            Interlock.DIRECTION_ROLLING,
            Interlock.PLUG_PULLED,
            Interlock.NEGATIVE_WELD_FOUND,
            Interlock.POSITIVE_WELD_FOUND,
            Interlock.CONTACTOR_NOT_CLOSED,
            Interlock.PRECHARGE_REVERSED,
            Interlock.RESISTOR_OVERLOADED,
            Interlock.PRECHARGE_FAST,
            Interlock.PRECHARGE_STALLED,
            Interlock.PRECHARGE_SLOW);

    private static final double[] SWITCH = {0, 1, 1, Double.NaN};

    private Trial() {}

    /** Tries every order of facts on the vehicles, and the gate at and beside each of its limits.
     *
     * @return hits of the decisions, then of the cases, then the number of steps and of ticks of the gate
     */
    public static List<Object> run(List<String> vehicles, int gateTicks) throws Exception {
        Catalogue catalogue = new Catalogue(Path.of(".."));
        long steps = 0;
        long ticks = 0;
        for (String name : vehicles) {
            Settings settings = VehicleReader.read(catalogue.vehicle(name)).settings();
            steps += explore(settings, Set.of());
            if (name.equals(vehicles.get(0))) {
                for (Interlock row : NAMED) {
                    steps += explore(settings, EnumSet.of(row));
                }
            }
            for (long packed :
                    new long[] {0, -1, new Supervisor(settings).state().pack()}) {
                new Supervisor(settings).wake(packed);
            }
            wakeLatched(settings);
            otherKinds(settings);
            List<Settings> kinds = inlets(settings);
            kinds.forEach(kind -> gate(kind, gateTicks));
            ticks += (long) kinds.size() * gateTicks;
        }
        return new ArrayList<>(List.of(Seen.hits(), Seen.arms(), steps, ticks));
    }

    private static long explore(Settings settings, Set<Interlock> without) throws InterruptedException {
        Exploration found = Explorer.of(
                        () -> new Watched<>(new Tick(settings, settings, without, false), List.of(), List.of()))
                .explore();
        return found.size().transitions();
    }

    /** What vehicles differ in when they are made: poles, precharge, inlet, lines. */
    private static void otherKinds(Settings settings) {
        for (int i = 0; i < 4; i++) {
            new Supervisor(settings.with(Parameter.CONTACTOR_POLES, i & 1).with(Parameter.PRECHARGE_BY, i >> 1));
        }
        for (int kind = 0; kind < Parameter.INLET_KIND.choices().size(); kind++) {
            Settings inlet = settings.with(Parameter.INLET_KIND, kind);
            for (int lock = 0; lock < Parameter.INLET_LOCK.choices().size(); lock++) {
                new Gate(inlet.with(Parameter.INLET_LOCK, lock));
                new Gate(inlet.with(Parameter.INLET_LOCK, lock).without(Signal.PLUG_LOCKED));
            }
            new Gate(inlet.without(Signal.PLUG_PRESENT));
            new Gate(inlet.without(Signal.PLUG_PRESENT).without(Signal.CHARGER_1_OK));
        }
    }

    /** The vehicle as it is, without a contact of the lock, and with a plain lead that a switch or the chargers' lines tell of. */
    private static List<Settings> inlets(Settings settings) {
        Settings plain = settings.with(
                Parameter.INLET_KIND, Parameter.INLET_KIND.choices().indexOf("plain"));
        return List.of(settings, settings.without(Signal.PLUG_LOCKED), plain, plain.without(Signal.PLUG_PRESENT));
    }

    private static void wakeLatched(Settings settings) {
        Supervisor latched = new Supervisor(settings);
        latched.wake(-1);
        new Supervisor(settings).wake(latched.state().pack());
    }

    /** Commands and readings at both sides of each limit, and unknown, drawn by a seed. */
    private static void gate(Settings settings, int ticks) {
        Random dice = new Random(1);
        Gate gate = new Gate(settings);
        Readings in = new Readings();
        Commands c = new Commands();
        double mostNm = Math.max(settings.get(Parameter.DRIVE_TORQUE_NM), settings.get(Parameter.REGEN_TORQUE_NM));
        double mostA = settings.get(Parameter.PACK_CHARGE_MAX_A);
        double mostV = settings.get(Parameter.PACK_MAX_V);
        double[] torquesNm = {0, mostNm, -mostNm, mostNm * 0.9, Math.nextUp(mostNm)};
        double[] ampere = {0, 0, mostA / 4, mostA, Math.nextUp(mostA), -1};
        for (int i = 0; i < ticks; i++) {
            for (Signal signal : Signal.values()) {
                in.set(signal, dice.nextInt(4) == 0 ? SWITCH[dice.nextInt(4)] : 0);
            }
            in.set(Signal.CUT_LOOP_CLOSED, dice.nextInt(20) == 0 ? SWITCH[dice.nextInt(4)] : 1);
            in.set(Signal.PLUG_LOCKED, SWITCH[dice.nextInt(4)]);
            in.set(Signal.KEY_ON, SWITCH[dice.nextInt(4)]);
            in.set(Signal.PROXIMITY_V, of(dice, 4, 4, 4.46, Math.nextDown(4), Double.NaN));
            in.set(Signal.PILOT_PEAK_V, of(dice, 2, 2, -12, Math.nextUp(2.0), Double.NaN));
            in.set(Signal.PACK_VOLTAGE_V, of(dice, 100, 100, 100, Double.NaN));
            in.set(Signal.BUS_VOLTAGE_V, of(dice, 100, 100, 0, Double.NaN));
            c.release();
            boolean drives = dice.nextBoolean();
            boolean holds = dice.nextInt(3) != 0;
            for (Output output : Output.values()) {
                c.set(output, holds ? 0 : dice.nextInt(2));
            }
            c.set(Output.NEGATIVE_CONTACTOR, dice.nextInt(5) != 0);
            c.set(Output.POSITIVE_CONTACTOR, dice.nextInt(5) != 0);
            c.set(Output.INVERTER_ENABLE, drives == (dice.nextInt(5) != 0));
            c.set(Output.TORQUE_REQUEST_NM, drives ? of(dice, torquesNm) : 0);
            c.set(Output.CHARGER_ENABLE, !drives && dice.nextInt(5) != 0);
            c.set(Output.CHARGE_CURRENT_LIMIT_A, drives ? 0 : of(dice, ampere));
            for (Output share :
                    new Output[] {Output.CHARGER_1_LIMIT_A, Output.CHARGER_2_LIMIT_A, Output.CHARGER_3_LIMIT_A}) {
                c.set(share, drives ? 0 : of(dice, ampere));
            }
            c.set(Output.CHARGE_VOLTAGE_LIMIT_V, of(dice, 0, mostV, mostV, Math.nextUp(mostV)));
            c.set(Output.PRECHARGE_RELAY, i % 5000 < 2500);
            gate.check(in, c);
        }
    }

    private static double of(Random dice, double... values) {
        return values[dice.nextInt(values.length)];
    }
}
