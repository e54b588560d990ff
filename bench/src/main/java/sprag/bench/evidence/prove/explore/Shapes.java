package sprag.bench.evidence.prove.explore;

import java.util.Arrays;

/** A number for each shape of step, counted up as shapes turn up. */
final class Shapes {
    private static final int NONE = -1;

    private long[] shape = new long[256];
    private int[] number = new int[256];
    private int used;

    Shapes() {
        Arrays.fill(number, NONE);
    }

    /** The number of a shape. Returns its number; -1 when it is new. */
    int find(long wanted) {
        int slot = slot(wanted);
        while (number[slot] != NONE && shape[slot] != wanted) {
            slot = slot + 1 & shape.length - 1;
        }
        return number[slot];
    }

    /** Gives a new shape the next number, the first 0. */
    int add(long newShape) {
        if (2 * used > shape.length) {
            grow();
        }
        place(newShape, used);
        return used++;
    }

    /** How many numbers are given. */
    int size() {
        return used;
    }

    private void place(long newShape, int at) {
        int slot = slot(newShape);
        while (number[slot] != NONE) {
            slot = slot + 1 & shape.length - 1;
        }
        shape[slot] = newShape;
        number[slot] = at;
    }

    private void grow() {
        long[] oldShape = shape;
        int[] oldNumber = number;
        shape = new long[2 * oldShape.length];
        number = new int[2 * oldShape.length];
        Arrays.fill(number, NONE);
        for (int i = 0; i < oldShape.length; i++) {
            if (oldNumber[i] != NONE) {
                place(oldShape[i], oldNumber[i]);
            }
        }
    }

    private int slot(long of) {
        return Mixer.spread(of, 40) & shape.length - 1;
    }
}
