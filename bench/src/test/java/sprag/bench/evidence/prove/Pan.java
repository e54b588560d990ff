package sprag.bench.evidence.prove;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sprag.bench.evidence.prove.toy.Spin;

/**
 * What SPIN says about a model: which promises are broken, which have nothing to say, and how many states there are.
 *
 * <p>SPIN lists the statements that no run reaches. A promise is broken when its assertion is not among them.
 */
record Pan(Set<String> broken, Set<String> silent, long states) {
    private static final Pattern UNREACHED = Pattern.compile("logic\\.pml:(\\d+), state \\d+, \"(.*)\"");
    private static final Pattern STORED = Pattern.compile("(\\d+) states, stored");
    private static final Pattern VIOLATED = Pattern.compile("assertion violated (.*) \\(at depth");

    /** Lets SPIN explore a model to its end.
     *
     * @param options of SPIN itself
     */
    static Pan explore(Path folder, String model, String... options) throws IOException, InterruptedException {
        Files.writeString(folder.resolve("logic.pml"), model);
        List<String> spin = new ArrayList<>(List.of("spin", "-a"));
        spin.addAll(List.of(options));
        spin.add("logic.pml");
        Spin.run(folder, spin);
        Spin.run(folder, List.of("gcc", "-w", "-DSAFETY", "-DNOREDUCE", "-DNOFAIR", "-o", "pan", "pan.c"));
        return read(model, Spin.run(folder, List.of("./pan", "-c0", "-m2000000", "-w22")));
    }

    private static Pan read(String model, String said) {
        if (said.contains("Search not completed") || said.contains("too small")) {
            throw new IllegalStateException(
                    "SPIN did not come to the end: " + said.lines().limit(8).toList());
        }
        Matcher violated = VIOLATED.matcher(said);
        while (violated.find()) {
            if (!violated.group(1).equals("0")) {
                throw new IllegalStateException("no promise but the model itself is wrong: " + violated.group());
            }
        }
        Map<Integer, String> stated = PromiseLines.of(model);
        Set<String> broken = new TreeSet<>(stated.values());
        Set<String> silent = new HashSet<>();
        Matcher unreached = UNREACHED.matcher(said);
        while (unreached.find()) {
            String promise = stated.get(Integer.parseInt(unreached.group(1)));
            if (promise != null && unreached.group(2).equals("assert(0)")) {
                broken.remove(promise);
            } else if (promise != null && unreached.group(2).equals("else")) {
                silent.add(promise);
            }
        }
        Matcher stored = STORED.matcher(said);
        if (!stored.find()) {
            throw new IllegalStateException("SPIN did not say how many states there are: " + said);
        }
        return new Pan(broken, silent, Long.parseLong(stored.group(1)));
    }
}
