package sprag.bench.port.translate;

import com.sun.source.tree.LambdaExpressionTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.util.TreePath;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.ArrayType;
import javax.lang.model.type.TypeKind;
import javax.lang.model.type.TypeMirror;
import sprag.bench.vehicle.Problem;

/** Writes one header and one code file for each class of the supervisor. */
final class CodeFiles {
    private final Sources sources;
    private final Reach reach;
    private final CTypes types;
    private final Names names;
    private final Rows rows;
    private final List<Problem> problems = new ArrayList<>();

    CodeFiles(Sources sources, Reach reach, CTypes types) {
        this.sources = sources;
        this.reach = reach;
        this.types = types;
        names = new Names(sources.types());
        rows = new Rows(types, reach);
    }

    List<Problem> problems() {
        return problems;
    }

    /** All files of code, by name. */
    Map<String, String> write() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("types.h", typesHeader());
        for (TypeElement top : topLevels()) {
            String file = Names.fileName(top);
            files.put(file + ".h", header(top));
            String code = code(top);
            if (!code.isEmpty()) {
                files.put(file + ".c", code);
            }
        }
        return files;
    }

    /** Classes with something that a tick reaches, in the order of the sources. */
    private List<TypeElement> topLevels() {
        Set<TypeElement> used = usedTypes().stream().map(Names::file).collect(Collectors.toSet());
        return sources.declared().stream().filter(used::contains).toList();
    }

    /** Every type that a tick reaches, and the enums that occur in what it reaches. */
    private Set<TypeElement> usedTypes() {
        Set<TypeElement> used = new LinkedHashSet<>();
        for (ExecutableElement method : reach.methods()) {
            used.add((TypeElement) method.getEnclosingElement());
            method.getParameters().forEach(p -> addType(used, p.asType()));
            addType(used, method.getReturnType());
        }
        for (ExecutableElement hook : reach.hooks()) {
            hook.getParameters().forEach(p -> addType(used, p.asType()));
        }
        for (VariableElement field : reach.fields()) {
            used.add((TypeElement) field.getEnclosingElement());
            addType(used, field.asType());
        }
        used.removeIf(type -> !sources.isOwn(type) || reach.isTold(type));
        return used;
    }

    private void addType(Set<TypeElement> used, TypeMirror type) {
        TypeMirror item = type instanceof ArrayType array ? array.getComponentType() : type;
        TypeElement element = types.element(item);
        if (element != null && !types.isRowSet(item)) {
            used.add(reach.isTold(element) ? element : reach.living(element));
        }
    }

    private String typesHeader() {
        StringBuilder text = new StringBuilder(Frame.begin("types", "Every type, so that the headers need no order."));
        text.append("#include \"java.h\"\n\n");
        for (TypeElement type :
                usedTypes().stream().sorted(Comparator.comparing(Names::type)).toList()) {
            if (type.getKind() == ElementKind.ENUM) {
                text.append("typedef int32_t ").append(Names.type(type)).append(";\n");
            } else if (reach.living(type) == type && hasFields(type)) {
                text.append("typedef struct ")
                        .append(Names.type(type))
                        .append(' ')
                        .append(Names.type(type))
                        .append(";\n");
            }
        }
        return text + Frame.end("types");
    }

    private boolean hasFields(TypeElement type) {
        return !types.fields(type).isEmpty();
    }

    private List<TypeElement> withNested(TypeElement top) {
        Set<TypeElement> used = usedTypes();
        return sources.declared().stream()
                .filter(t -> Names.file(t) == top && used.contains(t))
                .toList();
    }

    private String header(TypeElement top) {
        String file = Names.fileName(top);
        StringBuilder text = new StringBuilder(Frame.begin(file, ""));
        text.append("#include \"types.h\"\n\n");
        for (TypeElement type : withNested(top)) {
            text.append(Comments.of(sources.elements().getDocComment(type), ""));
            if (type.getKind() == ElementKind.ENUM) {
                text.append(rows.declare(type, types.fields(type), sources.elements()));
            } else if (hasFields(type) && reach.living(type) == type) {
                text.append("struct ")
                        .append(Names.type(type))
                        .append(" {\n")
                        .append(members(type))
                        .append("};\n");
            }
            text.append('\n');
        }
        for (VariableElement field : statics(top)) {
            if (!Names.isPrivate(field)) {
                text.append(doc(field, "")).append(rows.shared(field, true));
            }
        }
        for (ExecutableElement method : methods(top)) {
            if (!Names.isPrivate(method)) {
                text.append('\n')
                        .append(doc(method, ""))
                        .append(signature(method))
                        .append(";\n");
            }
        }
        return text + Frame.end(file);
    }

    private String members(TypeElement type) {
        StringBuilder text = new StringBuilder();
        for (VariableElement field : types.fields(type)) {
            text.append(doc(field, "    "));
            text.append("    ").append(member(field)).append(";\n");
        }
        return text.toString();
    }

    private String member(VariableElement field) {
        String name = Names.local(field);
        return types.declareArray(field.asType(), name, !reach.isWritten(field), ";\n    ")
                .or(() -> types.declare(field.asType(), name, false))
                .orElseThrow(() -> types.refuseField(field));
    }

    private String doc(Element element, String indent) {
        return Comments.of(sources.elements().getDocComment(element), indent);
    }

    private List<VariableElement> statics(TypeElement top) {
        return reach.fields().stream()
                .filter(f -> Names.file(f) == top && f.getModifiers().contains(Modifier.STATIC))
                .sorted(Comparator.comparingLong(sources::place))
                .toList();
    }

    private List<ExecutableElement> methods(TypeElement top) {
        return reach.methods().stream()
                .filter(m -> Names.file(m) == top)
                .sorted(Comparator.comparingLong(sources::place))
                .toList();
    }

    private String signature(ExecutableElement method) {
        List<String> parameters = new ArrayList<>();
        if (!method.getModifiers().contains(Modifier.STATIC)) {
            parameters.add(types.self(method));
        }
        for (VariableElement p : method.getParameters()) {
            parameters.add(types.declareArray(p.asType(), Names.local(p), true, ", ")
                    .or(() -> types.declare(p.asType(), Names.local(p), !reach.changesObject(p)))
                    .orElseThrow(() -> sources.refuse(
                            sources.path(p), "a parameter of type " + p.asType(), "Pass a plain value.")));
        }
        String gives = types.declare(method.getReturnType(), "", false)
                .orElseThrow(() -> sources.refuse(
                        sources.path(method),
                        "a method that gives " + method.getReturnType(),
                        "Give a number, a boolean, a row of an enum or an object."))
                .strip();
        String inside = parameters.isEmpty() ? "void" : String.join(", ", parameters);
        boolean hidden = Names.isPrivate(method);
        String star = gives.endsWith("*") ? gives : gives + " ";
        return Wrapping.of("", (hidden ? "static " : "") + star + names.function(method) + "(" + inside + ")")
                .strip();
    }

    private String code(TypeElement top) {
        Expressions expressions = new Expressions(sources, reach, types, names);
        String file = Names.fileName(top);
        StringBuilder bodies = new StringBuilder();
        for (ExecutableElement method : methods(top)) {
            try {
                bodies.append('\n')
                        .append(Names.isPrivate(method) ? doc(method, "") : "")
                        .append(function(method, expressions));
            } catch (Refused refused) {
                problems.add(refused.problem());
            }
        }
        StringBuilder shared = new StringBuilder();
        for (VariableElement field : statics(top)) {
            String text = Names.isPrivate(field) ? doc(field, "") + rows.shared(field, false) : rows.sharedArray(field);
            shared.append(text.isEmpty() ? "" : "\n" + text);
        }
        String lambdas = lambdas(top, expressions);
        for (TypeElement type : withNested(top)) {
            shared.append(type.getKind() == ElementKind.ENUM ? rows.table(type, types.fields(type)) : "");
        }
        if (bodies.length() == 0 && shared.length() == 0) {
            return "";
        }
        rows.needs(
                        withNested(top).stream()
                                .flatMap(t -> types.fields(t).stream())
                                .toList(),
                        statics(top))
                .forEach(expressions::need);
        StringBuilder text = new StringBuilder(Frame.MADE + "#include \"" + file + ".h\"\n");
        new TreeSet<>(expressions.needs)
                .stream()
                        .filter(need -> !need.equals(file))
                        .forEach(need -> text.append("#include \"").append(need).append(".h\"\n"));
        String forward = methods(top).stream()
                .filter(Names::isPrivate)
                .map(m -> signature(m) + ";\n")
                .collect(Collectors.joining());
        return text.append(lambdas)
                .append(shared)
                .append(forward.isEmpty() ? "" : "\n" + forward)
                .append(bodies)
                .toString();
    }

    private String function(ExecutableElement method, Expressions expressions) {
        TreePath path = sources.path(method);
        MethodTree tree = (MethodTree) path.getLeaf();
        String body = new Statements(expressions, method).body(path, tree.getBody());
        StringBuilder unused = new StringBuilder();
        if (!method.getModifiers().contains(Modifier.STATIC) && !Statements.uses(body, "self")) {
            unused.append("    (void)self;\n");
        }
        for (VariableElement p : method.getParameters()) {
            String name = Names.local(p);
            unused.append(Statements.uses(body, name) ? "" : "    (void)" + name + ";\n");
            boolean array = types.elements(p.asType()).isPresent();
            unused.append(array && !Statements.uses(body, name + "_length") ? "    (void)" + name + "_length;\n" : "");
        }
        return signature(method) + " {\n" + unused + body + "}\n";
    }

    private String lambdas(TypeElement top, Expressions expressions) {
        StringBuilder text = new StringBuilder();
        reach.lambdas().forEach((field, all) -> {
            if (Names.file(field) == top) {
                all.forEach(lambda -> text.append('\n').append(lambda(field, lambda, expressions)));
            }
        });
        return text.toString();
    }

    private String lambda(VariableElement field, Reach.Lambda lambda, Expressions expressions) {
        LambdaExpressionTree tree = (LambdaExpressionTree) lambda.path().getLeaf();
        TreePath parameter = Expressions.sub(lambda.path(), tree.getParameters().get(0));
        Element given = expressions.element(parameter);
        String name = Names.local(given);
        String declared = types.declare(given.asType(), name, true)
                .orElseThrow(() -> sources.refuse(parameter, "this parameter", "Pass an object."));
        String value = expressions.write(
                Expressions.sub(lambda.path(), tree.getBody()), sources.types().getPrimitiveType(TypeKind.DOUBLE));
        String ignored = Statements.uses(value, name) ? "" : "    (void)" + name + ";\n";
        return "static " + types.real().word + " " + Rows.function(field, lambda.row()) + "(" + declared + ") {\n"
                + ignored + "    return " + value + ";\n}\n";
    }
}
