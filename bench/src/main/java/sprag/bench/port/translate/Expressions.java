package sprag.bench.port.translate;

import com.sun.source.tree.ArrayAccessTree;
import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.ConditionalExpressionTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.LiteralTree;
import com.sun.source.tree.MemberSelectTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.ParenthesizedTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.TypeCastTree;
import com.sun.source.tree.UnaryTree;
import com.sun.source.util.TreePath;
import java.util.Set;
import java.util.TreeSet;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.TypeKind;
import javax.lang.model.type.TypeMirror;

/** Writes expressions. */
final class Expressions {
    /** The C name of "no row of an enum", Java's null. */
    static final String NO_ROW = "SPRAG_NONE";

    private static final Set<Tree.Kind> LOGICAL = Set.of(Tree.Kind.CONDITIONAL_AND, Tree.Kind.CONDITIONAL_OR);
    private static final Set<Tree.Kind> SUMS =
            Set.of(Tree.Kind.PLUS, Tree.Kind.MINUS, Tree.Kind.MULTIPLY, Tree.Kind.DIVIDE, Tree.Kind.REMAINDER);

    final Sources sources;
    final Reach reach;
    final CTypes types;
    final Names names;
    /** Files whose declarations are needed. */
    final Set<String> needs = new TreeSet<>();

    private final Calls calls;

    Expressions(Sources sources, Reach reach, CTypes types, Names names) {
        this.sources = sources;
        this.reach = reach;
        this.types = types;
        this.names = names;
        calls = new Calls(this);
    }

    Element element(TreePath path) {
        return sources.trees().getElement(path);
    }

    TypeMirror type(TreePath path) {
        return sources.trees().getTypeMirror(path);
    }

    void need(Element element) {
        needs.add(Names.fileName(Names.file(element)));
    }

    static TreePath sub(TreePath path, Tree tree) {
        return new TreePath(path, tree);
    }

    /** Writes an expression as a certain type.
     *
     * @param path the expression
     * @param wanted the type that is needed there, as Java converts it; null for its own
     * @return C
     */
    String write(TreePath path, TypeMirror wanted) {
        Tree tree = path.getLeaf();
        if (tree instanceof ParenthesizedTree inner) {
            String text = write(sub(path, inner.getExpression()), wanted);
            return text.startsWith("(") && closes(text) ? text : "(" + text + ")";
        }
        if (tree instanceof ConditionalExpressionTree choice) {
            return choice(path, choice, wanted == null ? type(path) : wanted);
        }
        if (tree.getKind() == Tree.Kind.NULL_LITERAL) {
            return none(path, wanted);
        }
        TypeMirror own = type(path);
        TypeKind to = wanted == null ? own.getKind() : wanted.getKind();
        if (tree instanceof LiteralTree literal) {
            return literal(path, literal, to);
        }
        return convert(bare(path), own, wanted, tree);
    }

    /** Whether the parenthesis that opens the text closes at its end. */
    private static boolean closes(String text) {
        int depth = 0;
        for (int i = 0; i < text.length(); i++) {
            depth += text.charAt(i) == '(' ? 1 : text.charAt(i) == ')' ? -1 : 0;
            if (depth == 0 && i < text.length() - 1) {
                return false;
            }
        }
        return true;
    }

    private String none(TreePath path, TypeMirror wanted) {
        if (wanted != null && types.isEnum(wanted)) {
            return NO_ROW;
        }
        if (wanted != null && types.isObject(wanted)) {
            return "NULL";
        }
        throw sources.refuse(path, "a null of this type", "Use a row of an enum that says \"none\".");
    }

    private String choice(TreePath path, ConditionalExpressionTree tree, TypeMirror wanted) {
        String condition = write(sub(path, tree.getCondition()), null);
        String yes = write(sub(path, tree.getTrueExpression()), wanted);
        String no = write(sub(path, tree.getFalseExpression()), wanted);
        String test = tree.getCondition() instanceof BinaryTree ? "(" + condition + ")" : condition;
        String other = tree.getFalseExpression() instanceof ConditionalExpressionTree ? "(" + no + ")" : no;
        return test + " ? " + yes + " : " + other;
    }

