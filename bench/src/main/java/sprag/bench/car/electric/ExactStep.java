package sprag.bench.car.electric;

/**
 * The exact solution of C dV/dt = J - G V over one step in which everything but the voltage stands still.
 *
 * <p>V(t) = towards + away exp(-t G/C), with towards = J/G. The integrals of current, of its square and of power follow from
 * it.
 */
final class ExactStep {
    /** A smaller voltage counts as 0. It also keeps the arithmetic away from the smallest numbers, which are slow. */
    private static final double NOTHING_V = 1e-9;

    private double siemens = -1;
    private double capacitanceF;
    private double durationS = -1;
    private double keptShare;
    private double decayS;
    private double squareDecayS;
    private double towardsV;
    private double awayV;

    /** One over the conductance, and one over the duration of the step. */
    double ohm;

    double perStep;
    /** Integrals over the step of the voltage and of its square. */
    double voltSeconds;

    double squareVoltSeconds;

    /** Computes what depends on conductance, capacitance and duration only, and so changes seldom. */
    void prepare(double atSiemens, double atF, double dtS) {
        if (atSiemens != siemens || dtS != durationS || atF != capacitanceF) {
            siemens = atSiemens;
            capacitanceF = atF;
            durationS = dtS;
            ohm = 1 / siemens;
            perStep = 1 / dtS;
            keptShare = StrictMath.exp(-dtS * siemens / capacitanceF);
            double timeS = capacitanceF / siemens;
            decayS = timeS * (1 - keptShare);
            squareDecayS = timeS / 2 * (1 - keptShare * keptShare);
        }
    }

    /** Solves the step and returns the voltage at its end. */
    double solve(double startV, double endlessV) {
        towardsV = endlessV;
        awayV = startV - endlessV;
        voltSeconds = integral(towardsV, awayV);
        squareVoltSeconds = integralOfSquare(towardsV, awayV);
        double endV = towardsV + awayV * keptShare;
        return endV > NOTHING_V ? endV : 0;
    }

    /** The part that stays of a current (source - V(t)) * conductance, and the part that decays. */
    double lastingA(double sourceV, double throughSiemens) {
        return (sourceV - towardsV) * throughSiemens;
    }

    double decayingA(double throughSiemens) {
        return -awayV * throughSiemens;
    }

    /** The integral over the step of what is the sum of a lasting and a decaying part. */
    double integral(double lasting, double decaying) {
        return lasting * durationS + decaying * decayS;
    }

    double integralOfSquare(double lasting, double decaying) {
        return lasting * lasting * durationS + 2 * lasting * decaying * decayS + decaying * decaying * squareDecayS;
    }
}
