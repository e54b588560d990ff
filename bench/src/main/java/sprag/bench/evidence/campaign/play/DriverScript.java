package sprag.bench.evidence.campaign.play;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;

/**
 * What the driver does. In the run without a fault the driver reacts to the car and every move is written down. In each run with
 * a fault the same moves are made at the same ticks.
 */
public final class DriverScript {
    /** How long every run would be if the driver drove again at once. */
    private static final int TICKS = 3_600;

    private static final int REST_TICKS = 100;

    private static final double START_SOC = 0.6;
    private static final double NEARLY_FULL_SOC = 0.985;

    private record Move(int tick, Lever lever, double to) {}

    private final List<Move> moves = new ArrayList<>();
    private int next;

    /** How long every run of a vehicle is. */
    public static int ticks(Vehicle vehicle) {
        return TICKS + countingTicks(vehicle);
    }

    /**
     * The driver leaves the car alone until poles that should be open have counted as harm. A driver who comes back earlier never
     * learns of them.
     */
    private static int countingTicks(Vehicle vehicle) {
        double countingS = Harm.POLES_LEFT_CLOSED.limit(vehicle);
        return (int) Math.ceil(countingS * 1000 / vehicle.get(Parameter.LOOP_TICK_MS));
    }

    /** Makes the moves that suit what the car does, and writes them down. */
    void watch(int tick, SimulatedCar car, FaultRig s, int ticksInState, boolean charging) {
        if (tick == 0) {
            move(tick, car, Lever.SOC, START_SOC);
        }
        if (charging) {
            plugIn(tick, car, s, ticksInState);
        } else {
            drive(tick, car, s, ticksInState);
        }
    }

    private void drive(int tick, SimulatedCar car, FaultRig s, int ticks) {
        boolean second = tick > TICKS / 2 && ticks == REST_TICKS + countingTicks(car.vehicle());
        if (s.state() == State.OFF && (tick == 60 || second)) {
            move(tick, car, Lever.KEY, 1);
            move(tick, car, Lever.BRAKE, 0.4);
        }
        if (s.state() == State.IGNITION && ticks == 50) {
            move(tick, car, Lever.START, 1);
        }
        if (s.state() == State.PRECHARGE && ticks == 3) {
            move(tick, car, Lever.START, 0);
        }
        if (s.state() == State.DRIVE_ENABLE) {
            onTheRoad(tick, car, ticks);
        }
    }

    private void onTheRoad(int tick, SimulatedCar car, int ticks) {
        switch (ticks) {
            case 30 -> move(tick, car, Lever.DIRECTION, 1);
            case 60 -> move(tick, car, Lever.BRAKE, 0);
            case 80 -> move(tick, car, Lever.PEDAL, 0.5);
            case 400 -> move(tick, car, Lever.PEDAL, 0.3);
            case 600 -> move(tick, car, Lever.PEDAL, 0);
            case 700 -> move(tick, car, Lever.BRAKE, 0.5);
            case 1100 -> move(tick, car, Lever.DIRECTION, 0);
            case 1120 -> move(tick, car, Lever.KEY, 0);
            default -> {}
        }
    }

    private void plugIn(int tick, SimulatedCar car, FaultRig s, int ticks) {
        if (tick == 100) {
            move(tick, car, Lever.PLUG, 1);
        }
        if (s.state() == State.CHARGE_LOCKOUT) {
            switch (ticks) {
                case 1_100 -> move(tick, car, Lever.SOC, NEARLY_FULL_SOC);
                case 2_200 -> endCharge(tick, car);
                case 2_220 -> move(tick, car, Lever.PLUG, 0);
                case 2_230 -> move(tick, car, Lever.LATCH, 0);
                default -> {}
            }
        }
    }

    /** The latch of a type-1 connector announces the pull; with type 2 the person ends the charge at the station. */
    private void endCharge(int tick, SimulatedCar car) {
        move(tick, car, Lever.LATCH, 1);
        if (car.vehicle().is(Parameter.INLET_KIND, "type-2")) {
            move(tick, car, Lever.STATION_LIMIT_A, 0);
        }
    }

    private void move(int tick, SimulatedCar car, Lever lever, double to) {
        moves.add(new Move(tick, lever, to));
        car.levers().set(lever, to);
    }

    /** A copy that starts from the first move. */
    DriverScript again() {
        DriverScript copy = new DriverScript();
        copy.moves.addAll(moves);
        return copy;
    }

    /** Makes the moves that were written down for a tick. */
    void follow(int tick, SimulatedCar car) {
        while (next < moves.size() && moves.get(next).tick() <= tick) {
            Move move = moves.get(next++);
            car.levers().set(move.lever(), move.to());
        }
    }
}
