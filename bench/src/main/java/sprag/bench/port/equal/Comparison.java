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

    private Optional<String> compare(Batch java, Batch c) {
        for (int tick = 0; tick < java.ticks(); tick++) {
            String at = java.name() + ", tick " + (java.firstTick() + tick) + ": ";
            for (Output output : Output.values()) {
                int i = tick * Output.COUNT + output.ordinal();
                double inJava = java.decided().outputs()[i];
                double inC = c.decided().outputs()[i];
                if (Double.compare(inJava, inC) != 0) {
                    return Optional.of(at + output.key() + " is " + inJava + " in Java and " + inC + " in C");
                }
            }
            long inJava = java.decided().states()[tick];
            long inC = c.decided().states()[tick];
            if (inJava != inC) {
                return Optional.of(at + "the packed state is " + inJava + " in Java and " + inC + " in C");
            }
        }
        for (int i = 0; i < cells.size(); i++) {
            long inJava = java.remembered()[i];
            long inC = c.remembered()[i];
            if (inJava != inC && !(cells.get(i).isQuantity() && bothUnknown(inJava, inC))) {
                return Optional.of(java.name() + ", tick " + (java.firstTick() + java.ticks() - 1)
                        + " or shortly before: " + cells.get(i).place() + " is " + words(i, inJava) + " in Java and "
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
