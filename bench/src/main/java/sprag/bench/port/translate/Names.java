package sprag.bench.port.translate;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import javax.lang.model.element.Element;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.NestingKind;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.TypeMirror;
import javax.lang.model.util.ElementFilter;
import javax.lang.model.util.Types;

/** What things are called in C: as in Java, with a prefix on all that other files can see. Vendors' headers use short words too. */
final class Names {
    static final String PREFIX = "sprag_";

    /** Words that C and its library keep for themselves, as far as Java allows them. */
    private static final Set<String> TAKEN = Set.of(
            "auto",
            "extern",
            "inline",
            "register",
            "restrict",
            "signed",
            "sizeof",
            "struct",
            "typedef",
            "union",
            "unsigned",
            "bool",
            "true",
            "false",
            "self",
            "NULL",
            "NAN",
            "INFINITY",
            "OVERFLOW",
            "UNDERFLOW",
            "DOMAIN",
            "SING");

    private final Types types;

    Names(Types types) {
        this.types = types;
    }

    /** The name of a type without the prefix: that of a nested type follows the one around it. */
    static String plain(TypeElement type) {
        String own = type.getSimpleName().toString();
        return type.getNestingKind() == NestingKind.TOP_LEVEL
                ? own
                : plain((TypeElement) type.getEnclosingElement()) + "_" + own;
    }

    static String type(TypeElement type) {
        return PREFIX + plain(type);
    }

    /** The class in whose file a type stands. */
    static TypeElement file(Element element) {
        Element at = element;
        while (!(at instanceof TypeElement type && type.getNestingKind() == NestingKind.TOP_LEVEL)) {
            at = at.getEnclosingElement();
        }
        return (TypeElement) at;
    }

    /** {@code ContactorSequence} stands in {@code contactor_sequence.c}. */
    static String fileName(TypeElement topLevel) {
        return snake(topLevel.getSimpleName().toString());
    }

    static String snake(String camel) {
        return camel.replaceAll("([a-z0-9])([A-Z])", "$1_$2").toLowerCase(Locale.ROOT);
    }

    static String constant(Element enumConstant) {
        return type((TypeElement) enumConstant.getEnclosingElement()) + "_" + enumConstant.getSimpleName();
    }

    static boolean isPrivate(Element element) {
        return element.getModifiers().contains(Modifier.PRIVATE);
    }

    /** A static field: seen from its own file only when it is private in Java. */
    static String shared(VariableElement field) {
        TypeElement owner = (TypeElement) field.getEnclosingElement();
        boolean nested = owner.getNestingKind() != NestingKind.TOP_LEVEL;
        if (isPrivate(field) && !nested) {
            return safe(field.getSimpleName().toString());
        }
        return type(owner) + "_" + field.getSimpleName();
    }

    static String local(Element variable) {
        return safe(variable.getSimpleName().toString());
    }

    private static String safe(String name) {
        return TAKEN.contains(name) ? name + "_" : name;
    }

    /** A function. Methods of one name are told apart by the types in which they differ. */
    String function(ExecutableElement method) {
        TypeElement owner = (TypeElement) method.getEnclosingElement();
        String name = method.getSimpleName() + suffix(method, owner);
        return (isPrivate(method) ? plain(owner) : type(owner)) + "_" + name;
    }

    private String suffix(ExecutableElement method, TypeElement owner) {
        List<ExecutableElement> same = ElementFilter.methodsIn(owner.getEnclosedElements()).stream()
                .filter(m -> m.getSimpleName().equals(method.getSimpleName()))
                .toList();
        StringBuilder suffix = new StringBuilder();
        for (int i = 0; i < method.getParameters().size() && same.size() > 1; i++) {
            int at = i;
            boolean differs = same.stream()
                            .map(m -> word(m, at))
                            .collect(Collectors.toSet())
                            .size()
                    > 1;
            suffix.append(differs ? "_" + word(method, i) : "");
        }
        return suffix.toString();
    }

    private String word(ExecutableElement method, int parameter) {
        if (parameter >= method.getParameters().size()) {
            return "";
        }
        TypeMirror type = types.erasure(method.getParameters().get(parameter).asType());
        String text = type.toString();
        return text.substring(text.lastIndexOf('.') + 1).replace("[]", "s");
    }
}