    /** A whole number in the place of a quantity is written as one, so that no reader looks for an integer division. */
    private String literal(TreePath path, LiteralTree tree, TypeKind to) {
        Object value = tree.getValue();
        if (value instanceof Boolean) {
            return value.toString();
        }
        if (value instanceof Integer || value instanceof Long) {
            long whole = ((Number) value).longValue();
            return switch (to) {
                case DOUBLE -> whole + ".0" + types.real().suffix;
                case LONG -> whole == Long.MIN_VALUE ? "INT64_MIN" : "INT64_C(" + whole + ")";
                case INT, BYTE -> whole == Integer.MIN_VALUE ? "INT32_MIN" : Long.toString(whole);
                default -> throw sources.refuse(path, "a number as " + to, "Convert it in a line of its own.");
            };
        }
        if (value instanceof Double && to == TypeKind.DOUBLE) {
            return types.real((Double) value);
        }
        throw sources.refuse(path, "the literal " + tree, "Use numbers, booleans and rows of enums.");
    }

    String convert(String text, TypeMirror own, TypeMirror wanted, Tree tree) {
        if (wanted == null
                || own.getKind() == wanted.getKind()
                || !wanted.getKind().isPrimitive()) {
            return text;
        }
        String operand = tree instanceof BinaryTree ? "(" + text + ")" : text;
        return switch (wanted.getKind()) {
            case DOUBLE -> "(" + types.real().word + ")" + operand;
            case LONG -> "(int64_t)" + operand;
            default -> text;
        };
    }

    private String bare(TreePath path) {
        Tree tree = path.getLeaf();
        if (tree instanceof IdentifierTree) {
            return identifier(path);
        }
        if (tree instanceof MemberSelectTree select) {
            return member(path, select);
        }
        if (tree instanceof MethodInvocationTree call) {
            return calls.write(path, call);
        }
        if (tree instanceof BinaryTree binary) {
            return binary(path, binary);
        }
        if (tree instanceof UnaryTree unary) {
            return unary(path, unary);
        }
        if (tree instanceof TypeCastTree cast) {
            return cast(path, cast);
        }
        if (tree instanceof ArrayAccessTree access) {
            String index = write(sub(path, access.getIndex()), sources.types().getPrimitiveType(TypeKind.INT));
            return at(array(sub(path, access.getExpression())), index);
        }
        throw sources.refuse(path, words(tree), "Use a plainer expression; docs/porting.md lists what there is.");
    }

    private static String words(Tree tree) {
        return switch (tree.getKind()) {
            case NEW_CLASS, NEW_ARRAY -> "an object made during a tick";
            case LAMBDA_EXPRESSION, MEMBER_REFERENCE -> "a function as a value";
            case INSTANCE_OF -> "a look at the class of an object";
            case SWITCH_EXPRESSION -> "a switch inside an expression";
            case ASSIGNMENT, POSTFIX_INCREMENT, POSTFIX_DECREMENT -> "an assignment inside an expression";
            default -> tree.getKind() + " " + tree;
        };
    }

    private static String at(Array array, String index) {
        return array.place + "[sprag_index(" + index + ", " + array.length + ")]";
    }

    private String identifier(TreePath path) {
        Element element = element(path);
        if (element.getSimpleName().contentEquals("this")) {
            return "self";
        }
        return switch (element.getKind()) {
            case ENUM_CONSTANT -> constant(element);
            case FIELD -> field((VariableElement) element, "self", null);
            case LOCAL_VARIABLE, PARAMETER -> Names.local(element);
            default -> throw sources.refuse(path, "the name " + element, "Use fields, parameters and locals.");
        };
    }

    private String constant(Element row) {
        need(row);
        return Names.constant(row);
    }

    private String member(TreePath path, MemberSelectTree tree) {
        Element element = element(path);
        if (element.getKind() == ElementKind.ENUM_CONSTANT) {
            return constant(element);
        }
        TreePath owner = sub(path, tree.getExpression());
        boolean array = type(owner) != null && type(owner).getKind() == TypeKind.ARRAY;
        if (array && element.getSimpleName().contentEquals("length")) {
            return array(owner).length;
        }
        if (element.getKind() != ElementKind.FIELD) {
            throw sources.refuse(path, tree.toString(), "Use fields and methods of the supervisor.");
        }
        VariableElement field = (VariableElement) element;
        boolean static_ = field.getModifiers().contains(Modifier.STATIC);
        return field(field, static_ ? "" : write(owner, null), owner);
    }

    /** A field: of an object, of a row of an enum, or shared by all. */
    private String field(VariableElement field, String owner, TreePath ownerPath) {
        if (!sources.isOwn(field)) {
            return switch (field.getEnclosingElement() + "." + field.getSimpleName()) {
                case "java.lang.Double.NaN" -> "SPRAG_UNKNOWN";
                case "java.lang.Double.POSITIVE_INFINITY" -> "SPRAG_INFINITE";
                case "java.lang.Double.NEGATIVE_INFINITY" -> "(-SPRAG_INFINITE)";
                default -> throw sources.refuse(ownerPath, field.toString(), "Give the value a name of its own.");
            };
        }
        need(field);
        if (field.getModifiers().contains(Modifier.STATIC)) {
            return Names.shared(field);
        }
        TypeElement type = (TypeElement) field.getEnclosingElement();
        return type.getKind() == ElementKind.ENUM
                ? row(type, owner) + "->" + Names.local(field)
                : owner + "->" + Names.local(field);
    }

