package sprag.bench.panel.bench;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Locale;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.panel.session.CarSession;
import sprag.bench.panel.session.Source;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * What a frame holds and where: doubles, least byte first, the head and then one section for each table. The page is told
 * the places once and reads the frame as an array of numbers.
 */
public final class FrameLayout {
    /** The cause is there. */
    public static final int ACTIVE = 1;
    /** It acted in the last tick. */
    public static final int ACTING = 2;
    /** It keeps a start from happening. */
    public static final int BLOCKS_START = 4;
    /** It has set what is latched. */
    public static final int LATCHED = 8;
    /** It is asked in the present state. */
    public static final int ASKED = 16;

    private static final Signal[] SIGNALS = Signal.values();
    private static final Output[] OUTPUTS = Output.values();
    private static final Quantity[] QUANTITIES = Quantity.values();
    private static final Lever[] LEVERS = Lever.values();
    private static final Interlock[] INTERLOCKS = Interlock.values();

    /** The single numbers at the start. */
    public enum Head {
        /** Counts the frames. */
        FRAME,
        /** The time of the car, seconds. */
        TIME_S,
        /** How many ticks have run. */
        TICK,
        /** How fast time passes. */
        SPEED,
        /** 1 while time stands still. */
        PAUSED,
        /** The state, an index. */
        STATE,
        /** The step of the contactors, an index. */
        STEP,
        /** How long it has been in the step, milliseconds. */
        STEP_MS,
        /** The charge phase, an index. */
        CHARGE,
        /** What it takes to leave a fault, an index. */
        LATCHED,
        /** What it takes to get torque back, an index. */
        TORQUE_LATCHED,
        /** The engaged direction, an index. */
        ENGAGED,
        /** Whether torque may follow the pedal, an index. */
        TORQUE,
        /** 1 while torque or current is limited. */
        LIMITED,
        /** Ticks that came late. */
        OVERRUNS,
        /** How much of a scenario has been played, 0 to 1; -1 when none is. */
        PLAYED,
        /** Seconds of real time that could not be kept up with, so far. */
        SLIPPED_S;

        /** The name on the page. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** The sections behind the head. */
    public enum Section {
        /** Readings. */
        SIGNALS(Signal.COUNT),
        /** Where the readings come from, indices into {@link Source}. */
        SOURCES(Signal.COUNT),
        /** How long they stay forced, seconds. */
        FORCED_S(Signal.COUNT),
        /** Commands. */
        OUTPUTS(Output.COUNT),
        /** Truths. */
        QUANTITIES(Quantity.COUNT),
        /** Where the levers stand. */
        LEVERS(Lever.COUNT),
        /** Bits about the interlocks. */
        INTERLOCKS(Interlock.COUNT);

        private final int length;

        Section(int length) {
            this.length = length;
        }

        /** Where it starts. */
        public int offset() {
            int at = Head.values().length;
            for (int i = 0; i < ordinal(); i++) {
                at += values()[i].length;
            }
            return at;
        }

        /** The name on the page. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** How many numbers a frame has. */
    public static final int LENGTH = Section.INTERLOCKS.offset() + Interlock.COUNT;

    private final double[] head = new double[Head.values().length];
    private final double[] numbers = new double[LENGTH];
    private int at;

    /** Sets a number of the head. */
    public void set(Head field, double value) {
        head[field.ordinal()] = value;
    }

    /** Writes a frame: nothing in it changes afterwards. */
    public byte[] write(CarSession session, long nowNs) {
        fill(session, nowNs);
        byte[] bytes = new byte[LENGTH * Double.BYTES];
        ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asDoubleBuffer().put(numbers);
        return bytes;
    }

    /** The numbers of one tick, to be kept. */
    float[] keep(CarSession session, long nowNs, long tick) {
        fill(session, nowNs);
        numbers[Head.TICK.ordinal()] = tick;
        numbers[Head.TIME_S.ordinal()] = tick * session.loop.tickMs() / 1000.0;
        float[] kept = new float[LENGTH];
        for (int i = 0; i < LENGTH; i++) {
            kept[i] = (float) numbers[i];
        }
        return kept;
    }

    private void fill(CarSession session, long nowNs) {
        ClosedLoop loop = session.loop;
        logic(loop);
        System.arraycopy(head, 0, numbers, 0, head.length);
        at = head.length;
        for (Signal signal : SIGNALS) {
            numbers[at++] = loop.readings().get(signal);
        }
        for (Signal signal : SIGNALS) {
            numbers[at++] = session.sourceOf(signal).ordinal();
        }
        for (Signal signal : SIGNALS) {
            numbers[at++] = session.device.leftS(signal, nowNs);
        }
        for (Output output : OUTPUTS) {
            numbers[at++] = loop.commands().get(output);
        }
        for (Quantity quantity : QUANTITIES) {
            numbers[at++] = loop.car().truth(quantity);
        }
        for (Lever lever : LEVERS) {
            numbers[at++] = session.lever(lever);
        }
        State state = loop.state();
        for (Interlock row : INTERLOCKS) {
            numbers[at++] = bits(session, row, state);
        }
    }

    private void logic(ClosedLoop loop) {
        LogicState s = loop.supervisor().state();
        set(Head.TIME_S, loop.timeMs() / 1000.0);
        set(Head.TICK, loop.loop().ticks());
        set(Head.STATE, s.state().ordinal());
        set(Head.STEP, s.step().ordinal());
        set(Head.STEP_MS, s.stepTicks() * loop.tickMs());
        set(Head.CHARGE, s.charge().ordinal());
        set(Head.LATCHED, s.latched().ordinal());
        set(Head.TORQUE_LATCHED, s.torqueLatched().ordinal());
        set(Head.ENGAGED, s.engaged().ordinal());
        set(Head.TORQUE, loop.supervisor().permissions().torque.ordinal());
        set(Head.LIMITED, loop.supervisor().permissions().limited ? 1 : 0);
        set(Head.OVERRUNS, loop.loop().overruns());
    }

    private static int bits(CarSession session, Interlock row, State state) {
        Diagnostics seen = session.loop.supervisor().diagnostics();
        boolean acting = session.loop.acting().contains(row);
        return (seen.isActive(row) || acting ? ACTIVE : 0)
                | (acting ? ACTING : 0)
                | (state == State.IGNITION && seen.blocksStart(row) ? BLOCKS_START : 0)
                | (session.latches.isLatched(row) ? LATCHED : 0)
                | (row.where.contains(state) ? ASKED : 0);
    }
}
