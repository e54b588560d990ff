package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.MixedDevice;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardState;
import sprag.hal.board.firmata.BoardSim;
import sprag.hal.board.firmata.FirmataDriver;
import sprag.hal.board.modbus.ModbusDriver;
import sprag.hal.board.modbus.ModuleSim;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * An armed board is lost and comes back, once in each state of the supervisor, in virtual time. Its outputs stay released until a
 * person arms it again, and the message says so.
 */
@DisplayName("H14, H15: a board that is plugged in again")
class ReplugTest {
    private static final long ARM_MS = 300;
    private static final long TROUBLE_LASTS_MS = 700;
    /** The end of the trouble, the next attempt, the longest greeting of both kinds. */
    private static final long BACK_MS = TROUBLE_LASTS_MS + 2_500;

    /** At the least 32 bytes must have been garbled, and this board sends few. */
    private static final long RELEASED_WITHIN_MS = 600;

    private static final long LATEST_MS = 14_000;

    private static final List<Output> OUTPUTS = List.of(
            Output.NEGATIVE_CONTACTOR,
            Output.PRECHARGE_RELAY,
            Output.POSITIVE_CONTACTOR,
            Output.CHARGER_ENABLE,
            Output.HEARTBEAT);
    private static final List<Integer> FIRMATA_PINS = List.of(4, 5, 6, 7, 8);

    /** What happens to the board, and whether it still hears what is sent while it lasts. */
    private enum Trouble {
        CABLE_PULLED_BOARD_KEEPS_ITS_PINS(false, r -> r.bench.port.unplug()),
        CABLE_PULLED_BOARD_STARTS_ANEW(false, r -> {
            r.bench.port.unplug();
            r.restart();
        }),
        GARBAGE_ON_THE_LINE(true, ReplugTest::garble),
        SILENT(false, ReplugTest::silence),
        REGISTERS_MISSING(false, r -> r.module.exception(2)),
        ANSWERS_BREAK_OFF(true, r -> r.module.half(true)),
        ANOTHER_UNIT_ANSWERS(true, r -> r.module.answersAs(9));

        final boolean hears;
        final Consumer<ReplugTest> begin;

        Trouble(boolean hears, Consumer<ReplugTest> begin) {
            this.hears = hears;
            this.begin = begin;
        }

        boolean suits(Kind kind) {
            return kind == Kind.MODBUS ? this != CABLE_PULLED_BOARD_STARTS_ANEW : compareTo(SILENT) <= 0;
        }
    }

    private enum Kind {
        FIRMATA,
        MODBUS
    }

    private static Vehicle van;

    private BoardBench bench;
    private BoardSim micro;
    private ModuleSim module;
    private ClosedLoop loop;
    private State wanted;
    private Trouble trouble;
    private long beganMs = -1;
    private long drivenAfterMs = -1;
    private BoardState boardBack;
    private BoardState boardArmed;
    private String told = "";
    private boolean everDriven;
    private boolean beatsAgain;
    private boolean closesAgain;

    @BeforeAll
    static void read() throws BadInput {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
    }

    static Stream<Arguments> everyStateAndTrouble() {
        return Stream.of(Kind.values())
                .flatMap(kind -> Stream.of(Trouble.values())
                        .filter(t -> t.suits(kind))
                        .flatMap(t -> Stream.of(State.values()).map(state -> Arguments.of(kind, t, state))));
    }

    private static void garble(ReplugTest r) {
        if (r.micro != null) {
            r.micro.garble(0.3, 7);
        } else {
            r.module.wrongSum(true);
        }
    }

    private static void silence(ReplugTest r) {
        if (r.micro != null) {
            r.micro.freeze(true);
        } else {
            r.module.silent(true);
        }
    }

    private void restart() {
        micro.restart(true);
    }

    private void end() {
        if (micro != null) {
            micro.well();
        } else {
            module.well();
        }
        bench.port.plug();
    }

    private boolean pin(int output) {
        return micro != null ? micro.output(FIRMATA_PINS.get(output)) != 0 : module.coil(output);
    }

    private boolean drives() {
        boolean on = false;
        for (int i = 0; i < OUTPUTS.size(); i++) {
            on |= pin(i);
        }
        return on;
    }

    private void build(Kind kind) {
        SimulatedCar car = new SimulatedCar(van, 1);
        boolean serial = kind == Kind.MODBUS;
        BoardMap map = new BoardMap(
                List.of(
                        BoardBench.switchOn(Signal.KEY_ON, serial ? "discrete:0" : "D2"),
                        BoardBench.switchOn(Signal.BRAKE_PRESSED, serial ? "discrete:1" : "D3")),
                Stream.iterate(0, i -> i < OUTPUTS.size(), i -> i + 1)
                        .map(i -> BoardBench.relay(OUTPUTS.get(i), serial ? "coil:" + i : "D" + FIRMATA_PINS.get(i)))
                        .toList());
        bench = new BoardBench(
                serial ? new ModbusDriver() : new FirmataDriver(),
                map,
                Map.of(BoardSetting.BAUD, 115_200.0, BoardSetting.CONNECT_MS, 1000.0, BoardSetting.RETRY_MS, 200.0),
                clock -> serial ? (module = new ModuleSim(clock, 1)) : (micro = new BoardSim(clock)));
        bench.killLoop(); // the loop below samples and commands instead
        loop = new ClosedLoop(car, new MixedDevice(bench.board, car), bench.clock, EnumSet.noneOf(Interlock.class));
        bench.clock.every(BoardBench.TICK_MS, this::tick);
        bench.armAt(ARM_MS);
    }

