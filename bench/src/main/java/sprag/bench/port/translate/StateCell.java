package sprag.bench.port.translate;

import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.util.List;
import java.util.stream.DoubleStream;
import sprag.supervisor.Supervisor;

/** One number that a supervisor remembers: where it stands in the C, and how to read it in the Java. */
public final class StateCell {
    private final String place;
    private final List<Field> way;
    private final Field last;
    private final Class<?> type;
    /** The rows of an enum, in their order; null for anything else. */
    private final Object[] rows;

    private final int index;

    StateCell(String place, List<Field> way, int index) {
        this.place = place;
        this.way = List.copyOf(way);
        this.index = index;
        last = way.get(way.size() - 1);
        type = index < 0 ? last.getType() : last.getType().getComponentType();
        rows = type.getEnumConstants();
    }

    /** Where it stands in the C. */
    public String place() {
        return place;
    }

    /** The object of a supervisor that holds the number. It stays the same as long as the supervisor lives. */
    public Object holder(Supervisor supervisor) {
        Object at = supervisor;
        for (Field field : way.subList(0, way.size() - (index < 0 ? 1 : 0))) {
            at = get(field, at);
        }
        return at;
    }

    /** The numbers that stand in the same object, such as limits; in any order. For a whole number the whole ones. */
    public double[] besides(Supervisor supervisor) {
        Object owner = supervisor;
        for (Field field : way.subList(0, way.size() - 1)) {
            owner = get(field, owner);
        }
        DoubleStream.Builder numbers = DoubleStream.builder();
        for (Field field : owner.getClass().getDeclaredFields()) {
            field.setAccessible(true);
            if (get(field, owner) instanceof Number number && (isQuantity() || !(number instanceof Double))) {
                numbers.add(number.doubleValue());
            }
        }
        return numbers.build().toArray();
    }

    /** The number as it is compared: the bits of a quantity, the order of a row.
     *
     * @param holder from {@link #holder}
     */
    public long read(Object holder) {
        try {
            if (index >= 0) {
                return element(holder);
            }
            if (type == double.class) {
                return Double.doubleToLongBits(last.getDouble(holder));
            }
            if (type == boolean.class) {
                return last.getBoolean(holder) ? 1 : 0;
            }
            return rows == null ? last.getLong(holder) : order(last.get(holder));
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot read " + last, e);
        }
    }

    /** Many thousands of times as often as anything else: {@link java.lang.reflect.Array} would take most of the time. */
    private long element(Object array) {
        if (array instanceof double[] numbers) {
            return Double.doubleToLongBits(numbers[index]);
        }
        if (array instanceof boolean[] flags) {
            return flags[index] ? 1 : 0;
        }
        if (array instanceof int[] numbers) {
            return numbers[index];
        }
        if (array instanceof Enum<?>[] some) {
            return order(some[index]);
        }
        return Array.getLong(array, index);
    }

    private static long order(Object row) {
        return row == null ? -1 : ((Enum<?>) row).ordinal();
    }

    /** Puts a number there, in the form that {@link #read} gives.
     *
     * @param holder from {@link #holder}
     */
    public void write(Object holder, long number) {
        Object value;
        if (type == double.class) {
            value = Double.longBitsToDouble(number);
        } else if (type == boolean.class) {
            value = number != 0;
        } else if (type == int.class) {
            value = (int) number;
        } else if (type == byte.class) {
            value = (byte) number;
        } else if (type == long.class) {
            value = number;
        } else {
            value = number < 0 ? null : rows[(int) number];
        }
        if (index < 0) {
            set(last, holder, value);
        } else {
            Array.set(holder, index, value);
        }
    }

    /** What stands there in the Java: a number, a boolean or a row. */
    public Class<?> type() {
        return type;
    }

    /** Whether it is a quantity rather than a whole number. */
    public boolean isQuantity() {
        return type == double.class;
    }

    private static void set(Field field, Object of, Object value) {
        try {
            field.set(of, value);
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot write " + field, e);
        }
    }

    private static Object get(Field field, Object of) {
        try {
            return field.get(of);
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot read " + field, e);
        }
    }
}
