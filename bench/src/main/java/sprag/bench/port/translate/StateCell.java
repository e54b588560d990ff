package sprag.bench.port.translate;

import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.util.List;
import sprag.supervisor.Supervisor;

/** One number that a supervisor remembers: where it stands in the C, and how to read it in the Java. */
public final class StateCell {
    private final String place;
    private final List<Field> way;
    private final int index;

    StateCell(String place, List<Field> way, int index) {
        this.place = place;
        this.way = List.copyOf(way);
        this.index = index;
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

    /** The number as it is compared: the bits of a quantity, the order of a row.
     *
     * @param holder from {@link #holder}
     */
    public long read(Object holder) {
        Object value = index < 0 ? get(way.get(way.size() - 1), holder) : Array.get(holder, index);
        if (value instanceof Double number) {
            return Double.doubleToLongBits(number);
        }
        if (value instanceof Boolean yes) {
            return yes ? 1 : 0;
        }
        if (value instanceof Number number) {
            return number.longValue();
        }
        return value == null ? -1 : ((Enum<?>) value).ordinal();
    }

    /** Whether it is a quantity rather than a whole number. */
    public boolean isQuantity() {
        Class<?> type = way.get(way.size() - 1).getType();
        return type == double.class || type == double[].class;
    }

    private static Object get(Field field, Object of) {
        try {
            return field.get(of);
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot read " + field, e);
        }
    }
}
