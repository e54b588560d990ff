package sprag.bench.port.chip;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.port.tool.CompilerWords;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.Translation;

/** The example of a board, compiled for a Cortex-M4F, with the sizes that the compiler tells. */
public final class ChipProgram {
    private static final List<String> OWN =
            List.of("main.c", "start.c", "startup.h", "memory.c", "memory.h", "line.h", "uart.c", "host.c", "chip.ld");
    private static final List<String> PROCESSOR =
            List.of("-mcpu=cortex-m4", "-mthumb", "-mfloat-abi=hard", "-mfpu=fpv4-sp-d16");
    private static final List<String> OPTIONS = Stream.of(
                    List.of("-Os"),
                    CompilerWords.STRICT,
                    CompilerWords.AS_JAVA,
                    List.of("-ffunction-sections", "-fdata-sections", "-fcallgraph-info=su"))
            .flatMap(List::stream)
            .toList();
    private static final Pattern NODE =
            Pattern.compile("node: \\{ title: \"([^\"]+)\" label: \"[^\"]*?(?:\\\\n(\\d+) bytes[^\"]*)?\"");
    private static final Pattern EDGE = Pattern.compile("edge: \\{ sourcename: \"([^\"]+)\" targetname: \"([^\"]+)\"");
    private static final Pattern LIBRARY_MISSING =
            Pattern.compile("(math|stdint|stdbool)\\.h: No such file|cannot find -l[mc]|cannot read spec file");
    private static final Pattern SIZES = Pattern.compile("(?m)^\\s*(\\d+)\\s+(\\d+)\\s+(\\d+)\\s");

    private final Path folder;
    private final List<String> objects;

    private ChipProgram(Path folder, List<String> objects) {
        this.folder = folder;
        this.objects = objects;
    }

    /** How the program talks with this computer. */
    public enum Line {
        /** Over the emulated serial line, as a board does. A byte takes an eighth of a millisecond. */
        SERIAL("uart.o", "chip.elf"),
        /** In whole frames, by the emulator's own way. The chip's time stands still while it waits. */
        HOST("host.o", "lockstep.elf");

        private final String object;
        private final String file;

        Line(String object, String file) {
            this.object = object;
            this.file = file;
        }
    }

    /** How much memory it takes.
     *
     * @param flashBytes code, constants and the first values of variables
     * @param ramBytes variables
     * @param stackBytes the deepest stack below one step of the supervisor; what a library function takes is not in it
     */
    public record Sizes(long flashBytes, long ramBytes, long stackBytes) {}

    /** Writes the example beside the translated files and compiles all of it.
     *
     * @param folder where to
     * @param files the translated files with the values of a vehicle
     */
    public static ChipProgram compile(Path folder, Map<String, String> files) {
        OutFolder.make(folder);
        files.forEach((name, text) -> OutFolder.write(folder.resolve(name), text));
        OWN.forEach(name -> OutFolder.write(folder.resolve(name), Translation.resource("firmware/" + name)));
        List<String> sources = Stream.concat(OWN.stream(), files.keySet().stream())
                .filter(file -> file.endsWith(".c"))
                .toList();
        List<String> words = new ArrayList<>(OPTIONS);
        words.add("-c");
        words.addAll(sources);
        gcc(folder, words);
        List<String> objects = sources.stream()
                .map(ChipProgram::object)
                .filter(object -> Stream.of(Line.values()).noneMatch(line -> line.object.equals(object)))
                .toList();
        ChipProgram program = new ChipProgram(folder, objects);
        for (Line line : Line.values()) {
            program.link(line.file, List.of(line.object));
        }
        return program;
    }

