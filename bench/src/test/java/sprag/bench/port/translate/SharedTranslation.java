package sprag.bench.port.translate;

import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;

/** The supervisor in C, translated once for all tests. */
public final class SharedTranslation {
    private static Translation whole;

    private SharedTranslation() {}

    /** In double precision. */
    public static synchronized Translation whole() throws BadInput {
        if (whole == null) {
            whole = new Translation(Catalogue.installed().home(), false);
        }
        return whole;
    }
}
