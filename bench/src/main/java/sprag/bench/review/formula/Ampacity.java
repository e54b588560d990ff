package sprag.bench.review.formula;

import java.util.Arrays;

/**
 * The lasting current of a copper conductor by 33 CFR 183.425, table 5: one insulated stranded conductor in air of 30 °C.
 *
 * <p>Between two sizes and between two ratings of the insulation the value lies on a straight line. Real conductors lie on or
 * above such a line, because the current grows ever less with size and with temperature. Nothing is prolonged: a conductor
 * above 4/0 counts as 4/0, insulation above 200 °C as 200 °C, air below 30 °C as 30 °C. The table has steps of 5 A, so it is
 * not smooth.
 *
 * <p>Notes 1 (warm air) and 2 (bundles) of the table are known second-hand only; the files beside this class say from where.
 */
public final class Ampacity {
    /** What calculations cite. */
    public static final String SOURCE =
            "33 CFR 183.425, table 5, straight lines between its sizes and ratings; warm air by its note 1,"
                    + " bundles by its note 2 (both notes second-hand)";
    /** The air that the table is made for (°C). */
    public static final double TABLE_AIR_C = 30;
    /** The air that note 1 is made for (°C). */
    public static final double ENGINE_SPACE_C = 50;

    private static final PublishedTable TABLE = PublishedTable.read("cfr183-425-table5.csv");
    private static final double[] RATING_C = TABLE.headings();
    private static final double[] SIZE_MM2 = Arrays.stream(TABLE.column(0))
            .map(gauge -> Conductor.awgMm2((int) gauge))
            .toArray();
    /** The largest size of the table: 4/0, 107.2 mm². */
    public static final double LARGEST_MM2 = SIZE_MM2[SIZE_MM2.length - 1];

    private static final double[] NOTE_1 =
            PublishedTable.read("cfr183-425-note1.csv").column(1);
    private static final PublishedTable NOTE_2 = PublishedTable.read("cfr183-425-note2.csv");
    private static final double[] BUNDLED_FROM = NOTE_2.column(0);
    private static final double[] BUNDLED_FACTOR = NOTE_2.column(1);

    private Ampacity() {}

    /**
     * The greatest lasting current. 4 AWG, 105 °C, 30 °C, alone gives the table's 160 A; in air of 50 °C 0.85 of it.
     *
     * <p>Ignores cooling by wind and heat from the terminals.
     *
     * @param sizeMm2 cross-section (mm²), greater than 0
     * @param insulationC what the insulation stands (°C), 60 or more
     * @param bundled current-carrying conductors that lie together, itself included
     * @return current (A); 0 when the air is as hot as the insulation may be
     */
    public static double ampacityA(double sizeMm2, double insulationC, double airC, double bundled) {
        return tableA(sizeMm2, insulationC) * airFactor(insulationC, airC) * bundleFactor(bundled);
    }

    /** Below 18 AWG, the smallest size, the current is taken in proportion to the copper: real wires carry more than that. */
    private static double tableA(double sizeMm2, double insulationC) {
        double[] byRatingA = new double[RATING_C.length];
        for (int i = 0; i < RATING_C.length; i++) {
            byRatingA[i] = PublishedTable.between(SIZE_MM2, TABLE.column(i + 1), sizeMm2);
        }
        return PublishedTable.between(RATING_C, byRatingA, insulationC) * Math.min(1, sizeMm2 / SIZE_MM2[0]);
    }

    /**
     * What warm air leaves of the current: 1 up to 30 °C, the factor of note 1 at 50 °C, a straight line between. Above 50 °C
     * the table says nothing. From there the line falls to 0 where the air is as hot as the insulation may be, which is on
     * the safe side: the heat that a conductor sheds falls with the rise above the air, and the current with its square root.
     */
    static double airFactor(double insulationC, double airC) {
        double note1 = PublishedTable.between(RATING_C, NOTE_1, insulationC);
        if (airC <= ENGINE_SPACE_C) {
            return 1 + (note1 - 1) * Math.max(0, airC - TABLE_AIR_C) / (ENGINE_SPACE_C - TABLE_AIR_C);
        }
        return note1 * Math.max(0, insulationC - airC) / (insulationC - ENGINE_SPACE_C);
    }

    /**
     * What lying together leaves of the current: nothing is lost by two, 3 have 0.7, 4 to 6 0.6, 7 to 24 0.5, more 0.4.
     * The regulation asks for it from 50 V on; here it counts at every voltage, because the heat does not know the
     * voltage. Returns a factor of 1 or less.
     */
    static double bundleFactor(double bundled) {
        double factor = 1;
        for (int i = 0; i < BUNDLED_FROM.length; i++) {
            // A part of a conductor is a mistake of the file: it counts as a whole one.
            factor = Math.ceil(bundled) >= BUNDLED_FROM[i] ? BUNDLED_FACTOR[i] : factor;
        }
        return factor;
    }
}
