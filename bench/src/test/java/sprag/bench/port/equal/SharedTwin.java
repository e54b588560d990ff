package sprag.bench.port.equal;

import java.nio.file.Path;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Settings;

/** The supervisor in C, its code compiled once for all tests: only the data differs between vehicles. */
final class SharedTwin {
    private static Compiled code = Compiled.NOTHING;

    private SharedTwin() {}

    /** What is compiled so far. */
    static synchronized Compiled code() {
        return code;
    }

    static Twin of(Vehicle vehicle, Path folder) throws BadInput {
        return of(vehicle.settings(), folder);
    }

    static synchronized Twin of(Settings settings, Path folder) throws BadInput {
        Twin twin = Twin.compile(SharedTranslation.whole(), settings, folder, code);
        code = code == Compiled.NOTHING ? twin.compiled() : code;
        return twin;
    }
}