    private static String row(TypeElement type, String owner) {
        return Names.type(type) + "_row(" + owner + ")";
    }

    /** An array as C knows it: where it begins and how long it is. */
    record Array(String place, String length) {}

    Array array(TreePath path) {
        Element element = element(path);
        boolean shared =
                element.getKind() == ElementKind.FIELD && element.getModifiers().contains(Modifier.STATIC);
        String place = write(path, null);
        if (shared) {
            return new Array(place, "SPRAG_LENGTH(" + place + ")");
        }
        if (element.getKind() == ElementKind.METHOD) {
            throw sources.refuse(path, "an array that a method gives", "Use the array where it is kept.");
        }
        return new Array(place, place + "_length");
    }

    private String unary(TreePath path, UnaryTree tree) {
        String sign = switch (tree.getKind()) {
            case UNARY_MINUS -> "-";
            case LOGICAL_COMPLEMENT -> "!";
            case BITWISE_COMPLEMENT -> "~";
            default -> throw sources.refuse(path, words(tree), "Write it as a statement of its own.");
        };
        String text = write(sub(path, tree.getExpression()), type(path));
        return text.startsWith("-") ? sign + "(" + text + ")" : sign + text;
    }

    private String cast(TreePath path, TypeCastTree tree) {
        TreePath inner = sub(path, tree.getExpression());
        TypeKind from = type(inner).getKind();
        String text = write(inner, null);
        TypeKind to = type(path).getKind();
        if (from == TypeKind.DOUBLE && (to == TypeKind.LONG || to == TypeKind.BYTE)) {
            throw sources.refuse(path, "a quantity as " + type(path), "Convert it to int first.");
        }
        return switch (to) {
            case INT -> from == TypeKind.DOUBLE ? "sprag_to_int(" + text + ")" : "(int32_t)" + wrap(inner, text);
            case LONG -> "(int64_t)" + wrap(inner, text);
            case BYTE -> "(int8_t)" + wrap(inner, text);
            case DOUBLE -> "(" + types.real().word + ")" + wrap(inner, text);
            default -> throw sources.refuse(path, "this conversion", "Convert between numbers only.");
        };
    }

    private static String wrap(TreePath path, String text) {
        boolean plain = !(path.getLeaf() instanceof BinaryTree || path.getLeaf() instanceof ConditionalExpressionTree);
        return plain ? text : "(" + text + ")";
    }

    private String binary(TreePath path, BinaryTree tree) {
        TreePath left = sub(path, tree.getLeftOperand());
        TreePath right = sub(path, tree.getRightOperand());
        if (!LOGICAL.contains(tree.getKind())) {
            new Order(this).check(path, left, right);
        }
        switch (tree.getKind()) {
            case LEFT_SHIFT, RIGHT_SHIFT, UNSIGNED_RIGHT_SHIFT -> {
                return shift(path, left, right);
            }
            case EQUAL_TO, NOT_EQUAL_TO -> {
                if (isSelfTest(left, right)) {
                    boolean known = tree.getKind() == Tree.Kind.EQUAL_TO;
                    return (known ? "!" : "") + "isnan(" + write(left, null) + ")";
                }
            }
            default -> {}
        }
        TypeMirror common = common(left, right);
        return operand(tree, left, common) + " " + sign(path, tree) + " " + operand(tree, right, common);
    }

    /** {@code x == x} is true for all but an unknown number. */
    private boolean isSelfTest(TreePath left, TreePath right) {
        boolean same = left.getLeaf().toString().equals(right.getLeaf().toString());
        boolean names = left.getLeaf() instanceof IdentifierTree || left.getLeaf() instanceof MemberSelectTree;
        return same && names && type(left).getKind() == TypeKind.DOUBLE;
    }

    private String operand(BinaryTree parent, TreePath path, TypeMirror common) {
        String text = write(path, common);
        boolean mixed = path.getLeaf() instanceof BinaryTree child
                && child.getKind() != parent.getKind()
                && !(SUMS.contains(child.getKind()) && !isBitwise(parent.getKind()))
                && !(LOGICAL.contains(parent.getKind()) && !LOGICAL.contains(child.getKind()))
                && !text.startsWith("isnan(")
                && !text.startsWith("!isnan(");
        return mixed ? "(" + text + ")" : text;
    }

