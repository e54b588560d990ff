package sprag.bench.port.translate;

import sprag.bench.vehicle.Problem;

/** A place in the sources that cannot be carried to C. Caught once a method, so that all such places are told together. */
final class Refused extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient Problem problem;

    Refused(Problem problem) {
        super(problem.message());
        this.problem = problem;
    }

    Problem problem() {
        return problem;
    }
}
