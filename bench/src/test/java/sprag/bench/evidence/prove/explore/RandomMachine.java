package sprag.bench.evidence.prove.explore;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;

/** A machine made of random arrows between random longs; event 0 is noted on arrows into one marked state. */
final class RandomMachine implements Machine {
    final Map<Long, long[]> arrows = new TreeMap<>();
    final long first;
    final long marked;

    RandomMachine(long seed, int states, int mostArrows) {
        Random random = new Random(seed);
        List<Long> names = new ArrayList<>();
        for (int i = 0; i < states; i++) {
            names.add(random.nextInt(4) == 0 ? (long) i : random.nextLong() >>> 1);
        }
        for (long name : names) {
            long[] to = new long[1 + random.nextInt(mostArrows)];
            for (int i = 0; i < to.length; i++) {
                to[i] = names.get(random.nextInt(states));
            }
            arrows.put(name, to);
        }
        first = names.get(0);
        marked = names.get(states - 1);
    }

    @Override
    public long initial() {
        return first;
    }

    @Override
    public int events() {
        return 1;
    }

    @Override
    public void expand(long state, Successors out) {
        for (long to : arrows.get(state)) {
            if (to == marked) {
                out.note(0);
            }
            out.add(to);
        }
    }
}
