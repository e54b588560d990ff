package sprag.bench.port.equal;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.port.translate.StateCell;
import sprag.bench.port.translate.Translation;
import sprag.supervisor.vocabulary.Settings;

/** The supervisor of one vehicle in C, compiled for this machine, and what is needed to compare it with the Java.
 *
 * @param settings the values of the vehicle
 * @param cells what a supervisor remembers
 * @param files the sources in C
 * @param folder where they were compiled
 */
record Twin(Settings settings, List<StateCell> cells, Map<String, String> files, Path folder) {
    /** Compiles it. */
    static Twin compile(Translation translation, Settings settings, Path folder) {
        return compile(translation, settings, folder, Compiled.NOTHING);
    }

    /** Compiles what is not compiled already. */
    static Twin compile(Translation translation, Settings settings, Path folder, Compiled before) {
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(settings));
        files.putAll(translation.fieldFiles(settings));
        HostProgram.compile(folder, files, before);
        return new Twin(settings, translation.stateCells(settings), files, folder);
    }

    /** What was compiled, for another one. */
    Compiled compiled() {
        Map<String, String> all = new LinkedHashMap<>(files);
        all.putAll(HostProgram.program());
        return Compiled.in(folder, all);
    }

    /** Ticks that begin with what those of a tape have left behind, changed. */
    List<Cases> cases(List<Batch> tape, int count) {
        List<Cases> cases = new ArrayList<>();
        new MadeUpMemory(this, tape).make(count, 17, cases::add);
        return cases;
    }
}
