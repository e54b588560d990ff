package sprag.bench.loop;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.Levers;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;

/**
 * H03, closed loop: the motor's speed sensor fails at moments all through a drive whose driver then chooses reverse while the car
 * rolls, with the pedal pressed. No torque works against the rolling direction.
 */
class SpeedFaultGridTest {
    /** A coarse grid: moments after the car began to drive, in ticks. */
    private static final int GRID_TICKS = 75;

    private static final int LAST_TICK = 375;
    private static final int REVERSE_TICK = 300;
    private static final int END_TICK = 800;
    /** Above this torque of the other direction is no hill start; as the campaign judges it. */
    private static final double ROLLS_KPH = 6;
    /** Longer than this is not the fall of a torque that was there before. */
    private static final int FALL_TICKS = 25;

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        "parcel-van, motor_speed_rpm.open", "parcel-van, motor_speed_rpm.stuck", "parcel-van, motor_speed_rpm.bias",
        "coupe, motor_speed_rpm.open", "coupe, motor_speed_rpm.stuck", "coupe, motor_speed_rpm.bias",
        "yard-cart, motor_speed_rpm.open", "yard-cart, motor_speed_rpm.stuck", "yard-cart, motor_speed_rpm.bias"
    })
    void speedFails_reverseChosenWhileRolling_noTorqueAgainstTheRoll(String name, String fault) throws Exception {
        Vehicle vehicle = VehicleReader.read(Path.of("../config/vehicles", name));
        for (int at = 0; at <= LAST_TICK; at += GRID_TICKS) {
            int against = againstTicks(vehicle, fault, at, Set.of());
            assertTrue(
                    against <= FALL_TICKS, fault + " at tick " + at + ": against the roll for " + against + " ticks");
        }
    }

    /** So that the test above can fail. */
    @Test
    void directionGuardTakenOut_torqueWorksAgainstTheRoll() throws Exception {
        Vehicle coupe = VehicleReader.read(Path.of("../config/vehicles/coupe"));
        int against = againstTicks(coupe, "motor_speed_rpm.open", END_TICK, EnumSet.of(Interlock.DIRECTION_ROLLING));
        assertTrue(against > FALL_TICKS, against + " ticks");
    }

    private static void run(ClosedLoop loop, int ticks) {
        for (int i = 0; i < ticks; i++) {
            loop.tick();
        }
    }

    /** For how many ticks torque works against the rolling direction after reverse was chosen. */
    private static int againstTicks(Vehicle vehicle, String fault, int at, Set<Interlock> without) {
        SimulatedCar car = new SimulatedCar(vehicle, 1);
        ClosedLoop loop = new ClosedLoop(car, car, new TickClock(), without);
        Levers levers = loop.car().levers();
        levers.set(Lever.BRAKE, 0.3);
        run(loop, 50);
        levers.set(Lever.KEY, 1);
        levers.set(Lever.DIRECTION, 1);
        run(loop, 50);
        levers.set(Lever.START, 1);
        LogicState s = loop.supervisor().state();
        for (int i = 0; i < 1000 && s.state() != State.DRIVE_ENABLE; i++) {
            loop.tick();
        }
        levers.set(Lever.START, 0);
        run(loop, 20);
        levers.set(Lever.BRAKE, 0);
        run(loop, 20);
        levers.set(Lever.PEDAL, 0.6);
        double slackNm = 0.05 * vehicle.get(Parameter.DRIVE_TORQUE_NM);
        int against = 0;
        for (int tick = 0; tick < END_TICK; tick++) {
            if (tick == at) {
                loop.car().faults().inject(FaultSpec.parse(fault, vehicle));
            }
            if (tick == REVERSE_TICK) {
                levers.set(Lever.PEDAL, 0);
                levers.set(Lever.DIRECTION, -1);
            }
            if (tick == REVERSE_TICK + 20) {
                levers.set(Lever.PEDAL, 0.6);
            }
            loop.tick();
            double kph = loop.car().truth(Quantity.SPEED_KPH);
            double alongNm = loop.car().truth(Quantity.MOTOR_TORQUE_NM) * Math.signum(kph);
            boolean wrong = tick > REVERSE_TICK && kph > ROLLS_KPH && alongNm < -slackNm;
            against += wrong ? 1 : 0;
        }
        return against;
    }
}
