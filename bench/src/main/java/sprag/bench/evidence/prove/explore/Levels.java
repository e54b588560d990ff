package sprag.bench.evidence.prove.explore;

import java.util.List;
import java.util.function.LongConsumer;

/** The states found, by depth. */
record Levels(LongQueue[] queues, List<long[]> ends) {
    void forEachAt(int depth, LongConsumer visitor) {
        for (int q = 0; q < queues.length; q++) {
            long end = ends.get(depth)[q];
            for (long i = depth == 0 ? 0 : ends.get(depth - 1)[q]; i < end; i++) {
                visitor.accept(queues[q].get(i));
            }
        }
    }
}
