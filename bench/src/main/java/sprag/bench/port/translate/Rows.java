package sprag.bench.port.translate;

import java.lang.reflect.Array;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.TypeKind;
import javax.lang.model.type.TypeMirror;
import javax.lang.model.util.ElementFilter;
import javax.lang.model.util.Elements;

/** Writes what is the same for every vehicle: the rows of the enums and the shared constants. */
final class Rows {
    private final CTypes types;
    private final Reach reach;
    private final Live live;

    Rows(CTypes types, Reach reach) {
        this.types = types;
        this.reach = reach;
        this.live = types.live();
    }

    /** The function that a row brings along. */
    static String function(VariableElement field, String row) {
        return row + "_" + field.getSimpleName();
    }

    /** The order of the rows, and the table of what stands in them. */
    String declare(TypeElement type, List<VariableElement> fields, Elements elements) {
        String name = Names.type(type);
        List<? extends Element> constants = constants(type);
        StringBuilder text = new StringBuilder("enum {\n");
        for (int i = 0; i < constants.size(); i++) {
            String doc = Comments.of(elements.getDocComment(constants.get(i)), "    ");
            text.append(doc.isEmpty() ? Comments.ofWords(words(type, i), "    ") : doc);
            text.append("    ")
                    .append(Names.constant(constants.get(i)))
                    .append(" = ")
                    .append(i)
                    .append(",\n");
        }
        text.append("    ")
                .append(name)
                .append("_ROW_COUNT = ")
                .append(constants.size())
                .append("\n};\n");
        if (!fields.isEmpty()) {
            text.append("\ntypedef struct {\n");
            for (VariableElement field : fields) {
                text.append(Comments.of(elements.getDocComment(field), "    "));
                text.append("    ").append(member(field)).append(";\n");
            }
            text.append("} ")
                    .append(name)
                    .append("_Row;\n\nextern const ")
                    .append(name)
                    .append("_Row ");
            text.append(name).append("_ROWS[").append(constants.size()).append("];\n\n");
            text.append("static inline const ")
                    .append(name)
                    .append("_Row *")
                    .append(name)
                    .append("_row(")
                    .append(name);
            text.append(" row) {\n    return &")
                    .append(name)
                    .append("_ROWS[sprag_index(row, ")
                    .append(name);
            text.append("_ROW_COUNT)];\n}\n");
        }
        return text.toString();
    }

    /** What a row says about itself to people. It does not go to the chip, but a reader of the C wants it. */
    private String words(TypeElement type, int row) {
        Object constant = live.type(type).getEnumConstants()[row];
        return ElementFilter.fieldsIn(type.getEnclosedElements()).stream()
                .filter(field -> !field.getModifiers().contains(Modifier.STATIC)
                        && field.asType().toString().equals("java.lang.String"))
                .map(field -> (String) live.get(field, constant))
                .filter(words -> words != null && !words.isBlank())
                .collect(Collectors.joining(": "));
    }

    private String member(VariableElement field) {
        if (types.isFunction(field.asType())) {
            String given = types.functionArgument(field.asType());
            return types.real().word + " (*" + Names.local(field) + ")(" + given + ")";
        }
        return types.declare(field.asType(), Names.local(field), true).orElseThrow(() -> types.refuseField(field));
    }

    private static List<? extends Element> constants(TypeElement type) {
        return type.getEnclosedElements().stream()
                .filter(e -> e.getKind() == ElementKind.ENUM_CONSTANT)
                .toList();
    }

    /** The table behind an enum, with the objects that its rows hold. */
    String table(TypeElement type, List<VariableElement> fields) {
        if (fields.isEmpty()) {
            return "";
        }
        Object[] rows = live.type(type).getEnumConstants();
        StringBuilder objects = new StringBuilder();
        StringBuilder table = new StringBuilder();
        for (Object row : rows) {
            List<String> values = new ArrayList<>();
            for (VariableElement field : fields) {
                values.add("." + Names.local(field) + " = " + value(field, row, objects));
            }
            table.append("    [")
                    .append(Names.type(type))
                    .append('_')
                    .append(((Enum<?>) row).name())
                    .append("] = {");
            table.append(String.join(", ", values)).append("},\n");
        }
        String name = Names.type(type);
        return "\n" + objects + "const " + name + "_Row " + name + "_ROWS[" + rows.length + "] = {\n" + table + "};\n";
    }

    private String value(VariableElement field, Object row, StringBuilder objects) {
        String rowName = ((Enum<?>) row).name();
        if (types.isFunction(field.asType())) {
            return function(field, rowName);
        }
        Object value = live.get(field, row);
        if (!types.isObject(field.asType())) {
            return types.value(field.asType(), value);
        }
        if (value == null) {
            return "NULL";
        }
        TypeElement type = reach.living(types.element(field.asType()));
        String name = rowName + "_" + field.getSimpleName();
        List<String> parts = new ArrayList<>();
        for (VariableElement inner : types.fields(type)) {
            parts.add("." + Names.local(inner) + " = " + types.value(inner.asType(), live.get(inner, value)));
        }
        objects.append("static const ")
                .append(Names.type(type))
                .append(' ')
                .append(name)
                .append(" = {");
        objects.append(String.join(", ", parts)).append("};\n");
        return "&" + name;
    }

    /** A constant that all share; of an array, in a header, only that it is there. */
    String shared(VariableElement field, boolean inHeader) {
        TypeMirror type = field.asType();
        String name = Names.shared(field);
        if (type.getKind() == TypeKind.ARRAY) {
            Object array = live.get(field, null);
            String item = types.plain(types.elements(type).orElseThrow()).orElseThrow(() -> types.refuseField(field));
            String head = "const " + item + " " + name + "[" + Array.getLength(array) + "]";
            return inHeader ? "extern " + head + ";\n" : "static " + head + " = " + list(type, array) + ";\n";
        }
        String item = types.plain(type).orElseThrow(() -> types.refuseField(field));
        return "static const " + item + " " + name + " = " + types.value(type, live.get(field, null)) + ";\n";
    }

    /** The array that a header has announced. */
    String sharedArray(VariableElement field) {
        if (field.asType().getKind() != TypeKind.ARRAY) {
            return "";
        }
        return shared(field, false).replaceFirst("^static ", "");
    }

    private String list(TypeMirror type, Object array) {
        TypeMirror item = types.elements(type).orElseThrow();
        List<String> values = new ArrayList<>();
        for (int i = 0; i < Array.getLength(array); i++) {
            values.add(types.value(item, Array.get(array, i)));
        }
        return "{\n" + Wrapping.of("    ", String.join(", ", values)) + "}";
    }

    /** The enums and classes that the tables speak of. */
    Collection<Element> needs(List<VariableElement> fields, List<VariableElement> statics) {
        return Stream.concat(fields.stream(), statics.stream())
                .map(f -> f.asType() instanceof javax.lang.model.type.ArrayType a ? a.getComponentType() : f.asType())
                .filter(t -> types.isEnum(t) || types.isObject(t))
                .map(t -> reach.living(types.element(t)))
                .flatMap(t -> Stream.concat(
                        Stream.of(t),
                        t.getKind() == ElementKind.ENUM
                                ? Stream.empty()
                                : types.fields(t).stream()
                                        .filter(f -> types.isEnum(f.asType()))
                                        .map(f -> types.element(f.asType()))))
                .collect(Collectors.toSet());
    }
}