    private void hand(Signal signal, int pin, Lever lever, double to) {
        loop.car().levers().set(lever, to);
        boolean on = to > 0;
        if (micro != null) {
            micro.level(pin + 2, on);
        } else {
            module.discrete(pin, on);
        }
        assertTrue(bench.board.samples().contains(signal));
    }

    private void key(boolean on) {
        hand(Signal.KEY_ON, 0, Lever.KEY, on ? 1 : 0);
    }

    private void brake(double share) {
        hand(Signal.BRAKE_PRESSED, 1, Lever.BRAKE, share);
    }

    private void lever(long ms, Lever lever, double to) {
        bench.at(ms, () -> loop.car().levers().set(lever, to));
    }

    /** What leads to a state. */
    private void prepare(State state) {
        if (state == State.CHARGE_LOCKOUT) {
            lever(800, Lever.PLUG, 1);
        } else if (state != State.OFF) {
            bench.at(800, () -> key(true));
            bench.at(1100, () -> brake(0.3));
            lever(1100, Lever.DIRECTION, 1);
            lever(1300, Lever.START, state == State.IGNITION ? 0 : 1);
            lever(1700, Lever.START, 0);
            bench.at(3300, () -> brake(0));
            lever(3600, Lever.PEDAL, 0.4); // later than the board shows the brake released
            if (state == State.FAULT) {
                lever(4300, Lever.CUT_LOOP, 0);
            } else if (state == State.RUNDOWN) {
                bench.at(4300, () -> key(false));
            }
        }
    }

    private boolean isTheMoment() {
        boolean flows = wanted == State.CHARGE_LOCKOUT
                ? loop.commands().isOn(Output.CHARGER_ENABLE)
                : wanted != State.DRIVE_ENABLE || loop.commands().get(Output.TORQUE_REQUEST_NM) > 5;
        return loop.state() == wanted && nowMs() > 600 && flows;
    }

    private long nowMs() {
        return bench.clock.nowNs() / 1_000_000 - 1000;
    }

    private void tick() {
        loop.tick();
        boolean armed = bench.board.state() == BoardState.ARMED;
        everDriven |= armed && drives();
        if (beganMs < 0) {
            if (isTheMoment()) {
                begin();
            }
            return;
        }
        long sinceMs = nowMs() - beganMs;
        if (drives() && sinceMs <= BACK_MS) {
            drivenAfterMs = sinceMs;
        }
        beatsAgain |= armed && sinceMs > BACK_MS && pin(OUTPUTS.indexOf(Output.HEARTBEAT));
        for (int i = 0; i < OUTPUTS.size(); i++) {
            closesAgain |= sinceMs > BACK_MS && OUTPUTS.get(i) != Output.HEARTBEAT && pin(i);
        }
    }

    private void begin() {
        beganMs = nowMs();
        assertEquals(BoardState.ARMED, bench.board.state(), "armed when the trouble begins");
        trouble.begin.accept(this);
        bench.at(TROUBLE_LASTS_MS, this::end);
        bench.at(BACK_MS, () -> {
            boardBack = bench.board.state();
            told = bench.board.health().toString();
            bench.board.requestArm();
        });
        bench.at(BACK_MS + 900, () -> boardArmed = bench.board.state());
        bench.at(BACK_MS + 900, bench.board::close);
    }

    private void play(State state, Kind kind, Trouble what) {
        wanted = state;
        trouble = what;
        build(kind);
        prepare(state);
        bench.runMs(LATEST_MS);
        assertTrue(beganMs > 0, "the state was reached");
        assertTrue(everDriven, "the board was driven: its heartbeat at least");
        assertFalse(bench.said("Exception"), () -> "" + bench.healths);
    }

    @ParameterizedTest(name = "{0}: {1} in {2}")
    @MethodSource("everyStateAndTrouble")
    void armedInAnyState_boardIsLostAndComesBack_staysReleasedUntilAPersonArms(Kind kind, Trouble what, State state) {
        play(state, kind, what);
        assertEquals(BoardState.READY, boardBack, () -> "" + bench.healths);
        assertTrue(told.contains("its outputs stay released until it is armed again"), told);
        long releasedWithinMs = what.hears ? RELEASED_WITHIN_MS : BACK_MS - 100;
        assertTrue(drivenAfterMs <= releasedWithinMs, () -> "still driven after " + drivenAfterMs + " ms");
        assertEquals(BoardState.ARMED, boardArmed, () -> "" + bench.healths);
        assertTrue(beatsAgain, "driven again once it is armed");
        assertFalse(closesAgain, "armed again, yet nobody has turned the key: nothing closes by itself");
    }
}
