package sprag.supervisor;

import java.util.Random;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * A car whose driver does anything and whose sensors lie in episodes: not a number, infinite, out of range, stuck, jumping.
 * The plant of the {@link Rig} goes on answering behind the lies. Everything follows from the seed.
 */
public final class NastyCar {
    private static final Signal[] SIGNALS = Signal.values();
    private static final double[] ODD = {
        Double.NaN,
        Double.POSITIVE_INFINITY,
        Double.NEGATIVE_INFINITY,
        0,
        -0.0,
        0.5,
        1,
        Double.MAX_VALUE,
        -Double.MAX_VALUE,
        Double.MIN_VALUE
    };

    public final Rig rig;
    private final Random random;
    private final double liesPerTick;
    private int lies;
    private boolean lied;
    private final int[] leftTicks = new int[Signal.COUNT];
    private final int[] kind = new int[Signal.COUNT];
    private final double[] held = new double[Signal.COUNT];
    private final double[] honest = new double[Signal.COUNT];

    public NastyCar(long seed) {
        this(seed, new Rig());
    }

    public NastyCar(long seed, Rig rig) {
        this.rig = rig;
        random = new Random(seed);
        double[] intensities = {0, 0.005, 0.02, 0.1, 5};
        liesPerTick = intensities[random.nextInt(intensities.length)];
        rig.meddle = this::lie;
        if (random.nextInt(4) > 0) {
            begin();
        }
    }

    /** Most runs begin in a drive, or most of them would never get there. */
    private void begin() {
        rig.meddle = () -> {};
        rig.at(random.nextInt(3) == 0 ? State.PRECHARGE : State.DRIVE_ENABLE);
        rig.meddle = this::lie;
    }

    public void tick() {
        if (lied) {
            for (Signal signal : SIGNALS) {
                rig.in.set(signal, honest[signal.ordinal()]);
            }
        }
        drive();
        rig.run(1);
    }

    private void drive() {
        switch (random.nextInt(200)) {
            case 0 -> rig.given(Signal.KEY_ON, random.nextInt(5) > 0 ? 1 : 0);
            case 1 -> rig.given(Signal.START_REQUEST, random.nextInt(2));
            case 2, 3 -> rig.given(Signal.BRAKE_PRESSED, random.nextInt(4) > 0 ? 0 : 1);
            case 4, 5, 6, 7 -> rig.pedal(random.nextDouble());
            case 8, 9, 10 -> rig.pedal(0);
            case 11 -> rig.given(Signal.FORWARD_SWITCH, 1).given(Signal.REVERSE_SWITCH, 0);
            case 12 -> rig.given(Signal.FORWARD_SWITCH, 0).given(Signal.REVERSE_SWITCH, random.nextInt(2));
            case 13, 14 -> rig.jumpKph(random.nextDouble() * 6 - 3);
            case 15 -> rig.jumpKph(random.nextDouble() * 150 - 20);
            case 16, 17 -> rig.jumpKph(0);
            case 18 -> rig.given(Signal.REGEN_LEVEL, random.nextInt(5));
            case 19 -> rig.given(Signal.PLUG_PRESENT, random.nextInt(10) == 0 ? 1 : 0);
            case 20 -> rig.given(Signal.SERVICE_RESET, random.nextInt(2));
            case 21 -> rig.given(Signal.PACK_CURRENT_A, random.nextInt(8) == 0 ? random.nextDouble() * 500 - 200 : 0);
            case 22 -> rig.given(Signal.CUT_LOOP_CLOSED, random.nextInt(10) == 0 ? 0 : 1);
            default -> {}
        }
    }

    private void lie() {
        for (double more = liesPerTick; more >= 1 || random.nextDouble() < more; more--) {
            beginLie(SIGNALS[random.nextInt(SIGNALS.length)]);
        }
        lied = lies > 0;
        if (!lied) {
            return;
        }
        for (Signal signal : SIGNALS) {
            int i = signal.ordinal();
            honest[i] = rig.in.get(signal);
            if (leftTicks[i] > 0) {
                lies -= --leftTicks[i] == 0 ? 1 : 0;
                rig.in.set(signal, lie(signal));
            }
        }
    }

    private void beginLie(Signal signal) {
        int i = signal.ordinal();
        lies += leftTicks[i] == 0 ? 1 : 0;
        leftTicks[i] = 1 + random.nextInt(random.nextInt(3) == 0 ? 150 : 4);
        kind[i] = random.nextInt(5);
        held[i] = within(signal);
    }

    private double lie(Signal signal) {
        int i = signal.ordinal();
        return switch (kind[i]) {
            case 0 -> Double.NaN;
            case 1 -> ODD[random.nextInt(ODD.length)];
            case 2 -> held[i];
            case 3 -> within(signal);
            default -> honest[i] * (1 + (random.nextDouble() - 0.5) * 0.2);
        };
    }

    private double within(Signal signal) {
        if (signal.isSwitch()) {
            return random.nextInt(2);
        }
        double span = signal.max - signal.min;
        return signal.min + (random.nextDouble() * 1.4 - 0.2) * span;
    }
}