    private static boolean isBitwise(Tree.Kind kind) {
        return kind == Tree.Kind.AND || kind == Tree.Kind.OR || kind == Tree.Kind.XOR;
    }

    private String shift(TreePath path, TreePath left, TreePath right) {
        String word = switch (path.getLeaf().getKind()) {
            case LEFT_SHIFT -> "sprag_shift_left";
            case RIGHT_SHIFT -> "sprag_shift_right";
            default -> "sprag_shift_right_unsigned";
        };
        String bits = type(path).getKind() == TypeKind.LONG ? "64" : "32";
        String by = type(right).getKind() == TypeKind.LONG
                ? "(int32_t)" + wrap(right, write(right, null))
                : write(right, null);
        return word + bits + "(" + write(left, type(path)) + ", " + by + ")";
    }

    /** The type in which Java computes or compares two operands. */
    private TypeMirror common(TreePath left, TreePath right) {
        TypeMirror a = type(left);
        TypeMirror b = type(right);
        if (a.getKind() == TypeKind.NULL || b.getKind() == TypeKind.NULL) {
            return a.getKind() == TypeKind.NULL ? b : a;
        }
        for (TypeKind kind : new TypeKind[] {TypeKind.DOUBLE, TypeKind.LONG, TypeKind.INT}) {
            if (a.getKind() == kind || b.getKind() == kind) {
                return sources.types().getPrimitiveType(kind);
            }
        }
        return a.getKind() == TypeKind.BYTE ? sources.types().getPrimitiveType(TypeKind.INT) : null;
    }

    /** Refuses a compound assignment that Java computes in a wider type than that of the place. */
    void checkWidth(TreePath path, TreePath place, TreePath value) {
        TypeKind kind = type(place).getKind();
        TypeMirror common = kind.isPrimitive() && kind != TypeKind.BOOLEAN ? common(place, value) : type(place);
        if (!kind.isPrimitive() || common == null || common.getKind() != kind) {
            throw sources.refuse(
                    path,
                    "an assignment that narrows its result",
                    "Write it out with the conversion: place = (int) (place + value).");
        }
    }

    /** Refuses a division of whole numbers by what may be 0, or -1, which overflows. */
    void checkDivisor(TreePath path, TypeMirror type, TreePath divisor) {
        if (type.getKind() == TypeKind.DOUBLE) {
            return;
        }
        Object by = divisor.getLeaf() instanceof LiteralTree literal
                ? literal.getValue()
                : element(divisor) instanceof VariableElement named ? named.getConstantValue() : null;
        if (!(by instanceof Number number) || number.longValue() == 0 || number.longValue() == -1) {
            throw sources.refuse(
                    path,
                    "a division of whole numbers by what may be 0 or -1",
                    "Divide by a constant other than 0 and -1, or divide quantities.");
        }
    }

    private String sign(TreePath path, BinaryTree tree) {
        if (tree.getKind() == Tree.Kind.DIVIDE || tree.getKind() == Tree.Kind.REMAINDER) {
            checkDivisor(path, type(path), sub(path, tree.getRightOperand()));
        }
        if (tree.getKind() == Tree.Kind.REMAINDER && type(path).getKind() == TypeKind.DOUBLE) {
            throw sources.refuse(path, "a remainder of quantities", "Compute it by floor and multiplication.");
        }
        return switch (tree.getKind()) {
            case PLUS -> "+";
            case MINUS -> "-";
            case MULTIPLY -> "*";
            case DIVIDE -> "/";
            case REMAINDER -> "%";
            case AND -> "&";
            case OR -> "|";
            case XOR -> "^";
            case CONDITIONAL_AND -> "&&";
            case CONDITIONAL_OR -> "||";
            case EQUAL_TO -> "==";
            case NOT_EQUAL_TO -> "!=";
            case LESS_THAN -> "<";
            case LESS_THAN_EQUAL -> "<=";
            case GREATER_THAN -> ">";
            case GREATER_THAN_EQUAL -> ">=";
            default -> throw sources.refuse(path, tree.getKind().toString(), "Use plain arithmetic.");
        };
    }

    /** What a call hands over, used by {@link Calls}. */
    String argument(TreePath path, TypeMirror wanted) {
        if (types.elements(wanted).isPresent()) {
            Array array = array(path);
            return array.place + ", " + array.length;
        }
        return write(path, wanted);
    }
}
