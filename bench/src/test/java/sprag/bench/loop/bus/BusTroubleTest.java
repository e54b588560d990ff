package sprag.bench.loop.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.bus.FarPair.Trouble;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.MixedDevice;
import sprag.hal.board.BoardBench;
import sprag.hal.bus.BusDriver;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.State;

/**
 * Hazard H14: an armed bus of the van, with an adapter that speaks the serial-line protocol, in virtual time. In each state of the
 * supervisor something goes wrong on the line.
 */
class BusTroubleTest {
    private static final long TROUBLE_LASTS_MS = 800;
    /** The longest time-out of what is received, one turn and one tick. */
    private static final long RELEASED_WITHIN_MS = 170;

    private static final long LATEST_MS = 14_000;
    private static final long ARM_MS = 300;

    private final Random random = new Random(0);

    private static Vehicle van;
    private static BusFile bus;

    private BoardBench bench;
    private FarPair pair;
    private ClosedLoop loop;
    private State wanted;
    private Runnable whatGoesWrong;
    private long beganMs = -1;
    private State stateThen;

    @BeforeAll
    static void read() throws BadInput {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        bus = BusReader.read(Catalogue.installed().bus("van-pair"), van);
    }

    static Stream<Arguments> everyStateAndTrouble() {
        return Stream.of(State.values())
                .flatMap(state -> Stream.of(Trouble.values()).map(trouble -> Arguments.of(state, trouble)));
    }

    private void build(State state, long seed) {
        random.setSeed(seed);
        SimulatedCar car = new SimulatedCar(van, seed);
        bench = new BoardBench(
                new BusDriver(bus.map()),
                bus.map().pins(),
                Map.of(),
                clock -> pair = new FarPair(clock, bus.map(), car, seed));
        bench.killLoop(); // the loop below samples and commands instead
        loop = new ClosedLoop(car, new MixedDevice(bench.board, car), bench.clock, EnumSet.noneOf(Interlock.class));
        wanted = state;
        bench.clock.every(1, pair::speak);
        bench.clock.every(10, this::tick);
        bench.armAt(ARM_MS);
        prepare(state);
    }

    private void move(long ms, Lever lever, double to) {
        bench.at(ms, () -> loop.car().levers().set(lever, to));
    }

    /** What leads to a state. */
    private void prepare(State state) {
        if (state == State.CHARGE_LOCKOUT) {
            move(500, Lever.PLUG, 1);
        } else if (state != State.OFF) {
            move(500, Lever.KEY, 1);
            move(1000, Lever.BRAKE, 0.3);
            move(1000, Lever.DIRECTION, 1);
            move(1200, Lever.START, state == State.IGNITION ? 0 : 1);
            move(1600, Lever.START, 0);
            move(3200, Lever.BRAKE, 0);
            move(3200, Lever.PEDAL, 0.4);
            move(4200, state == State.FAULT ? Lever.CUT_LOOP : Lever.KEY, state == State.DRIVE_ENABLE ? 1 : 0);
        }
    }

    /** The moment: in the state, with current flowing where current can flow, and some ticks later. */
    private boolean isTheMoment() {
        boolean flows = wanted == State.CHARGE_LOCKOUT
                ? loop.commands().get(Output.CHARGER_2_LIMIT_A) > 5
                : wanted != State.DRIVE_ENABLE || loop.commands().get(Output.TORQUE_REQUEST_NM) > 5;
        return loop.state() == wanted && nowMs() > 600 && flows && random.nextInt(4) == 0;
    }

    private long nowMs() {
        return (bench.clock.nowNs() - 1_000_000_000L) / 1_000_000;
    }

    private void tick() {
        loop.tick();
        if (beganMs < 0 && isTheMoment()) {
            beganMs = nowMs();
            stateThen = loop.state();
            whatGoesWrong.run();
            bench.at(TROUBLE_LASTS_MS, bench.board::close);
        }
    }

    private void play(Runnable trouble) {
        whatGoesWrong = trouble;
        bench.runMs(LATEST_MS);
        assertEquals(wanted, stateThen, "the state was reached");
        assertFalse(bench.said("Exception"), () -> "" + bench.healths);
    }

    @ParameterizedTest(name = "{0} {1}")
    @MethodSource("everyStateAndTrouble")
    void armedInAnyState_trouble_outputsAreReleased(State state, Trouble trouble) {
        build(state, 1 + state.ordinal() * 31L + trouble.ordinal());
        play(() -> pair.begin(trouble));
        assertEquals(List.of(), pair.notReleased(), "the last frame of each message of the supervisor");
        assertFalse(pair.adapter.sent.isEmpty(), "it was armed");
        if (trouble.losesTheLink) {
            assertTrue(
                    pair.lastDrivenMs() <= beganMs + RELEASED_WITHIN_MS,
                    () -> "still driven " + (pair.lastDrivenMs() - beganMs) + " ms after");
            assertReleased();
        }
    }

    @ParameterizedTest
    @MethodSource("states")
    void armedInAnyState_cablePulled_supervisorReleasesAndNothingHangs(State state) {
        build(state, 100 + state.ordinal());
        play(() -> bench.port.unplug());
        assertTrue(bench.said("memory is gone") || bench.said("memory is not there"), () -> "" + bench.healths);
        assertReleased();
    }

    @ParameterizedTest
    @MethodSource("states")
    void armedInAnyState_lineTakesNothingMore_supervisorReleasesAndNothingHangs(State state) {
        build(state, 200 + state.ordinal());
        play(() -> bench.port.stopTaking());
        assertReleased();
    }

    static Stream<State> states() {
        return Stream.of(State.values());
    }

    /** What the supervisor asks for when the board was last sampled. */
    private void assertReleased() {
        assertEquals(0, loop.commands().get(Output.TORQUE_REQUEST_NM));
        assertEquals(0, loop.commands().get(Output.CHARGER_1_LIMIT_A));
        assertEquals(0, loop.commands().get(Output.CHARGER_2_LIMIT_A));
        assertFalse(loop.commands().isOn(Output.CHARGER_ENABLE));
        assertFalse(loop.commands().isOn(Output.POSITIVE_CONTACTOR), "in state " + loop.state());
    }
}
