package sprag.bench.port.translate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.Tool;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Settings;

/** The whole module goes to C, compiles without a warning, and nothing that C would take otherwise gets through. */
class TranslationTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();
    private static final List<String> STRICT = List.of(
            "-fsyntax-only",
            "-std=c99",
            "-Wall",
            "-Wextra",
            "-Wconversion",
            "-pedantic",
            "-Werror",
            "-ffp-contract=off",
            "-fwrapv");

    private static Translation whole;

    @BeforeAll
    static void translate() throws BadInput {
        whole = SharedTranslation.whole();
    }

    private static Settings settings(String vehicle) throws Exception {
        return VehicleReader.read(CATALOGUE.vehicle(vehicle)).settings();
    }

    private static List<String> write(Translation translation, Path folder) throws Exception {
        Map<String, String> files = new TreeMap<>(translation.code());
        files.put("vehicle.c", translation.data(settings("parcel-van")));
        files.putAll(translation.fieldFiles(settings("parcel-van")));
        for (Map.Entry<String, String> file : files.entrySet()) {
            Files.writeString(folder.resolve(file.getKey()), file.getValue());
        }
        return files.keySet().stream().filter(name -> name.endsWith(".c")).toList();
    }

    /** EqualityTest compiles the same with gcc and lets no warning through. */
    @Test
    void wholeModule_strictClang_hasNoWarning(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.CLANG.find().isPresent(), Tool.CLANG.missing());
        List<String> words = new ArrayList<>(STRICT);
        words.addAll(write(whole, folder));
        assertEquals(new Tool.Ended(0, ""), Tool.CLANG.run(folder, words));
    }

    /** Single precision loses bits without a cast nowhere: the strict compiler would say so. */
    @Test
    void wholeModule_inSinglePrecision_hasNoWarning(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        List<String> words = new ArrayList<>(STRICT);
        words.add("-Wdouble-promotion");
        words.addAll(write(SharedTranslation.single(), folder));
        words.remove("fields.c");
        assertEquals(new Tool.Ended(0, ""), Tool.GCC.run(folder, words));
    }

    @Test
    void staticChecker_findsNothing(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.CPPCHECK.find().isPresent(), Tool.CPPCHECK.missing());
        write(whole, folder);
        // it takes x <= y for the opposite of x > y, which an unknown number refutes
        assertEquals(
                new Tool.Ended(0, ""),
                Tool.CPPCHECK.run(
                        folder,
                        List.of(
                                "--quiet",
                                "--std=c99",
                                "--enable=warning,style,performance,portability",
                                "--inline-suppr",
                                "--suppress=missingIncludeSystem",
                                "--suppress=knownConditionTrueFalse",
                                "--error-exitcode=1",
                                ".")));
    }

    @Test
    void vehicles_shareTheCode_differInTheirDataOnly() throws Exception {
        assertNotEquals(whole.data(settings("parcel-van")), whole.data(settings("coupe")));
        assertEquals(whole.fieldFiles(settings("parcel-van")), whole.fieldFiles(settings("coupe")));
        assertEquals(whole.fieldFiles(settings("parcel-van")), whole.fieldFiles(settings("yard-cart")));
    }

    /** Names, order and comments are those of the Java, so that one can be read beside the other. */
    @Test
    void stateMachine_inC_hasTheExitsOfTheJava() {
        String logic = whole.code().get("logic.c");
        assertTrue(logic.contains("case sprag_State_RUNDOWN:\n        return Logic_rundown(self, f);"), logic);
        assertTrue(logic.contains("/* Torque ramps out, unless an interlock takes it away or has done so"), logic);
        assertTrue(logic.contains("return Logic_giveUp(self, sprag_Transition_STOP_DRIVING, acting, f);"), logic);
    }

    @Test
    void mathematicsOfALibrary_isNotUsed_butForTheExactFunctions() {
        String all = String.join("\n", whole.code().values());
        assertTrue(
                Stream.of("pow(", "exp(", "log(", "sin(", "malloc(", "printf(").noneMatch(all::contains));
    }

    private static List<String> refused(Path folder, ChangedSources.Change... changes) throws IOException {
        ChangedSources.write(folder, changes);
        return assertThrows(BadInput.class, () -> new Translation(folder, false)).problems().stream()
                .map(Problem::message)
                .toList();
    }

    private static void assertTold(List<String> told, String place, String found, String remedy) {
        assertTrue(
                told.stream()
                        .anyMatch(
                                m -> m.matches(".*/" + place + ":\\d+: .*") && m.contains(found) && m.contains(remedy)),
                place + ": \"" + found + "\" with \"" + remedy + "\" is not in " + told);
    }

    /** Each of them compiles as Java. All are told at once. */
    @Test
    void constructsThatCannotGo_areRefusedWithFileLineAndRemedy(@TempDir Path folder) throws Exception {
        List<String> told = refused(
                folder,
                new ChangedSources.Change(
                        "gate/Gate.java",
                        "boolean vetoed = cutLoop(in, c);\n        vetoed |= torque(in, c);",
                        "boolean vetoed = cutLoop(in, c) | torque(in, c);"),
                new ChangedSources.Change("vocabulary/Bounds.java", "if (a > b) {", "if (Math.exp(a) > b) {"),
                new ChangedSources.Change(
                        "logic/Logic.java", "permissions.forbidAll();", "permissions.forbidAll(); new Permissions();"),
                new ChangedSources.Change(
                        "vocabulary/Bounds.java", "if (a < b) {", "while (a > 2 * b) { a = b; }\n if (a < b) {"),
                new ChangedSources.Change(
                        "drive/TorqueShaper.java", "if (sign == 0 ||", "if (p.toString().isEmpty() || sign == 0 ||"));
        assertTold(told, "Gate.java", "one changes what another", "into a variable of its own");
        assertTold(told, "Bounds.java", "the call Math.exp(a)", "last bits");
        assertTold(told, "Logic.java", "this statement", "Use assignments and calls");
        assertTold(told, "Bounds.java", "WHILE_LOOP", "for, switch with arrows");
        assertTold(told, "TorqueShaper.java", "the call p.toString()", "write a method");
        assertEquals(5, told.size(), told.toString());
    }

    @Test
    void methodsThatCallThemselves_areRefused(@TempDir Path folder) throws Exception {
        List<String> told = refused(
                folder,
                new ChangedSources.Change(
                        "vocabulary/Bounds.java", "return b >= a ? b : Double.NaN;", "return greatest(b, a);"));
        assertTold(told, "Bounds.java", "calls itself", "a loop with a fixed end");
    }
}
