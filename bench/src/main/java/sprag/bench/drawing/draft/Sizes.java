package sprag.bench.drawing.draft;

import sprag.bench.cli.Numbers;
import sprag.bench.review.formula.Ampacity;
import sprag.bench.review.formula.Conductor;
import sprag.bench.review.formula.FuseRatings;
import sprag.bench.vehicle.SizingParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** Chooses fuses, conductors and terminal ratings by the calculations of the review. */
final class Sizes {
    /** Sizes that are sold (IEC 60228, and the small ones of vehicle cable). */
    private static final double[] SIZES_MM2 = {0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150};

    private static final double[] RATINGS_V = {80, 150, 250, 450, 600, 1000};
    /** A fuse that carries its load for hours stays cool enough at four fifths of its rating; common practice. */
    private static final double LASTING_SHARE = 1.25;

    private static final double LOW_V = 12;

    private final Vehicle vehicle;
    private final double airC;
    private final double bundled;
    private final double dropShare;

    Sizes(Vehicle vehicle) {
        this.vehicle = vehicle;
        airC = vehicle.get(SizingParameter.CABLE_AMBIENT_C);
        bundled = vehicle.get(SizingParameter.CABLE_BUNDLED);
        dropShare = vehicle.get(SizingParameter.CABLE_DROP_SHARE);
    }

    /** The smallest fuse that carries a current for hours. */
    static double fuseA(double lastingA) {
        return FuseRatings.atLeast(lastingA * LASTING_SHARE);
    }

    /** The fuse between the greatest current of the pack and what the main cable stands. */
    double mainFuseA() {
        return FuseRatings.atLeast(vehicle.get(Parameter.PACK_DISCHARGE_MAX_A));
    }

    /** The main cable of the vehicle's file, or else one that its fuse guards. */
    double mainMm2() {
        double given = vehicle.get(SizingParameter.CABLE_MAIN_MM2);
        return Double.isNaN(given) ? tractionMm2(mainFuseA()) : given;
    }

    double mainA() {
        double given = vehicle.get(SizingParameter.CABLE_LASTING_A);
        return Double.isNaN(given) ? vehicle.get(Parameter.PACK_DISCHARGE_MAX_A) / 2 : given;
    }

    /** A traction conductor that a fuse guards. */
    double tractionMm2(double fuseA) {
        return smallest(fuseA, vehicle.get(SizingParameter.CABLE_INSULATION_C), 0);
    }

    /** What a lone main cable of that size carries where it lies (A). */
    double carriesA(double sizeMm2) {
        return Ampacity.ampacityA(sizeMm2, vehicle.get(SizingParameter.CABLE_INSULATION_C), airC, bundled);
    }

    /** A conductor of the 12 V side: guarded by its fuse, and with little enough drop. */
    double thinMm2(double fuseA, double currentA, double lengthM) {
        double insulationC = vehicle.get(SizingParameter.CABLE_THIN_INSULATION_C);
        double worstOhmMm2 = Conductor.leastOhm(1, 2 * lengthM, insulationC);
        // A quarter below the limit leaves room for what the review counts more carefully.
        double dropMm2 = worstOhmMm2 * currentA / (0.75 * dropShare * LOW_V);
        return smallest(fuseA, insulationC, dropMm2);
    }

    private double smallest(double currentA, double insulationC, double leastMm2) {
        for (double size : SIZES_MM2) {
            if (size >= leastMm2 && Ampacity.ampacityA(size, insulationC, airC, bundled) >= currentA) {
                return size;
            }
        }
        return SIZES_MM2[SIZES_MM2.length - 1];
    }

    /** What parts and terminals of the traction side are rated for. */
    double tractionV() {
        return atLeast(RATINGS_V, vehicle.get(Parameter.PACK_MAX_V) * 1.1);
    }

    private static double atLeast(double[] sold, double wanted) {
        for (double each : sold) {
            if (each >= wanted) {
                return each;
            }
        }
        return sold[sold.length - 1];
    }

    static String text(double number) {
        return Double.isNaN(number) ? "" : Numbers.text(number);
    }
}
