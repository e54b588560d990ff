package sprag.bench.port.translate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.InputStream;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.CompilerWords;
import sprag.bench.port.tool.Tool;

/** Small methods with what C takes otherwise than Java: each gives the same in C, to the last bit. */
class TrapsTest {
    private static final double[] QUANTITIES = {
        Double.NaN,
        Double.POSITIVE_INFINITY,
        Double.NEGATIVE_INFINITY,
        0.0,
        -0.0,
        0.1,
        -1.5,
        -0.5,
        2147483647.5,
        -2147483649.0,
        4e9,
        1e300,
        Double.MIN_VALUE
    };
    private static final int[] WHOLES = {
        0, 1, -1, 7, -7, 31, 32, 33, 63, 65, 127, 128, -129, 46341, Integer.MIN_VALUE, Integer.MAX_VALUE
    };
    private static final long[] LONGS = {
        0, 1, -1, 10, 1L << 31, -(1L << 31) - 1, (1L << 53) + 1, Long.MIN_VALUE, Long.MAX_VALUE
    };
    private static final List<String> STRICT =
            Stream.concat(CompilerWords.STRICT.stream(), Stream.of("-O2")).toList();
    private static final List<String> ARITHMETIC = List.of("-ffp-contract=off", "-fwrapv");

    /** Mixes what each call gives into one number. */
    private static final long MIX = 1_000_003;

