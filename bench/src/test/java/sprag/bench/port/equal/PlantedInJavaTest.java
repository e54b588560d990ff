package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.ChangedClasses;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.ChangedSources;
import sprag.bench.port.translate.StateCell;
import sprag.bench.port.translate.Translation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** No rule is written in C: what somebody does wrong in the Java, the C does wrong too. What only one of them does wrong is found. */
class PlantedInJavaTest {
    private static final ChangedSources.Change WEAKER =
            new ChangedSources.Change("drive/PedalMap.java", "/ (1 - coast)", "/ (1.25 - coast)");

    @Test
    @Tag("long")
    void mistakeInTheJava_movesToTheC_andInOneOfThemAloneIsFound(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        Path sources = ChangedSources.write(folder.resolve("home"), WEAKER);
        Path classes = compileJava(sources, folder.resolve("classes"));
        Vehicle van = van();
        Twin sound = SharedTwin.of(van, folder.resolve("sound"));
        Compiled code = SharedTwin.code();
        List<?> told = (List<?>) new ChangedClasses(classes)
                .loadClass(Trial.class.getName())
                .getMethod("run", Path.class, Path.class, Map.class, Map.class)
                .invoke(null, folder.resolve("home"), folder, code.files(), code.objects());
        assertEquals("", told.get(0), "both have the mistake");
        assertDiffer((String) told.get(1));
        Path mistaken = folder.resolve(Trial.MISTAKEN);
        assertEquals("", differs(drive(van, sound.cells()), sound.cells(), sound.folder()), "neither has it");
        assertDiffer(differs(drive(van, sound.cells()), sound.cells(), mistaken));
    }

    /** The first tick with torque. */
    private static void assertDiffer(String told) {
        assertTrue(told.matches("drive-and-stop, tick \\d+.*: .* in Java and .* in C"), told);
    }

    private static Path compileJava(Path sources, Path classes) throws IOException {
        Files.createDirectories(classes);
        String file = ChangedSources.file(sources, WEAKER).toString();
        String[] words = {"-proc:none", "-implicit:none", "-sourcepath", sources.toString(), "-d", classes.toString()};
        List<String> all = new ArrayList<>(List.of(words));
        all.add(file);
        int status = ToolProvider.getSystemJavaCompiler().run(null, null, null, all.toArray(String[]::new));
        assertEquals(0, status, "the changed source does not compile");
        return classes;
    }

    private static Vehicle van() throws Exception {
        return VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
    }

    private static List<Batch> drive(Vehicle vehicle, List<StateCell> cells) throws Exception {
        List<Batch> drive = new ArrayList<>();
        Scenario scenario = new ScenarioFiles(Catalogue.installed(), vehicle)
                .take(List.of("drive-and-stop"))
                .get(0);
        new Material(vehicle, cells, drive::add).play(scenario, 0);
        return drive;
    }

    /** The first difference between what the Java has decided and the C that was compiled into a folder; empty for none. */
    private static String differs(List<Batch> drive, List<StateCell> cells, Path compiled) {
        try (HostProgram program = HostProgram.start(compiled)) {
            Comparison comparison = new Comparison(program, cells);
            return drive.stream()
                    .map(comparison::differs)
                    .flatMap(Optional::stream)
                    .findFirst()
                    .orElse("");
        }
    }

    /** What runs with the changed Java in place of the sound one. */
    public static final class Trial {
        static final String MISTAKEN = "mistaken";

        private Trial() {}

        /** Plays a drive in the changed Java.
         *
         * @param home with the changed sources
         * @param folder where the C of the sound sources is compiled
         * @param files the C of the sound sources
         * @param objects what was compiled of it
         * @return the first difference from the C of the changed sources, and that from the C of the sound ones
         */
        public static List<String> run(Path home, Path folder, Map<String, String> files, Map<String, byte[]> objects)
                throws Exception {
            Vehicle van = van();
            Twin mistaken = Twin.compile(
                    new Translation(home, false),
                    van.settings(),
                    folder.resolve(MISTAKEN),
                    new Compiled(files, objects));
            List<Batch> drive = drive(van, mistaken.cells());
            return List.of(
                    differs(drive, mistaken.cells(), mistaken.folder()),
                    differs(drive, mistaken.cells(), folder.resolve("sound")));
        }
    }
}
