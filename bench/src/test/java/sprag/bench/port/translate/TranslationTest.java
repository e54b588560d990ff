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
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.CompilerWords;
import sprag.bench.port.tool.Tool;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Settings;

/** The whole module goes to C, compiles without a warning, and nothing that C would take otherwise gets through. */
class TranslationTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();
    private static final List<String> STRICT = Stream.of(
                    List.of("-fsyntax-only"), CompilerWords.STRICT, CompilerWords.AS_JAVA)
            .flatMap(List::stream)
            .toList();

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
    @Tag("long")
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
                        "boolean vetoed = cutLoop(in, c);\n        vetoed |= closing(in, c);",
                        "boolean vetoed = cutLoop(in, c) | closing(in, c);"),
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

    /** A statement for the shared class of this test, what is told of it, and the remedy. */
    private record Case(String java, String found, String remedy) {}

    /** All of them compile as Java. In C each would give something else, or nothing that is certain. */
    private static final List<Case> DANGEROUS = List.of(
            new Case("long n = 1; n += a;", "an assignment that narrows", "with the conversion"),
            new Case("int n = 1; n *= a;", "an assignment that narrows", "with the conversion"),
            new Case("byte n = 1; n += 300;", "an assignment that narrows", "with the conversion"),
            new Case("int n = 1; n -= 5L;", "an assignment that narrows", "with the conversion"),
            new Case("long n = (long) a;", "a quantity as long", "to int first"),
            new Case("byte n = (byte) a;", "a quantity as byte", "to int first"),
            new Case("int n = (int) a; int m = 7 / n;", "a division of whole numbers", "by a constant"),
            new Case("int n = (int) a; n /= n;", "a division of whole numbers", "by a constant"),
            new Case("int n = (int) a; int m = n % -1;", "a division of whole numbers", "by a constant"),
            new Case("long n = Math.max(5L, (int) a);", "the call Math.max", "Use Math.abs"),
            new Case("long n = Math.abs(-5L);", "the call Math.abs", "Use Math.abs"),
            new Case("for (int i = 0, j = 0; i < 3; i++) { a += j; }", "a loop that does not count", "for (int i"),
            new Case("int j = 0; for (int i = 0; j < 3; j++) { a += i; }", "a loop that does not count", "for (int i"),
            new Case("for (int i = 0; i < 3; i--) { a += i; }", "a loop that does not count", "for (int i"),
            new Case("for (int i = 0; i < 3; i++) { i--; }", "a loop that does not count", "for (int i"),
            new Case("int n = 3; for (int i = 0; i < n; i++) { n++; }", "a loop that does not count", "for (int i"),
            new Case(
                    "int n = 0; for (int i = n + 1; n < 3; i++) { a += i; }",
                    "a loop that does not count",
                    "for (int i"),
            new Case("for (long i = 0; i < 3; i++) { a += i; }", "a loop that does not count", "for (int i"),
            new Case("for (double i = 0; i < 3; i++) { a += i; }", "a loop that does not count", "for (int i"),
            new Case("switch (State.OFF) { case OFF -> a = 1; }", "a switch that leaves rows out", "List every row"),
            new Case("switch (State.OFF) { case OFF: a = 1; default: }", "a case that falls through", "with an arrow"),
            new Case("switch ((int) a) { case 1 -> a = 1; default -> {} }", "a switch over int", "rows of an enum"),
            new Case("char c = 'x'; a += c;", "a local of type char", "Use numbers"),
            new Case("float f = 1; a += f;", "a local of type float", "Use numbers"),
            new Case("short s = 1; a += s;", "a local of type short", "Use numbers"),
            new Case("String s = \"x\";", "a local of type java.lang.String", "Use numbers"),
            new Case("int n = 'x' + 1;", "'x'", "Use numbers"),
            new Case("int n = 1; n = n++ + n;", "an assignment inside an expression", "of its own"),
            new Case("int n; double x = (n = 2) + n;", "an assignment inside an expression", "plainer"),
            new Case("{ int n = 1; a = n; }", "a block by itself", "Write a method"),
            new Case("do { a = 1; } while (a > b);", "DO_WHILE_LOOP", "for, switch"),
            new Case("double c = a % b;", "a remainder of quantities", "floor"),
            new Case("double c = Math.floorMod(3, 2);", "the call Math.floorMod", "Use Math.abs"),
            new Case("long n = System.nanoTime();", "the call System.nanoTime()", "write a method"),
            new Case("int n = java.util.Arrays.asList().size();", "the call java.util.Arrays", "write a method"),
            new Case("synchronized (Bounds.class) { a = b; }", "SYNCHRONIZED", "Use assignments"));

    /** Each stands in a method of its own, since only the first of a method is told. */
    @Test
    void traps_areRefusedWithTheLineAndARemedy(@TempDir Path folder) throws Exception {
        StringBuilder methods = new StringBuilder();
        StringBuilder calls = new StringBuilder();
        for (int i = 0; i < DANGEROUS.size(); i++) {
            calls.append(String.format("trap%d(a, b); ", i));
            methods.append(String.format(
                    "static double trap%d(double a, double b) {\n%s\nreturn a;\n}\n", i, DANGEROUS.get(i).java));
        }
        ChangedSources.Change change = new ChangedSources.Change(
                "vocabulary/Bounds.java",
                "public static double greatest(double a, double b) {",
                methods + "public static double greatest(double a, double b) {" + calls);
        List<String> told = refused(folder, change);
        String text = Files.readString(ChangedSources.file(folder.resolve(Sources.PLACE), change));
        List<String> wrong = new ArrayList<>();
        for (Case trap : DANGEROUS) {
            int at = text.indexOf("\n" + trap.java + "\n") + 1;
            String place = "Bounds.java:" + (1 + text.substring(0, at).lines().count()) + ":";
            if (told.stream().noneMatch(m -> m.contains(place) && m.contains(trap.found) && m.contains(trap.remedy))) {
                wrong.add(place + " " + trap);
            }
        }
        assertEquals(List.of(), wrong, String.join("\n", told));
    }

    /** C would take the one that the type of the variable says. */
    @Test
    void methodsThatTakeThePlaceOfOthers_areRefused(@TempDir Path folder) throws Exception {
        List<String> told = refused(
                folder,
                new ChangedSources.Change(
                        "gate/Gate.java",
                        "boolean vetoed = cutLoop(in, c);",
                        "new Second().more(); boolean vetoed = cutLoop(in, c);"),
                new ChangedSources.Change(
                        "gate/Gate.java",
                        "private static boolean cutLoop(",
                        "static class First { int more() { return 1; } }\n"
                                + "static class Second extends First { @Override int more() { return 2; } }\n"
                                + "static int asked(First which) { return which.more(); }\n"
                                + "private static boolean cutLoop("),
                new ChangedSources.Change(
                        "gate/Gate.java", "vetoed |= torque(in, c);", "asked(null); vetoed |= torque(in, c);"));
        assertTold(told, "Gate.java", "takes the place of that of First", "one target");
    }

    @Test
    void callsWithAnyNumberOfArguments_areRefused(@TempDir Path folder) throws Exception {
        List<String> told = refused(
                folder,
                new ChangedSources.Change(
                        "vocabulary/Bounds.java",
                        "public static double greatest(double a, double b) {",
                        "static double first(double... all) { return all[0]; }\n"
                                + "public static double greatest(double a, double b) { first(a, b);"));
        assertTold(told, "Bounds.java", "that takes any number of arguments", "Give the method an array");
    }

    @Test
    void classesInsideAMethod_areRefused(@TempDir Path folder) throws Exception {
        List<String> told = refused(
                folder,
                new ChangedSources.Change(
                        "vocabulary/Bounds.java",
                        "public static double greatest(double a, double b) {",
                        "public static double greatest(double a, double b) { class Pair { double both = 1; }\n"
                                + "a += new Pair().both;"));
        assertTold(told, "Bounds.java", "a class inside a method", "a file of its own");
    }

    @Test
    void rowsWithMethodsOfTheirOwn_areRefused(@TempDir Path folder) throws Exception {
        List<String> told = refused(
                folder,
                new ChangedSources.Change(
                        "vocabulary/Bounds.java",
                        "public static double greatest(double a, double b) {",
                        "enum Row { ONE { @Override int more() { return 2; } }; int more() { return 1; } }\n"
                                + "public static double greatest(double a, double b) { Row.ONE.more();"));
        assertTold(told, "Bounds.java", "the row ONE, which has methods of its own", "one target");
    }

    /** Java asks for the index first; C may ask for it last. A call may change what an array holds that was handed over. */
    @Test
    void ordersThatCLeavesOpen_areRefused(@TempDir Path folder) throws Exception {
        List<String> told = refused(
                folder,
                new ChangedSources.Change(
                        "input/Debounce.java",
                        "void forget(",
                        "private int moved;\n private final int[] marks = new int[3];\n"
                                + "private int move() { moved++; marks[0]++; return moved & 1; }\n"
                                + "void place() { marks[moved & 1] = move(); }\n"
                                + "int handed(int[] of) { return of[0] + move(); }\n"
                                + "void claim() { assert move() > 0; }\n"
                                + "int trust() { claim(); place(); return handed(marks); }\n"
                                + "void forget("),
                new ChangedSources.Change(
                        "input/PedalInput.java", "boolean shorted = ", "debounce.trust(); boolean shorted = "));
        assertTold(told, "Debounce.java", "an assert that changes something", "in the line above");
        assertEquals(
                2,
                told.stream()
                        .filter(m -> m.contains("one changes what another reads"))
                        .count(),
                told.toString());
        assertEquals(3, told.size(), told.toString());
    }
}
