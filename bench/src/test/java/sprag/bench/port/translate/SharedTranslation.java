package sprag.bench.port.translate;

import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;

/** The supervisor in C, translated once for all tests. */
public final class SharedTranslation {
    private static Translation whole;
    private static Translation single;

    private SharedTranslation() {}

    /** In double precision. */
    public static synchronized Translation whole() throws BadInput {
        if (whole == null) {
            whole = new Translation(Catalogue.installed().home(), false);
        }
        return whole;
    }

    /** In single precision. */
    public static synchronized Translation single() throws BadInput {
        if (single == null) {
            single = new Translation(Catalogue.installed().home(), true);
        }
        return single;
    }
}
