package sprag.bench.speed;

/** The baseline of a simulation: seven coupled first-order equations stepped at 1 ms by the semi-implicit rule, nothing else. */
public final class SevenEquations {
    private static final int STEPS_A_SECOND = 1000;
    private static final double STEP_S = 0.001;

    private final double[] states = new double[7];

    /**
     * Lets time pass; the drive is switched every five seconds.
     *
     * @return a state, so that nothing is optimised away
     */
    public double advance(int seconds) {
        for (int i = 0; i < seconds * STEPS_A_SECOND; i++) {
            double drive = i / 5000 % 2;
            for (int k = 0; k < states.length; k++) {
                double pull = k == 0 ? drive : states[k - 1];
                states[k] = (states[k] + STEP_S * (k + 1) * pull) / (1 + STEP_S * (k + 1));
            }
        }
        return states[6];
    }
}
