package sprag.bench.port.translate;

import java.lang.reflect.Array;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.TypeMirror;

/** Writes live objects as C data, field by field and bit for bit. What never changes becomes constant and can lie in flash. */
final class VehicleData {
    private final CTypes types;
    private final Reach reach;
    private final Live live;
    private final Set<String> needs = new TreeSet<>();
    private final StringBuilder out = new StringBuilder();
    private final Map<Object, String> named = new IdentityHashMap<>();
    /** Constant arrays by their text: two equal tables are one. */
    private final Map<String, String> tables = new HashMap<>();

    VehicleData(CTypes types, Reach reach) {
        this.types = types;
        this.reach = reach;
        this.live = types.live();
    }

    /** The whole file.
     *
     * @param objects the objects by name, each with its type
     * @param tickMs the length of a tick
     */
    String write(Map<String, Object> objects, Map<String, TypeElement> of, long tickMs) {
        objects.forEach((name, object) -> object(object, of.get(name), name, ""));
        StringBuilder text = new StringBuilder(Frame.MADE);
        text.append("/* The values of one vehicle. The code is the same for all. */\n#include \"board.h\"\n");
        needs.forEach(need -> text.append("#include \"").append(need).append(".h\"\n"));
        text.append("\nconst int32_t sprag_tick_ms = ").append(tickMs).append(";\n");
        return text.append(out).toString();
    }

    private String object(Object object, TypeElement type, String name, String storage) {
        if (named.containsKey(object)) {
            return named.get(object);
        }
        named.put(object, name);
        needs.add(Names.fileName(Names.file(type)));
        List<String> parts = new ArrayList<>();
        for (VariableElement field : types.fields(type)) {
            part(field, live.get(field, object), name, parts);
        }
        out.append('\n')
                .append(storage)
                .append(reach.isConstant(type) ? "const " : "")
                .append(Names.type(type));
        out.append(' ').append(name).append(" = {\n");
        parts.forEach(p -> out.append("    ").append(p).append(",\n"));
        out.append("};\n");
        return name;
    }

    private void part(VariableElement field, Object value, String owner, List<String> parts) {
        String member = "." + Names.local(field);
        TypeMirror type = field.asType();
        String name = owner + "_" + field.getSimpleName();
        if (types.isRowSet(type)) {
            Object[] rows = live.type(types.rowOf(type)).getEnumConstants();
            boolean[] in = new boolean[rows.length];
            for (int i = 0; i < rows.length; i++) {
                in[i] = ((Set<?>) value).contains(rows[i]);
            }
            array(type, in, name, true, member, parts);
        } else if (types.elements(type).isPresent()) {
            array(type, value, name, !reach.isWritten(field), member, parts);
        } else if (types.isObject(type)) {
            parts.add(member + " = " + place(type, value, name));
        } else {
            need(type);
            parts.add(member + " = " + types.value(type, value));
        }
    }

    private void need(TypeMirror type) {
        if (types.isEnum(type)) {
            needs.add(Names.fileName(Names.file(types.element(type))));
        }
    }

    private String place(TypeMirror type, Object value, String name) {
        if (value == null) {
            return "NULL";
        }
        return "&" + object(value, reach.living(types.element(type)), name, "static ");
    }

    private void array(
            TypeMirror type, Object array, String name, boolean constant, String member, List<String> parts) {
        TypeMirror item = types.elements(type).orElseThrow();
        int length = Array.getLength(array);
        List<String> values = new ArrayList<>();
        for (int i = 0; i < length; i++) {
            Object value = Array.get(array, i);
            need(item);
            values.add(types.isObject(item) ? place(item, value, name + "_" + i) : types.value(item, value));
        }
        String head = types.plain(item).orElseGet(() -> types.struct(item) + " *");
        String text = head + (constant ? " const" : "") + "[" + length + "] = {\n"
                + Wrapping.of("    ", String.join(", ", length == 0 ? List.of("0") : values)) + "}";
        String place = constant ? tables.get(text) : null;
        if (place == null) {
            place = name;
            int shown = Math.max(length, 1);
            String declared = text.replaceFirst(
                    "( const)?\\[\\d+]",
                    " " + (types.isObject(item) && constant ? "const " : "") + name + "[" + shown + "]");
            boolean front = constant && !types.isObject(item);
            out.append("\nstatic ")
                    .append(front ? "const " : "")
                    .append(declared.replace("*  ", "*").replace("* ", "*"))
                    .append(";\n");
            if (constant) {
                tables.put(text, place);
            }
        }
        parts.add(member + " = " + place);
        parts.add(member + "_length = " + length);
    }
}
