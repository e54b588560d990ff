package sprag.bench.port.translate;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.ArrayType;
import javax.lang.model.type.DeclaredType;
import javax.lang.model.type.TypeKind;
import javax.lang.model.type.TypeMirror;

/** Which C type stands for a Java type. */
final class CTypes {
    private final Sources sources;
    private final Reach reach;
    private final Real real;

    /** The type of every quantity. */
    enum Real {
        /** Equal to Java to the last bit. */
        DOUBLE("double", ""),
        /** For a chip that has hardware for single precision only. */
        FLOAT("float", "f");

        /** The word of C. */
        final String word;
        /** What a literal ends with, and the functions of the mathematics library. */
        final String suffix;

        Real(String word, String suffix) {
            this.word = word;
            this.suffix = suffix;
        }
    }

    CTypes(Sources sources, Reach reach, Real real) {
        this.sources = sources;
        this.reach = reach;
        this.real = real;
    }

    Real real() {
        return real;
    }

    Live live() {
        return new Live(sources);
    }

    Refused refuseField(VariableElement field) {
        return sources.refuse(
                sources.path(field),
                "a field of type " + field.asType(),
                "Use numbers, booleans, rows of enums, sets of them, objects and arrays of these.");
    }

    /** The instance fields of a class or of the rows of an enum that a tick reaches, in the order of the sources. */
    List<VariableElement> fields(TypeElement type) {
        return sources.elements().getAllMembers(type).stream()
                .filter(e -> e.getKind() == ElementKind.FIELD && reach.fields().contains(e))
                .map(VariableElement.class::cast)
                .filter(f -> !f.getModifiers().contains(Modifier.STATIC))
                .sorted(Comparator.comparingLong(sources::place))
                .toList();
    }

    /** What a function that a row brings along is given. */
    String functionArgument(TypeMirror type) {
        TypeMirror argument = ((DeclaredType) type).getTypeArguments().get(0);
        return declare(argument, "", true).orElseThrow().strip();
    }

    /** A value that has no parts, as C reads it back to the last bit. */
    String value(TypeMirror type, Object value) {
        if (isEnum(type)) {
            return value == null ? Expressions.NO_ROW : Names.type(element(type)) + "_" + ((Enum<?>) value).name();
        }
        if (value instanceof Double number) {
            return real(number);
        }
        if (value instanceof Long number) {
            return number == Long.MIN_VALUE ? "INT64_MIN" : "INT64_C(" + number + ")";
        }
        if (value instanceof Integer number && number == Integer.MIN_VALUE) {
            return "INT32_MIN";
        }
        if (value instanceof Boolean || value instanceof Integer || value instanceof Byte) {
            return value.toString();
        }
        throw new IllegalStateException("no C for a value of type " + type);
    }

    /** A quantity as C reads it back to the last bit. */
    String real(double value) {
        if (value != value) {
            return "SPRAG_UNKNOWN";
        }
        if (Double.isInfinite(value)) {
            return value > 0 ? "SPRAG_INFINITE" : "-SPRAG_INFINITE";
        }
        String text = real == Real.FLOAT ? Float.toString((float) value) : Double.toString(value);
        return text + real.suffix;
    }

    /** The C type of a primitive, of an enum or of a set of them; empty for all others. */
    Optional<String> plain(TypeMirror type) {
        return Optional.ofNullable(
                switch (type.getKind()) {
                    case BOOLEAN -> "bool";
                    case BYTE -> "int8_t";
                    case INT -> "int32_t";
                    case LONG -> "int64_t";
                    case DOUBLE -> real.word;
                    case VOID -> "void";
                    default -> isEnum(type) ? Names.type(element(type)) : null;
                });
    }

    boolean isEnum(TypeMirror type) {
        TypeElement of = element(type);
        return of != null && of.getKind() == ElementKind.ENUM && sources.isOwn(of);
    }

    /** How many rows an enum has. */
    long rows(TypeMirror type) {
        return element(type).getEnclosedElements().stream()
                .filter(e -> e.getKind() == ElementKind.ENUM_CONSTANT)
                .count();
    }

    /** A class of the sources, whose objects are structs. */
    boolean isObject(TypeMirror type) {
        TypeElement of = element(type);
        return of != null && of.getKind() != ElementKind.ENUM && sources.isOwn(of);
    }

    boolean isFunction(TypeMirror type) {
        TypeElement of = element(type);
        return of != null
                && sources.elements().getPackageOf(of).getQualifiedName().contentEquals("java.util.function");
    }

    /** A set of rows of an enum: an array of yes and no by their order. */
    boolean isRowSet(TypeMirror type) {
        TypeElement of = element(type);
        boolean set = of != null
                && (of.getQualifiedName().contentEquals("java.util.Set")
                        || of.getQualifiedName().contentEquals("java.util.EnumSet"));
        return set && isEnum(((DeclaredType) type).getTypeArguments().get(0));
    }

    /** The enum whose rows a set holds. */
    TypeElement rowOf(TypeMirror set) {
        return element(((DeclaredType) set).getTypeArguments().get(0));
    }

    /** What an array, or a set taken as one, holds. */
    Optional<TypeMirror> elements(TypeMirror type) {
        if (type instanceof ArrayType array) {
            return Optional.of(array.getComponentType());
        }
        return isRowSet(type) ? Optional.of(sources.types().getPrimitiveType(TypeKind.BOOLEAN)) : Optional.empty();
    }

    TypeElement element(TypeMirror type) {
        Element of = type.getKind() == TypeKind.DECLARED ? sources.types().asElement(type) : null;
        return of instanceof TypeElement t ? t : null;
    }

    /** The struct of a class, constant when none of its objects changes. */
    String struct(TypeMirror type) {
        TypeElement living = reach.living(element(type));
        return (reach.isConstant(living) ? "const " : "") + Names.type(living);
    }

    /** A declaration of one variable that is no array.
     *
     * @param type its Java type
     * @param name its C name
     * @param unchanged whether the object behind it stays as it is
     * @return e.g. {@code const sprag_Facts *f}
     */
    Optional<String> declare(TypeMirror type, String name, boolean unchanged) {
        Optional<String> plain = plain(type);
        if (plain.isPresent()) {
            return Optional.of(plain.get() + " " + name);
        }
        if (!isObject(type)) {
            return Optional.empty();
        }
        String struct = struct(type);
        return Optional.of((unchanged && !struct.startsWith("const ") ? "const " : "") + struct + " *" + name);
    }

    /** Two declarations for an array: the place of its first element, and its length. */
    Optional<String> declareArray(TypeMirror type, String name, boolean unchanged, String between) {
        return elements(type).flatMap(element -> {
            Optional<String> item = plain(element);
            String head = item.isPresent()
                    ? (unchanged ? "const " : "") + item.get() + " *"
                    : isObject(element) ? struct(element) + " *" + (unchanged ? "const " : "") + "*" : null;
            return Optional.ofNullable(head).map(h -> h + name + between + "int32_t " + name + "_length");
        });
    }

    /** The name under which "this" reaches a function: an enum's row by value, an object by its place. */
    String self(ExecutableElement method) {
        TypeElement owner = (TypeElement) method.getEnclosingElement();
        if (owner.getKind() == ElementKind.ENUM) {
            return Names.type(owner) + " self";
        }
        String struct = struct(owner.asType());
        boolean unchanged = !struct.startsWith("const ") && !reach.changesObject(method);
        return (unchanged ? "const " : "") + struct + " *self";
    }
}
