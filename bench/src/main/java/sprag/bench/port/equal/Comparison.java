package sprag.bench.port.equal;

import java.io.EOFException;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import sprag.bench.cli.Trouble;
import sprag.bench.port.translate.StateCell;
import sprag.supervisor.vocabulary.Output;

/** Plays ticks in C and compares with what the Java decided, to the last bit. An unknown number equals an unknown number. */
final class Comparison {
    private final HostProgram program;
    private final List<StateCell> cells;
    private long ticks;

    Comparison(HostProgram program, List<StateCell> cells) {
        this.program = program;
        this.cells = cells;
    }

    /** How many ticks were compared. */
    long ticks() {
        return ticks;
    }

    /** The first difference in some ticks, in words; empty when there is none. */
    Optional<String> differs(Batch java) {
        try {
            Batch c = program.play(java);
            ticks += java.ticks();
            return compare(java, c);
        } catch (EOFException e) {
            return Optional.of(
                    java.name() + ", tick " + java.firstTick() + ": the C has stopped: something impossible happened");
        } catch (IOException e) {
            return Optional.of(java.name() + ", tick " + java.firstTick() + ": the C has ended: " + e.getMessage());
        }
    }

    /** As {@link #differs}, for those who cannot go on with a difference. */
    void must(Batch java) {
        differs(java).ifPresent(difference -> {
            throw new Trouble("Java and C differ: " + difference);
        });
    }

    /** The first difference in ticks from a memory that was made up; empty when there is none. */
    Optional<String> differs(Cases java) {
        try {
            Cases.Result c = program.cases(java);
            ticks += java.count();
            for (int i = 0; i < java.count(); i++) {
                boolean possible = java.result().possible()[i];
                if (possible != c.possible()[i]) {
                    return Optional.of("a made-up memory is " + (possible ? "possible" : "impossible")
                            + " in Java, and not so in C");
                }
                Optional<String> difference = possible ? differs(java.result(), c, i) : Optional.empty();
                if (difference.isPresent()) {
                    return difference;
                }
            }
            return Optional.empty();
        } catch (IOException e) {
            return Optional.of("from a made-up memory: the C has ended: " + e.getMessage());
        }
    }

    /** The first difference in what is remembered when power comes back; empty when there is none. */
    Optional<String> differs(Wakes java) {
        try {
            long[] c = program.wake(java.remembered());
            for (int i = 0; i < c.length; i++) {
                if (c[i] != java.states()[i]) {
                    return Optional.of("woken up with " + java.remembered()[i] + ": the packed state is "
                            + java.states()[i] + " in Java and " + c[i] + " in C");
                }
            }
            return Optional.empty();
        } catch (IOException e) {
            return Optional.of("at waking up: the C has ended: " + e.getMessage());
        }
    }

    /** The first difference in what the gate leaves of orders; empty when there is none. */
    Optional<String> gate(List<GateOrders> orders) {
        try {
            program.begin();
            for (GateOrders some : orders) {
                String difference = program.differs(some);
                if (!difference.isEmpty()) {
                    return Optional.of("the gate alone: " + difference);
                }
            }
            return Optional.empty();
        } catch (IOException e) {
            return Optional.of("the gate alone: the C has ended: " + e.getMessage());
        }
    }

    private Optional<String> differs(Cases.Result java, Cases.Result c, int i) {
        String at = "from a made-up memory: ";
        Optional<String> decided = compare(java.decided(), c.decided(), i, at);
        return decided.isPresent() ? decided : compare(java.after(), c.after(), i * cells.size(), at);
    }

    private Optional<String> compare(Batch java, Batch c) {
        for (int tick = 0; tick < java.ticks(); tick++) {
            String at = java.name() + ", tick " + (java.firstTick() + tick) + ": ";
            Optional<String> difference = compare(java.decided(), c.decided(), tick, at);
            if (difference.isPresent()) {
                return difference;
            }
        }
        String at = java.name() + ", tick " + (java.firstTick() + java.ticks() - 1) + " or shortly before: ";
        return compare(java.remembered(), c.remembered(), 0, at);
    }

    private static Optional<String> compare(Batch.Decided java, Batch.Decided c, int tick, String at) {
        for (Output output : Output.values()) {
            int i = tick * Output.COUNT + output.ordinal();
            double inJava = java.outputs()[i];
            double inC = c.outputs()[i];
            if (Double.compare(inJava, inC) != 0) {
                return Optional.of(at + output.key() + " is " + inJava + " in Java and " + inC + " in C");
            }
        }
        long inJava = java.states()[tick];
        long inC = c.states()[tick];
        return inJava == inC
                ? Optional.empty()
                : Optional.of(at + "the packed state is " + inJava + " in Java and " + inC + " in C");
    }

    private Optional<String> compare(long[] java, long[] c, int from, String at) {
        for (int i = 0; i < cells.size(); i++) {
            long inJava = java[from + i];
            long inC = c[from + i];
            if (inJava != inC && !(cells.get(i).isQuantity() && bothUnknown(inJava, inC))) {
                return Optional.of(at + cells.get(i).place() + " is " + words(i, inJava) + " in Java and "
                        + words(i, inC) + " in C");
            }
        }
        return Optional.empty();
    }

    private static boolean bothUnknown(long a, long b) {
        return Double.isNaN(Double.longBitsToDouble(a)) && Double.isNaN(Double.longBitsToDouble(b));
    }

    private String words(int cell, long value) {
        return cells.get(cell).isQuantity() ? "" + Double.longBitsToDouble(value) : "" + value;
    }
}
