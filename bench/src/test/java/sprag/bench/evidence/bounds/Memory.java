package sprag.bench.evidence.bounds;

import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * What variables, fields and elements of arrays can hold at one place of the code. Whatever nobody wrote since the real object was
 * made holds what the real object holds.
 */
final class Memory {
    /** A field of an object, or an element of an array. */
    private record Cell(Object owner, String name) {
        @Override
        public boolean equals(Object other) {
            return other instanceof Cell cell && cell.owner == owner && cell.name.equals(name);
        }

        @Override
        public int hashCode() {
            return System.identityHashCode(owner) * 31 + name.hashCode();
        }
    }

    /** Classes of tests run side by side. */
    private static final Map<String, Field> FIELDS = new ConcurrentHashMap<>();

    /** What was written on top of something older, which no longer changes. */
    private static final class Layer {
        private final Map<Cell, Object> written = new HashMap<>();
        private final Layer below;
        private final int depth;

        Layer(Layer below) {
            this.below = below;
            depth = below == null ? 0 : below.depth + 1;
        }

        Object get(Cell cell) {
            for (Layer at = this; at != null; at = at.below) {
                Object value = at.written.get(cell);
                if (value != null) {
                    return value;
                }
            }
            return null;
        }

        /** All of it in one layer. */
        Layer flat() {
            Layer flat = new Layer(null);
            for (Layer at = this; at != null; at = at.below) {
                at.written.forEach(flat.written::putIfAbsent);
            }
            return flat;
        }

        static Layer common(Layer a, Layer b) {
            Layer x = a;
            Layer y = b;
            while (x != y) {
                if (x.depth >= y.depth) {
                    x = x.below;
                } else {
                    y = y.below;
                }
                if (x == null || y == null) {
                    return null;
                }
            }
            return x;
        }

        void changedSince(Layer base, Set<Cell> into) {
            for (Layer at = this; at != base; at = at.below) {
                into.addAll(at.written.keySet());
            }
        }
    }

    private static final int MOST_LAYERS = 12;

    Map<String, Object> locals;
    private Layer cells;

    Memory() {
        this(new HashMap<>(), new Layer(null));
    }

    private Memory(Map<String, Object> locals, Layer cells) {
        this.locals = locals;
        this.cells = cells;
    }

    Memory copy() {
        if (!cells.written.isEmpty()) {
            cells = new Layer(cells.depth < MOST_LAYERS ? cells : cells.flat());
        }
        Layer below = cells.below == null ? cells : cells.below;
        cells = new Layer(below);
        return new Memory(new HashMap<>(locals), new Layer(below));
    }

    /** What can be in either of two places. */
    static Memory join(Memory a, Memory b) {
        if (a == null || b == null) {
            return a == null ? b : a;
        }
        Layer base = Layer.common(a.cells, b.cells);
        Memory both = new Memory(new HashMap<>(), new Layer(base));
        a.locals.forEach((name, value) -> {
            if (b.locals.containsKey(name)) {
                both.locals.put(name, join(value, b.locals.get(name)));
            }
        });
        Set<Cell> changed = new HashSet<>();
        a.cells.changedSince(base, changed);
        b.cells.changedSince(base, changed);
        changed.forEach(cell -> both.set(cell, join(a.in(cell), b.in(cell))));
        return both;
    }

    /** The other memory's cells become this one's. */
    void take(Memory other) {
        locals = other.locals;
        cells = other.cells;
    }

    static Object join(Object a, Object b) {
        if (a instanceof Reals x && b instanceof Reals y) {
            return x.join(y);
        }
        if (a instanceof Ints x && b instanceof Ints y) {
            return x.join(y);
        }
        if (a instanceof Truth x && b instanceof Truth y) {
            return x.join(y);
        }
        if (isNumber(a) && isNumber(b)) {
            return real(a).join(real(b));
        }
        if (Objects.equals(a, b)) {
            return a;
        }
        throw new IllegalStateException("cannot tell " + a + " from " + b + " any more: give one of them to each call");
    }

    static boolean isNumber(Object value) {
        return value instanceof Reals || value instanceof Ints;
    }

    static Reals real(Object value) {
        return value instanceof Ints ints ? ints.real() : (Reals) value;
    }

    private Object in(Cell cell) {
        Object known = cells.get(cell);
        return known != null ? known : real(cell);
    }

    private static Object real(Cell cell) {
        if (cell.owner.getClass().isArray()) {
            return lift(Array.get(cell.owner, Integer.parseInt(cell.name)));
        }
        Field field = field(cell.owner.getClass(), cell.name);
        try {
            return lift(field.get(cell.owner));
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot read " + field, e);
        }
    }

    /** A real value as what it can be. */
    static Object lift(Object real) {
        if (real instanceof Double d) {
            return Reals.of(d);
        }
        if (real instanceof Boolean b) {
            return Truth.of(b);
        }
        return real instanceof Integer || real instanceof Byte ? (Object) Ints.of(((Number) real).intValue()) : real;
    }

    static Field field(Class<?> type, String name) {
        return FIELDS.computeIfAbsent(type.getName() + "." + name, key -> find(type, name));
    }

    private static Field find(Class<?> type, String name) {
        for (Class<?> at = type; at != null; at = at.getSuperclass()) {
            for (Field field : at.getDeclaredFields()) {
                if (field.getName().equals(name)) {
                    field.setAccessible(true);
                    return field;
                }
            }
        }
        return null;
    }

    Object get(Object owner, String name) {
        return in(new Cell(owner, name));
    }

    void set(Object owner, String name, Object value) {
        set(new Cell(owner, name), value);
    }

    private void set(Cell cell, Object value) {
        cells.written.put(cell, value);
    }

    Object element(Object array, Ints index) {
        int length = Array.getLength(array);
        if (index.lo() < 0 || index.hi() >= length) {
            throw new IllegalStateException("element " + index + " of an array of " + length);
        }
        Object all = null;
        for (int i = index.lo(); i <= index.hi(); i++) {
            Object one = in(new Cell(array, Integer.toString(i)));
            all = all == null ? one : join(all, one);
        }
        return all;
    }

    void setElement(Object array, Ints index, Object value) {
        for (int i = index.lo(); i <= index.hi(); i++) {
            Cell cell = new Cell(array, Integer.toString(i));
            set(cell, index.isOne() ? value : join(value, in(cell)));
        }
    }
}