    /** Compiles the program that is asked over its standard input, as {@code twin} on this computer, for the chip.
     *
     * @param folder where to
     * @param files the translated files with the values of a vehicle, and the program
     * @return the program
     */
    public static Path twin(Path folder, Map<String, String> files) {
        OutFolder.make(folder);
        files.forEach((name, text) -> OutFolder.write(folder.resolve(name), text));
        for (String name : List.of("twin_start.c", "startup.h")) {
            OutFolder.write(folder.resolve(name), Translation.resource("firmware/" + name));
        }
        // the board has 4 MB; many readings are asked at once
        OutFolder.write(
                folder.resolve("chip.ld"),
                Translation.resource("firmware/chip.ld").replace("LENGTH = 64K", "LENGTH = 4096K"));
        List<String> words = new ArrayList<>(OPTIONS);
        words.addAll(List.of("-c", "twin_start.c"));
        files.keySet().stream().filter(file -> file.endsWith(".c")).forEach(words::add);
        gcc(folder, words);
        words = new ArrayList<>(
                List.of("-nostartfiles", "--specs=rdimon.specs", "-Wl,--gc-sections", "-T", "chip.ld", "twin_start.o"));
        files.keySet().stream()
                .filter(file -> file.endsWith(".c"))
                .map(ChipProgram::object)
                .forEach(words::add);
        words.addAll(List.of("-lm", "-o", "twin.elf"));
        gcc(folder, words);
        return folder.resolve("twin.elf");
    }

    private static String object(String source) {
        return source.replaceFirst("c$", "o");
    }

    private static void gcc(Path folder, List<String> words) {
        Tool.Ended ended = Tool.ARM_GCC.run(
                folder, Stream.concat(PROCESSOR.stream(), words.stream()).toList());
        if (ended.status() != 0) {
            String library = LIBRARY_MISSING.matcher(ended.out()).find()
                    ? "\nThe C library for the chip is missing. On Debian: apt-get install libnewlib-arm-none-eabi"
                    : "";
            throw new Trouble(
                    "arm-none-eabi-gcc refuses what was translated, in " + folder + ":\n" + ended.out() + library);
        }
    }

    private void link(String file, List<String> besides) {
        List<String> words = new ArrayList<>(List.of("-nostartfiles", "-Wl,--gc-sections", "-T", "chip.ld"));
        words.addAll(objects);
        words.addAll(besides);
        words.addAll(List.of("-lm", "-o", file));
        gcc(folder, words);
    }

    /** For trials: the program for the serial line with one more file.
     *
     * @param name of the file of C
     * @param text what stands in it
     * @return the program
     */
    Path with(String name, String text) {
        OutFolder.write(folder.resolve(name), text);
        List<String> words = new ArrayList<>(OPTIONS);
        words.addAll(List.of("-c", name));
        gcc(folder, words);
        String file = name.replaceFirst("c$", "elf");
        link(file, List.of(Line.SERIAL.object, object(name)));
        return folder.resolve(file);
    }

    /** Where the program is. */
    public Path file(Line line) {
        return folder.resolve(line.file);
    }

    /** The sizes of the whole program, from the compiler's own figures. */
    public Sizes sizes() {
        Tool.Ended ended = Tool.ARM_SIZE.run(folder, List.of(Line.SERIAL.file));
        Matcher sizes = SIZES.matcher(ended.out());
        if (!sizes.find()) {
            throw new Trouble("arm-none-eabi-size told no sizes: " + ended.out());
        }
        long text = Long.parseLong(sizes.group(1));
        long data = Long.parseLong(sizes.group(2));
        long bss = Long.parseLong(sizes.group(3));
        return new Sizes(text + data, data + bss, stackBytes());
    }

    private long stackBytes() {
        Map<String, Long> own = new HashMap<>();
        Map<String, Set<String>> calls = new HashMap<>();
        try (Stream<Path> all = Files.list(folder)) {
            for (Path graph :
                    all.filter(file -> file.toString().endsWith(".ci")).toList()) {
                String text = Files.readString(graph);
                Matcher node = NODE.matcher(text);
                while (node.find()) {
                    own.merge(node.group(1), node.group(2) == null ? 0 : Long.parseLong(node.group(2)), Math::max);
                }
                Matcher edge = EDGE.matcher(text);
                while (edge.find()) {
                    calls.computeIfAbsent(edge.group(1), name -> new HashSet<>())
                            .add(edge.group(2));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the call graphs in " + folder, e);
        }
        return deepest("sprag_Supervisor_step", own, calls, new HashMap<>());
    }

    /** The translator refuses recursion, so this ends. */
    private static long deepest(
            String function, Map<String, Long> own, Map<String, Set<String>> calls, Map<String, Long> known) {
        Long before = known.get(function);
        if (before != null) {
            return before;
        }
        long below = calls.getOrDefault(function, Set.of()).stream()
                .mapToLong(callee -> deepest(callee, own, calls, known))
                .max()
                .orElse(0);
        long all = own.getOrDefault(function, 0L) + below;
        known.put(function, all);
        return all;
    }
}
