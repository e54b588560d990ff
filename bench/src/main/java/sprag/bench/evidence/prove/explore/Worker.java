package sprag.bench.evidence.prove.explore;

/**
 * One worker's share of an exploration: the states that belong to it, seen and still to expand.
 *
 * <p>A depth is done in rounds. In the first half of a round every worker expands some of its own states and sorts the
 * successors by owner. In the second half it takes the states that the others found for it. A barrier separates the
 * halves, so that nothing is shared while it changes. The order of all results depends on the machine only.
 */
final class Worker {
    private static final Mixer OWNERS = new Mixer(Long.SIZE);

    private final Machine machine;
    private final Visited visited;
    private final Successors out;
    private final int id;
    private final int workers;
    private final int batch;
    private final LongQueue queue = new LongQueue();
    private final Successors[] parcel;

    private long cursor;
    private long levelEnd;
    private long transitions;

    Worker(Machine machine, int id, int workers, int batch) {
        this.machine = machine;
        // A bitmap where the machine numbers its states densely, else a hash table.
        long indexSpace = machine.indexSpace();
        this.visited = indexSpace > 0 ? new DenseStates(indexSpace) : new HashedStates(machine.bits());
        this.out = Successors.different(machine.events());
        this.id = id;
        this.workers = workers;
        this.batch = batch;
        this.parcel = new Successors[workers];
        for (int i = 0; i < workers; i++) {
            parcel[i] = new Successors(0);
        }
    }

    /** Which worker a state belongs to. Neighbours stay together, and the choice has nothing to do with the table's slots. */
    static int owner(long state, int workers) {
        return (int) ((OWNERS.mix(state >>> 6) & 0xffff) * workers >>> 16);
    }

    /** Expands own states of this depth until a round's worth of successors is there, and sorts them by owner. */
    void expandRound(int depth) {
        out.clear();
        while (cursor < levelEnd && out.tried() < batch) {
            long state = queue.get(cursor++);
            out.from(state, depth);
            machine.expand(state, out);
        }
        transitions += out.tried();
        if (workers > 1) {
            sortByOwner();
        }
    }

    private void sortByOwner() {
        for (Successors each : parcel) {
            each.clear();
        }
        long[] found = out.array();
        int count = out.count();
        for (int i = 0; i < count; i++) {
            parcel[owner(found[i], workers)].add(found[i]);
        }
    }

    /** Takes in what this round found for this worker. */
    void takeIn(Worker[] all) {
        if (workers == 1) {
            visited.addAll(out.array(), out.count(), queue);
            return;
        }
        for (Worker from : all) {
            Successors mine = from.parcel[id];
            visited.addAll(mine.array(), mine.count(), queue);
        }
    }

    void start(long state) {
        visited.addAll(new long[] {state}, 1, queue);
    }

    boolean hasMore() {
        return cursor < levelEnd;
    }

    /** Goes on to the states found at the last depth. */
    long nextLevel() {
        levelEnd = queue.size();
        return levelEnd - cursor;
    }

    long levelEnd() {
        return levelEnd;
    }

    long states() {
        return queue.size();
    }

    long transitions() {
        return transitions;
    }

    LongQueue queue() {
        return queue;
    }

    Successors events() {
        return out;
    }

    /** All memory that grows with the number of states. */
    long bytes() {
        return queue.bytes() + visited.bytes();
    }
}
