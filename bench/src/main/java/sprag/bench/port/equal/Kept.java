package sprag.bench.port.equal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import sprag.bench.port.translate.StateCell;
import sprag.supervisor.vocabulary.Signal;

/**
 * Some ticks of each kind, by what they did to the numbers of one object. What happens seldom is then tried as often as what always
 * happens: a branch behind several conditions is hardly ever met by chance, and from there a single change more shows its limits.
 */
final class Kept {
    private static final int EACH = 4;
    private static final int MOST_KINDS = 128;

    /** A quantity that changes by less has gone on as usual. */
    private static final double JUMP = 1e-3;

    private final List<StateCell> cells;
    private final int[] object;
    private final Map<Integer, Kind> kinds = new HashMap<>();
    private final List<Kind> inOrder = new ArrayList<>();

    Kept(List<StateCell> cells, int[] object) {
        this.cells = cells;
        this.object = object;
    }

    /** How a tick begins.
     *
     * @param memory what is remembered
     * @param readings a number for each signal
     */
    record Tick(long[] memory, double[] readings) {}

    private static final class Kind {
        private final List<Tick> ticks = new ArrayList<>();
        private int seen;
    }

    /** One of those that were kept, each kind as likely as the others; empty while there is none. */
    Optional<Tick> some(SplittableRandom chance) {
        if (inOrder.isEmpty()) {
            return Optional.empty();
        }
        List<Tick> ticks = inOrder.get(chance.nextInt(inOrder.size())).ticks;
        return Optional.of(ticks.get(chance.nextInt(ticks.size())));
    }

    /** Keeps a tick, or not: of each kind some, each as likely as the others of its kind. */
    void look(Cases cases, int i, SplittableRandom chance) {
        int number = kind(cases, i);
        Kind kind = kinds.get(number);
        if (kind == null) {
            if (inOrder.size() == MOST_KINDS) {
                return;
            }
            kind = new Kind();
            inOrder.add(kind);
            kinds.put(number, kind);
        }
        int at = chance.nextInt(++kind.seen);
        if (at < EACH) {
            int memory = cells.size();
            Tick tick = new Tick(
                    Arrays.copyOfRange(cases.before(), i * memory, (i + 1) * memory),
                    Arrays.copyOfRange(cases.readings(), i * Signal.COUNT, (i + 1) * Signal.COUNT));
            if (kind.ticks.size() < EACH) {
                kind.ticks.add(tick);
            } else {
                kind.ticks.set(at, tick);
            }
        }
    }

    private int kind(Cases cases, int i) {
        int kind = 0;
        for (int cell : object) {
            long before = cases.before()[i * cells.size() + cell];
            long after = cases.result().after()[i * cells.size() + cell];
            kind = 31 * kind + (cells.get(cell).isQuantity() ? quantity(before, after) : whole(before, after));
        }
        return kind;
    }

    private static int whole(long before, long after) {
        return after == before ? 0 : after == before + 1 ? 1 : after == 0 ? 2 : 3;
    }

    private static int quantity(long before, long after) {
        double change = Double.longBitsToDouble(after) - Double.longBitsToDouble(before);
        if (change != change) {
            return 3;
        }
        return Math.abs(change) > JUMP ? (change > 0 ? 1 : 2) : 0;
    }
}