    private static String source() throws Exception {
        try (InputStream in = TrapsTest.class.getResourceAsStream("/sprag/bench/port/Traps.java.txt")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @Test
    void methodsWithTraps_inC_giveWhatTheyGiveInJava(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        Path file = ChangedSources.write(folder.resolve("home")).resolve("sprag/supervisor/vocabulary/Traps.java");
        Files.writeString(file, source());
        List<Method> methods = compiled(file, folder.resolve("classes"));
        assertTrue(methods.size() >= 15, methods.toString());
        Map<String, String> inJava = new TreeMap<>();
        for (Method method : methods) {
            inJava.put(method.getName(), Long.toString(all(method)));
        }
        assertEquals(lines(inJava), lines(inC(methods, folder)));
    }

    private static String lines(Map<String, String> all) {
        return all.entrySet().stream().map(e -> e.getKey() + " " + e.getValue()).collect(Collectors.joining("\n"));
    }

    private static List<Method> compiled(Path file, Path classes) throws Exception {
        Files.createDirectories(classes);
        Path sources = file.getParent().getParent().getParent().getParent();
        List<String> words =
                List.of("-proc:none", "-Xlint:none", "-sourcepath", sources + "", "-d", classes + "", file.toString());
        int status = ToolProvider.getSystemJavaCompiler().run(null, null, null, words.toArray(String[]::new));
        assertEquals(0, status, "it does not compile as Java");
        try (URLClassLoader loader =
                new URLClassLoader(new URL[] {classes.toUri().toURL()}, null)) {
            List<Method> methods = Arrays.stream(loader.loadClass("sprag.supervisor.vocabulary.Traps")
                            .getDeclaredMethods())
                    .filter(m -> Modifier.isStatic(m.getModifiers()) && m.getParameterCount() == 5)
                    .toList();
            methods.forEach(m -> m.setAccessible(true));
            for (Method method : methods) {
                method.invoke(null, 0.0, 0.0, 0, 0, 0L);
            }
            return methods;
        }
    }

    /** What a method gives for all numbers, in one. */
    private static long all(Method method) throws Exception {
        long mixed = 0;
        int count = 0;
        for (double a : QUANTITIES) {
            for (double b : QUANTITIES) {
                for (int i : WHOLES) {
                    for (int j : WHOLES) {
                        Object gives = method.invoke(null, a, b, i, j, LONGS[count++ % LONGS.length]);
                        // what NaN looks like is left open by both languages
                        long bits = gives instanceof Double d ? Double.doubleToLongBits(d) : (Long) gives;
                        mixed = mixed * MIX + bits;
                    }
                }
            }
        }
        return mixed;
    }

    private static Map<String, String> inC(List<Method> methods, Path folder) throws Exception {
        Path home = folder.resolve("home");
        String calls = methods.stream()
                .map(m -> "Traps." + m.getName() + "(a, b, 0, 0, 0);")
                .collect(Collectors.joining("\n"));
        Path bounds = home.resolve(Sources.PLACE).resolve("sprag/supervisor/vocabulary/Bounds.java");
        Files.writeString(bounds, Files.readString(bounds).replace("if (a > b) {", calls + " if (a > b) {"));
        Path out = Files.createDirectories(folder.resolve("c"));
        for (Map.Entry<String, String> file :
                new Translation(home, false).code().entrySet()) {
            Files.writeString(out.resolve(file.getKey()), file.getValue());
        }
        Files.writeString(out.resolve("main.c"), main(methods));
        List<String> words = new ArrayList<>(STRICT);
        words.addAll(ARITHMETIC);
        words.addAll(List.of("traps.c", "main.c", "-lm", "-o", "traps"));
        assertEquals(new Tool.Ended(0, ""), Tool.GCC.run(out, words));
        Process process = new ProcessBuilder(out.resolve("traps").toString()).start();
        String told = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, process.waitFor());
        return told.lines()
                .map(line -> line.split(" "))
                .collect(Collectors.toMap(w -> w[0], w -> w[1], (x, y) -> y, TreeMap::new));
    }

    private static String main(List<Method> methods) {
        StringBuilder text = new StringBuilder("#include <stdio.h>\n#include <string.h>\n#include \"traps.h\"\n");
        text.append("void sprag_impossible(void) {}\n");
        text.append("static const double A[] = {")
                .append(join(DoubleStream.of(QUANTITIES).mapToObj(TrapsTest::real)));
        text.append("};\nstatic const int32_t I[] = {")
                .append(join(IntStream.of(WHOLES).mapToObj(i -> "INT32_C(" + (i + 1L) + ") - 1")));
        text.append("};\nstatic const int64_t N[] = {")
                .append(join(
                        LongStream.of(LONGS).mapToObj(n -> n == Long.MIN_VALUE ? "INT64_MIN" : "INT64_C(" + n + ")")));
        text.append("};\n").append(MIXED);
        for (Method method : methods) {
            boolean real = method.getReturnType() == double.class;
            text.append(String.format(
                    Locale.ROOT, LOOPS, real ? "of_real" : "", "sprag_Traps_" + method.getName(), method.getName()));
        }
        return text.append("return 0;\n}\n").toString();
    }

    private static String join(Stream<String> all) {
        return all.collect(Collectors.joining(", "));
    }

    private static String real(double value) {
        return value != value ? "NAN" : Double.isInfinite(value) ? (value > 0 ? "INFINITY" : "-INFINITY") : "" + value;
    }

    private static final String MIXED = """
            #define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))
            static int64_t of_real(double value) {
                int64_t bits = 0;
                if (isnan(value)) {
                    return INT64_C(0x7ff8000000000000);
                }
                (void)memcpy(&bits, &value, sizeof(bits));
                return bits;
            }
            int main(void) {
                int64_t mixed = 0;
                int count = 0;
            """;

    private static final String LOOPS = """
                mixed = 0;
                count = 0;
                for (int a = 0; a < COUNT(A); a++) {
                    for (int b = 0; b < COUNT(A); b++) {
                        for (int i = 0; i < COUNT(I); i++) {
                            for (int j = 0; j < COUNT(I); j++) {
                                mixed = mixed * 1000003 + %s(%s(A[a], A[b], I[i], I[j], N[count++ %% COUNT(N)]));
                            }
                        }
                    }
                }
                printf("%s %%lld\\n", (long long)mixed);
            """;
}
