package sprag.bench.review.formula;

import java.util.Arrays;

/** Ratings of fuses that are sold; common practice. */
public final class FuseRatings {
    private static final double[] SOLD_A = {
        1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500,
        600
    };

    private FuseRatings() {}

    /** The smallest rating of at least this current (A); the largest that is sold when none is. */
    public static double atLeast(double currentA) {
        return Arrays.stream(SOLD_A)
                .filter(sold -> sold >= currentA)
                .findFirst()
                .orElse(SOLD_A[SOLD_A.length - 1]);
    }
}
