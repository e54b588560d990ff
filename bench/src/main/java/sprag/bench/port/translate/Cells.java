package sprag.bench.port.translate;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.TypeKind;
import javax.lang.model.type.TypeMirror;
import sprag.supervisor.Supervisor;

/**
 * Everything that a supervisor remembers from tick to tick: each field that a tick changes, in each object. In C it can be saved and
 * restored as numbers; in Java it can be read in the same order.
 */
final class Cells {
    private final CTypes types;
    private final Reach reach;
    private final Live live;
    private final List<StateCell> cells = new ArrayList<>();
    private final StringBuilder save = new StringBuilder();
    private final StringBuilder restore = new StringBuilder();
    private int count;

    Cells(CTypes types, Reach reach, Supervisor supervisor, TypeElement type) {
        this.types = types;
        this.reach = reach;
        this.live = types.live();
        walk(supervisor, type, "sprag_supervisor.", List.of(), new IdentityHashMap<>());
    }

    List<StateCell> all() {
        return cells;
    }

    private void walk(
            Object object,
            TypeElement type,
            String place,
            List<java.lang.reflect.Field> way,
            Map<Object, Boolean> seen) {
        if (object == null || seen.put(object, true) != null) {
            return;
        }
        for (VariableElement field : types.fields(type)) {
            String at = place + Names.local(field);
            List<java.lang.reflect.Field> on = new ArrayList<>(way);
            on.add(live.field(field));
            if (types.isObject(field.asType())) {
                TypeElement of = reach.living(types.element(field.asType()));
                walk(live.get(field, object), of, at + "->", on, seen);
            } else if (reach.isWritten(field)) {
                cell(field.asType(), at, on, live.get(field, object));
            }
        }
    }

    private void cell(TypeMirror type, String at, List<java.lang.reflect.Field> way, Object value) {
        if (types.elements(type).isPresent()) {
            int length = java.lang.reflect.Array.getLength(value);
            TypeMirror item = types.elements(type).orElseThrow();
            for (int i = 0; i < length; i++) {
                cells.add(new StateCell(at + "[" + i + "]", way, i));
            }
            String loop = "    for (int32_t i = 0; i < " + length + "; i++) {\n        ";
            save.append(loop).append(saved(item, at + "[i]", count + " + i")).append("\n    }\n");
            restore.append(loop)
                    .append(restored(item, at + "[i]", count + " + i"))
                    .append("\n    }\n");
            count += length;
        } else {
            cells.add(new StateCell(at, way, -1));
            save.append("    ").append(saved(type, at, "" + count)).append('\n');
            restore.append("    ").append(restored(type, at, "" + count)).append('\n');
            count++;
        }
    }

    private static String saved(TypeMirror type, String at, String index) {
        String value = type.getKind() == TypeKind.DOUBLE ? "of_real(" + at + ")" : at;
        return "into[" + index + "] = " + value + ";";
    }

    private String restored(TypeMirror type, String at, String index) {
        String from = "from[" + index + "]";
        String value = switch (type.getKind()) {
            case DOUBLE -> "to_real(" + from + ")";
            case BOOLEAN -> from + " != 0";
            default -> "(" + types.plain(type).orElseThrow() + ")" + from;
        };
        return at + " = " + value + ";";
    }

    String header() {
        return Frame.begin("fields", "Everything that is remembered from tick to tick, as numbers: for tests.")
                + "#include \"types.h\"\n\n"
                + "enum { SPRAG_FIELDS = " + count + " };\n\n"
                + "void sprag_fields_save(int64_t *into);\nvoid sprag_fields_restore(const int64_t *from);\n"
                + Frame.end("fields");
    }

    String code(List<String> needs) {
        StringBuilder text = new StringBuilder(Frame.MADE).append("#include \"board.h\"\n#include \"fields.h\"\n");
        needs.forEach(need -> text.append("#include \"").append(need).append(".h\"\n"));
        return text
                + """
                #include <string.h>

                static int64_t of_real(sprag_real value) {
                    double wide = (double)value;
                    int64_t bits = 0;
                    (void)memcpy(&bits, &wide, sizeof(bits));
                    return bits;
                }

                static sprag_real to_real(int64_t bits) {
                    double wide = 0;
                    (void)memcpy(&wide, &bits, sizeof(wide));
                    return (sprag_real)wide;
                }

                """
                + "void sprag_fields_save(int64_t *into) {\n" + save
                + "}\n\nvoid sprag_fields_restore(const int64_t *from) {\n"
                + restore + "}\n";
    }
}
