package sprag.bench.vehicle;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Collects the mistakes of one input, so that a person sees all of them at once. */
public final class Problems {
    private static final Comparator<Problem> BY_PLACE = Comparator.comparing(
                    (Problem p) -> p.file().toString())
            .thenComparingInt(Problem::line)
            .thenComparingInt(Problem::column);

    private final List<Problem> found = new ArrayList<>();

    /** Notes a mistake. */
    public void add(Problem problem) {
        found.add(problem);
    }

    /** Notes a mistake about a whole file. */
    public void add(Path file, String what, String remedy) {
        found.add(new Problem(file, 1, 1, "", what, "", "", remedy));
    }

    /** How many there are so far. */
    public int count() {
        return found.size();
    }

    /** What was found, in the order of the lines. */
    public List<Problem> list() {
        return found.stream().sorted(BY_PLACE).toList();
    }

    /**
     * Ends the reading of an input.
     *
     * @throws BadInput when anything was found
     */
    public void throwIfAny() throws BadInput {
        if (!found.isEmpty()) {
            throw new BadInput(list());
        }
    }
}
