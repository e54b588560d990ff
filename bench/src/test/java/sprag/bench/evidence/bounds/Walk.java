package sprag.bench.evidence.bounds;

import com.sun.source.tree.ArrayAccessTree;
import com.sun.source.tree.AssignmentTree;
import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.BlockTree;
import com.sun.source.tree.CaseTree;
import com.sun.source.tree.CompoundAssignmentTree;
import com.sun.source.tree.ConditionalExpressionTree;
import com.sun.source.tree.EnhancedForLoopTree;
import com.sun.source.tree.ExpressionStatementTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.ForLoopTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.IfTree;
import com.sun.source.tree.LambdaExpressionTree;
import com.sun.source.tree.LiteralTree;
import com.sun.source.tree.MemberSelectTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.ParenthesizedTree;
import com.sun.source.tree.ReturnTree;
import com.sun.source.tree.StatementTree;
import com.sun.source.tree.SwitchExpressionTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.TypeCastTree;
import com.sun.source.tree.UnaryTree;
import com.sun.source.tree.VariableTree;
import java.lang.reflect.Array;
import java.lang.reflect.Field;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.ToDoubleFunction;

/**
 * Goes through the running code's own formulas with all values at once instead of one. A condition that can go both ways is gone through
 * both ways, each with what it says of the values, and what comes out is everything that either way gives.
 *
 * <p>It knows the part of Java that the shapers and the gate are written in, and refuses anything else: what it does not know, it does
 * not guess.
 */
final class Walk {
    /** Stands in for a method whose result a test wants to set. */
    interface Stub {
        Object result(List<Object> args);
    }

    private static final double INF = Double.POSITIVE_INFINITY;
    /** As many whole numbers may one cast give, each of which is gone through by itself. */
    private static final int MOST_INTS = 600;

    /** Of two variables it is known that their difference, written as it is, is not negative. */
    private static final String ORDERED = "ordered";

    /** A tree is equal to itself only. Classes of tests run side by side. */
    private static final Map<Tree, String> TEXTS = new ConcurrentHashMap<>();

    private final Code code = Code.supervisor();
    private final Map<String, Stub> stubs = new HashMap<>();
    private final Memory memory = new Memory();

    /** Where a method runs. */
    private record Place(Class<?> type, Object self) {}

    /** What became of some statements: where the code goes on, null for nowhere, and what was returned elsewhere. */
    private record Outcome(Memory next, Memory returned, Object value) {
        static Outcome goesOn(Memory next) {
            return new Outcome(next, null, null);
        }

        Outcome or(Outcome b) {
            return new Outcome(Memory.join(next, b.next), Memory.join(returned, b.returned), both(value, b.value));
        }

        static Object both(Object a, Object b) {
            return a == null ? b : b == null ? a : Memory.join(a, b);
        }
    }

    /** The memory where a condition holds and where it does not; null where that cannot be. */
    private record Fork(Memory holds, Memory fails) {}

    Walk stub(String method, Stub stub) {
        stubs.put(method, stub);
        return this;
    }

    Walk set(Object owner, String field, Object value) {
        memory.set(owner, field, value);
        return this;
    }

    Walk setElement(Object array, int index, Object value) {
        memory.setElement(array, Ints.of(index), value);
        return this;
    }

    Object get(Object owner, String field) {
        return memory.get(owner, field);
    }

    Reals real(Object owner, String field) {
        return (Reals) get(owner, field);
    }

    Object element(Object array, int index) {
        return memory.element(array, Ints.of(index));
    }

    /** The memory as it is now, to come back to. */
    Walk copy() {
        Walk twin = new Walk();
        twin.stubs.putAll(stubs);
        twin.memory.take(memory.copy());
        return twin;
    }

    /** Runs a method of an object, private or not. */
    Object call(Object self, String method, Object... args) {
        return invoke(self.getClass(), self, method, List.of(args), memory);
    }

    private Object invoke(Class<?> type, Object self, String name, List<Object> args, Memory m) {
        Stub stub = stubs.get(type.getSimpleName() + "." + name);
        if (stub != null) {
            return stub.result(args);
        }
        for (Class<?> at = type; at != null; at = at.getSuperclass()) {
            for (MethodTree method : code.methods(at, name)) {
                if (fits(method, args)) {
                    return run(new Place(at, self), method, args, m);
                }
            }
        }
        if (type.getEnclosingClass() != null && self == null) {
            return invoke(type.getEnclosingClass(), null, name, args, m);
        }
        return ready(type, self, name, args);
    }

    private static boolean fits(MethodTree method, List<Object> args) {
        if (method.getParameters().size() != args.size()) {
            return false;
        }
        for (int i = 0; i < args.size(); i++) {
            String type = text(method.getParameters().get(i).getType());
            Object arg = args.get(i);
            boolean fits = switch (type) {
                case "double" -> Memory.isNumber(arg);
                case "int" -> arg instanceof Ints;
                case "boolean" -> arg instanceof Truth;
                default ->
                    !(Memory.isNumber(arg) || arg instanceof Truth)
                            && arg.getClass().isArray() == type.endsWith("[]");
            };
            if (!fits) {
                return false;
            }
        }
        return true;
    }

    private Object run(Place place, MethodTree method, List<Object> args, Memory m) {
        Map<String, Object> callers = m.locals;
        m.locals = new HashMap<>();
        for (int i = 0; i < args.size(); i++) {
            VariableTree parameter = method.getParameters().get(i);
            m.locals.put(parameter.getName().toString(), as(parameter.getType(), args.get(i)));
        }
        Outcome end = block(place, method.getBody().getStatements(), 0, m);
        Memory after = Memory.join(end.next, end.returned);
        if (after == null) {
            throw new IllegalStateException("no value goes through " + method.getName());
        }
        after.locals = callers;
        m.take(after);
        return end.value == null ? null : as(method.getReturnType(), end.value);
    }

    /** How a tree is written. The compiler prints it anew each time, and that takes longer than the sum. */
    private static String text(Tree tree) {
        return TEXTS.computeIfAbsent(tree, Tree::toString);
    }

    private static Object as(Tree type, Object value) {
        return value instanceof Ints ints && text(type).equals("double") ? ints.real() : value;
    }

    /** What the sources do not hold: methods of enums, and those of the JDK. */
    private static Object ready(Class<?> type, Object self, String name, List<Object> args) {
        if (type == Math.class) {
            return math(name, args);
        }
        try {
            Method method = type.getMethod(name);
            method.setAccessible(true);
            return Memory.lift(method.invoke(self));
        } catch (NoSuchMethodException | IllegalAccessException | InvocationTargetException e) {
            throw new IllegalStateException("nothing is known of " + type.getSimpleName() + "." + name + args, e);
        }
    }

    private static Object math(String name, List<Object> args) {
        if (args.stream().allMatch(a -> a instanceof Ints)) {
            Ints a = (Ints) args.get(0);
            Ints b = (Ints) args.get(args.size() - 1);
            return switch (name) {
                case "min" -> new Ints(Math.min(a.lo(), b.lo()), Math.min(a.hi(), b.hi()));
                case "max" -> new Ints(Math.max(a.lo(), b.lo()), Math.max(a.hi(), b.hi()));
                default -> throw new IllegalStateException("nothing is known of Math." + name);
            };
        }
        Reals a = Memory.real(args.get(0));
        return switch (name) {
            case "abs" -> a.abs();
            case "floor" -> a.apply(Math::floor);
            case "ceil" -> a.apply(Math::ceil);
            default -> throw new IllegalStateException("nothing is known of Math." + name);
        };
    }

    // statements

    private Outcome block(Place p, List<? extends StatementTree> statements, int from, Memory m) {
        Outcome sofar = Outcome.goesOn(m);
        for (int i = from; i < statements.size(); i++) {
            if (statements.get(i) instanceof VariableTree v && v.getInitializer() instanceof TypeCastTree cast) {
                Outcome each = eachInt(p, statements, i, cast, sofar.next);
                return new Outcome(
                        each.next, Memory.join(sofar.returned, each.returned), Outcome.both(sofar.value, each.value));
            }
            if (statements.get(i) instanceof VariableTree v && text(v.getType()).equals("boolean")) {
                Outcome each = eachTruth(p, statements, i, sofar.next);
                return new Outcome(
                        each.next, Memory.join(sofar.returned, each.returned), Outcome.both(sofar.value, each.value));
            }
            Outcome one = statement(p, statements.get(i), sofar.next);
            sofar = new Outcome(
                    one.next, Memory.join(sofar.returned, one.returned), Outcome.both(sofar.value, one.value));
            if (sofar.next == null) {
                return sofar;
            }
        }
        return sofar;
    }

    /** A number that becomes whole is gone through once for each whole number, with what that says of the number. */
    private Outcome eachInt(Place p, List<? extends StatementTree> all, int at, TypeCastTree cast, Memory m) {
        VariableTree variable = (VariableTree) all.get(at);
        Object value = eval(p, cast, m);
        if (!(value instanceof Ints ints)
                || ints.isOne()
                || !text(cast.getType()).equals("int")) {
            m.locals.put(variable.getName().toString(), as(variable.getType(), value));
            return block(p, all, at + 1, m);
        }
        if (ints.hi() - ints.lo() > MOST_INTS) {
            throw new IllegalStateException("too many whole numbers from " + cast);
        }
        Outcome each = new Outcome(null, null, null);
        for (int k = ints.lo(); k <= ints.hi(); k++) {
            Memory one = m.copy();
            double from = k > 0 ? k : Math.nextUp(k - 1.0);
            double to = k < 0 ? k : Math.nextDown(k + 1.0);
            if (narrow(p, cast.getExpression(), from, to, k == 0, one)) {
                one.locals.put(variable.getName().toString(), Ints.of(k));
                each = each.or(block(p, all, at + 1, one));
            }
        }
        return each;
    }

    /** What a boolean variable was made from is remembered with it: the rest is gone through once for yes and once for no. */
    private Outcome eachTruth(Place p, List<? extends StatementTree> all, int at, Memory m) {
        VariableTree variable = (VariableTree) all.get(at);
        Fork fork = fork(p, variable.getInitializer(), m);
        Outcome each = new Outcome(null, null, null);
        for (Memory one : new Memory[] {fork.holds, fork.fails}) {
            if (one != null) {
                one.locals.put(variable.getName().toString(), Truth.of(one == fork.holds));
                each = each.or(block(p, all, at + 1, one));
            }
        }
        return each;
    }

    private Outcome statement(Place p, StatementTree tree, Memory m) {
        if (tree instanceof BlockTree block) {
            return block(p, block.getStatements(), 0, m);
        }
        if (tree instanceof ReturnTree back) {
            Object value = back.getExpression() == null ? null : eval(p, back.getExpression(), m);
            return new Outcome(null, m, value);
        }
        if (tree instanceof VariableTree variable) {
            Object value = eval(p, variable.getInitializer(), m);
            m.locals.put(variable.getName().toString(), as(variable.getType(), value));
            return Outcome.goesOn(m);
        }
        if (tree instanceof ExpressionStatementTree expression) {
            eval(p, expression.getExpression(), m);
            return Outcome.goesOn(m);
        }
        if (tree instanceof IfTree choice) {
            Fork fork = fork(p, choice.getCondition(), m);
            Outcome yes = fork.holds == null ? null : statement(p, choice.getThenStatement(), fork.holds);
            Outcome no = fork.fails == null || choice.getElseStatement() == null
                    ? Outcome.goesOn(fork.fails)
                    : statement(p, choice.getElseStatement(), fork.fails);
            return yes == null ? no : yes.or(no);
        }
        if (tree instanceof ForLoopTree loop) {
            return loop(p, loop, m);
        }
        if (tree instanceof EnhancedForLoopTree loop) {
            return loop(p, loop, m);
        }
        throw new IllegalStateException("nothing is known of " + tree.getKind() + ": " + tree);
    }

    private Outcome loop(Place p, ForLoopTree loop, Memory m) {
        loop.getInitializer().forEach(first -> statement(p, first, m));
        Outcome sofar = Outcome.goesOn(m);
        while (true) {
            Fork fork = fork(p, loop.getCondition(), sofar.next);
            if (fork.holds != null && fork.fails != null) {
                throw new IllegalStateException("nobody knows how often this is done: " + loop.getCondition());
            }
            if (fork.holds == null) {
                return sofar;
            }
            Outcome once = statement(p, loop.getStatement(), fork.holds);
            sofar = new Outcome(
                    once.next, Memory.join(sofar.returned, once.returned), Outcome.both(sofar.value, once.value));
            if (sofar.next == null) {
                return sofar;
            }
            for (ExpressionStatementTree next : loop.getUpdate()) {
                eval(p, next.getExpression(), sofar.next);
            }
        }
    }

    private Outcome loop(Place p, EnhancedForLoopTree loop, Memory m) {
        Object array = eval(p, loop.getExpression(), m);
        Outcome sofar = Outcome.goesOn(m);
        for (int i = 0; i < Array.getLength(array); i++) {
            sofar.next.locals.put(loop.getVariable().getName().toString(), sofar.next.element(array, Ints.of(i)));
            Outcome once = statement(p, loop.getStatement(), sofar.next);
            sofar = new Outcome(
                    once.next, Memory.join(sofar.returned, once.returned), Outcome.both(sofar.value, once.value));
            if (sofar.next == null) {
                return sofar;
            }
        }
        return sofar;
    }

    // expressions

    private Object eval(Place p, ExpressionTree tree, Memory m) {
        return switch (tree.getKind()) {
            case PARENTHESIZED -> eval(p, ((ParenthesizedTree) tree).getExpression(), m);
            case INT_LITERAL, DOUBLE_LITERAL, BOOLEAN_LITERAL -> Memory.lift(((LiteralTree) tree).getValue());
            case IDENTIFIER -> named(p, ((IdentifierTree) tree).getName().toString(), m);
            case MEMBER_SELECT -> member(p, (MemberSelectTree) tree, m);
            case ARRAY_ACCESS -> {
                Object array = eval(p, ((ArrayAccessTree) tree).getExpression(), m);
                yield m.element(array, (Ints) eval(p, ((ArrayAccessTree) tree).getIndex(), m));
            }
            case PLUS, MINUS, MULTIPLY, DIVIDE -> {
                Object left = eval(p, ((BinaryTree) tree).getLeftOperand(), m);
                Object sum = sum(tree.getKind(), left, eval(p, ((BinaryTree) tree).getRightOperand(), m));
                yield tree.getKind() == Tree.Kind.DIVIDE
                        ? ratio(p, (BinaryTree) tree, (Reals) sum, m)
                        : isOrdered(tree, m) ? ((Reals) sum).meet(0, INF, true) : sum;
            }
            case UNARY_MINUS -> {
                Object value = eval(p, ((UnaryTree) tree).getExpression(), m);
                yield value instanceof Ints i ? new Ints(-i.hi(), -i.lo()) : ((Reals) value).negate();
            }
            case TYPE_CAST -> cast((TypeCastTree) tree, eval(p, ((TypeCastTree) tree).getExpression(), m));
            case CONDITIONAL_EXPRESSION -> choice(p, (ConditionalExpressionTree) tree, m);
            case SWITCH_EXPRESSION -> choice(p, (SwitchExpressionTree) tree, m);
            case METHOD_INVOCATION -> call(p, (MethodInvocationTree) tree, m);
            case ASSIGNMENT -> {
                AssignmentTree assignment = (AssignmentTree) tree;
                yield put(p, assignment.getVariable(), eval(p, assignment.getExpression(), m), m);
            }
            case PLUS_ASSIGNMENT, MINUS_ASSIGNMENT, MULTIPLY_ASSIGNMENT, OR_ASSIGNMENT, AND_ASSIGNMENT -> {
                CompoundAssignmentTree assignment = (CompoundAssignmentTree) tree;
                Object before = eval(p, assignment.getVariable(), m);
                Object by = eval(p, assignment.getExpression(), m);
                yield put(p, assignment.getVariable(), changed(tree.getKind(), before, by), m);
            }
            case POSTFIX_INCREMENT -> {
                ExpressionTree variable = ((UnaryTree) tree).getExpression();
                Ints before = (Ints) eval(p, variable, m);
                put(p, variable, new Ints(before.lo() + 1, before.hi() + 1), m);
                yield before;
            }
            case LOGICAL_COMPLEMENT,
                    CONDITIONAL_AND,
                    CONDITIONAL_OR,
                    LESS_THAN,
                    GREATER_THAN,
                    LESS_THAN_EQUAL,
                    GREATER_THAN_EQUAL,
                    EQUAL_TO,
                    NOT_EQUAL_TO -> {
                Fork fork = fork(p, tree, m);
                m.take(Memory.join(fork.holds, fork.fails));
                yield new Truth(fork.holds != null, fork.fails != null);
            }
            default -> throw new IllegalStateException("nothing is known of " + tree.getKind() + ": " + tree);
        };
    }

    private static boolean isOrdered(Tree more, Tree less, Memory m) {
        return more instanceof IdentifierTree
                && less instanceof IdentifierTree
                && m.locals.get(text(more) + " - " + text(less)) == ORDERED;
    }

    private static boolean isOrdered(Tree tree, Memory m) {
        return tree.getKind() == Tree.Kind.MINUS && m.locals.get(text(tree)) == ORDERED;
    }

    /**
     * What corners cannot see of {@code (a - b) / (c - b)}, also written {@code -(a - b) / (c - b)}, and of {@code (a - b) / a}: where
     * {@code a} is at most {@code c}, above {@code b}, the quotient is at most 1, and not negative where {@code a - b} is not. That holds
     * for the rounded results too, because rounding turns no order around.
     */
    private Reals ratio(Place p, BinaryTree tree, Reals quotient, Memory m) {
        ExpressionTree part = bare(tree.getLeftOperand());
        boolean turned = part.getKind() == Tree.Kind.UNARY_MINUS;
        ExpressionTree difference = turned ? bare(((UnaryTree) part).getExpression()) : part;
        ExpressionTree whole = bare(tree.getRightOperand());
        if (difference.getKind() != Tree.Kind.MINUS || quotient.isEmpty()) {
            return quotient;
        }
        ExpressionTree a = ((BinaryTree) difference).getLeftOperand();
        ExpressionTree b = ((BinaryTree) difference).getRightOperand();
        Reals from = Memory.real(eval(p, b, m));
        boolean sameBase = whole.getKind() == Tree.Kind.MINUS
                && text(((BinaryTree) whole).getRightOperand()).equals(text(b))
                && Memory.real(eval(p, a, m)).hi()
                        <= Memory.real(eval(p, ((BinaryTree) whole).getLeftOperand(), m))
                                .lo();
        boolean ofItself = text(whole).equals(text(a)) && from.lo() >= 0;
        if (!(sameBase || ofItself) || !(Memory.real(eval(p, whole, m)).lo() > 0)) {
            return quotient;
        }
        double least = isOrdered(difference, m) ? 0 : -INF;
        return turned ? quotient.meet(-1, -least, quotient.nan()) : quotient.meet(least, 1, quotient.nan());
    }

    private static ExpressionTree bare(ExpressionTree tree) {
        return tree instanceof ParenthesizedTree inner ? bare(inner.getExpression()) : tree;
    }

    private static Object changed(Tree.Kind kind, Object before, Object by) {
        return switch (kind) {
            case PLUS_ASSIGNMENT -> sum(Tree.Kind.PLUS, before, by);
            case MINUS_ASSIGNMENT -> sum(Tree.Kind.MINUS, before, by);
            case MULTIPLY_ASSIGNMENT -> sum(Tree.Kind.MULTIPLY, before, by);
            case OR_ASSIGNMENT -> {
                Truth a = (Truth) before;
                Truth b = (Truth) by;
                yield new Truth(a.canHold() || b.canHold(), a.canFail() && b.canFail());
            }
            default -> {
                Truth a = (Truth) before;
                Truth b = (Truth) by;
                yield new Truth(a.canHold() && b.canHold(), a.canFail() || b.canFail());
            }
        };
    }

    private static Object sum(Tree.Kind kind, Object a, Object b) {
        if (a instanceof Ints x && b instanceof Ints y) {
            return switch (kind) {
                case PLUS -> new Ints(Math.addExact(x.lo(), y.lo()), Math.addExact(x.hi(), y.hi()));
                case MINUS -> new Ints(Math.subtractExact(x.lo(), y.hi()), Math.subtractExact(x.hi(), y.lo()));
                default -> throw new IllegalStateException("nothing is known of whole numbers and " + kind);
            };
        }
        Reals x = Memory.real(a);
        Reals y = Memory.real(b);
        return switch (kind) {
            case PLUS -> x.plus(y);
            case MINUS -> x.minus(y);
            case MULTIPLY -> x.times(y);
            default -> x.over(y);
        };
    }

    private static Object cast(TypeCastTree tree, Object value) {
        return switch (text(tree.getType())) {
            case "double" -> Memory.real(value);
            case "int" -> {
                if (value instanceof Ints) {
                    yield value;
                }
                Reals r = (Reals) value;
                Ints whole = r.isEmpty() ? Ints.of(0) : new Ints((int) r.lo(), (int) r.hi());
                yield r.nan() ? whole.join(Ints.of(0)) : whole;
            }
            default -> throw new IllegalStateException("nothing is known of a cast to " + tree.getType());
        };
    }

    private Object named(Place p, String name, Memory m) {
        if (m.locals.containsKey(name)) {
            return m.locals.get(name);
        }
        if (name.equals("this")) {
            return p.self;
        }
        for (Class<?> at = p.type; at != null; at = at.getEnclosingClass()) {
            Field field = Memory.field(at, name);
            if (field != null) {
                return read(field, p.self, m);
            }
        }
        Class<?> type = code.type(name);
        if (type == null) {
            throw new IllegalStateException("nothing is known of " + name + " in " + p.type.getSimpleName());
        }
        return type;
    }

    private static Object read(Field field, Object self, Memory m) {
        if ((field.getModifiers() & java.lang.reflect.Modifier.STATIC) == 0) {
            return m.get(self, field.getName());
        }
        try {
            return Memory.lift(field.get(null));
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot read " + field, e);
        }
    }

    private Object member(Place p, MemberSelectTree tree, Memory m) {
        Object owner = eval(p, tree.getExpression(), m);
        String name = tree.getIdentifier().toString();
        if (owner instanceof Class<?> type) {
            Field field = Memory.field(type, name);
            return field == null ? code.type(name) : read(field, null, m);
        }
        if (owner.getClass().isArray() && name.equals("length")) {
            return Ints.of(Array.getLength(owner));
        }
        return owner instanceof Enum<?> && m.get(owner, name) instanceof ToDoubleFunction
                ? code.lambda((Enum<?>) owner)
                : m.get(owner, name);
    }

    private Object call(Place p, MethodInvocationTree tree, Memory m) {
        List<Object> args = new java.util.ArrayList<>();
        if (tree.getMethodSelect() instanceof IdentifierTree own) {
            tree.getArguments().forEach(a -> args.add(eval(p, a, m)));
            return invoke(
                    p.self == null ? p.type : p.self.getClass(),
                    p.self,
                    own.getName().toString(),
                    args,
                    m);
        }
        MemberSelectTree select = (MemberSelectTree) tree.getMethodSelect();
        Object owner = eval(p, select.getExpression(), m);
        tree.getArguments().forEach(a -> args.add(eval(p, a, m)));
        String name = select.getIdentifier().toString();
        if (owner instanceof LambdaExpressionTree lambda) {
            Map<String, Object> callers = m.locals;
            m.locals = new HashMap<>();
            m.locals.put(lambda.getParameters().get(0).getName().toString(), args.get(0));
            Object value = eval(p, (ExpressionTree) lambda.getBody(), m);
            m.locals = callers;
            return value;
        }
        return owner instanceof Class<?> type
                ? invoke(type, null, name, args, m)
                : invoke(owner.getClass(), owner, name, args, m);
    }

    private Object put(Place p, ExpressionTree to, Object value, Memory m) {
        if (to instanceof ArrayAccessTree access) {
            Object array = eval(p, access.getExpression(), m);
            boolean real = array.getClass().getComponentType() == double.class;
            Object put = real ? Memory.real(value) : value;
            m.setElement(array, (Ints) eval(p, access.getIndex(), m), put);
            return put;
        }
        if (to instanceof MemberSelectTree member) {
            return put(
                    eval(p, member.getExpression(), m), member.getIdentifier().toString(), value, m);
        }
        String name = ((IdentifierTree) to).getName().toString();
        if (m.locals.containsKey(name)) {
            m.locals.values().removeIf(known -> known == ORDERED);
            Object put = m.locals.get(name) instanceof Reals ? Memory.real(value) : value;
            m.locals.put(name, put);
            return put;
        }
        return put(p.self, name, value, m);
    }

    private static Object put(Object owner, String name, Object value, Memory m) {
        boolean real = Memory.field(owner.getClass(), name).getType() == double.class;
        Object put = real ? Memory.real(value) : value;
        m.set(owner, name, put);
        return put;
    }

    private Object choice(Place p, ConditionalExpressionTree tree, Memory m) {
        Fork fork = fork(p, tree.getCondition(), m);
        Object yes = fork.holds == null ? null : eval(p, tree.getTrueExpression(), fork.holds);
        Object no = fork.fails == null ? null : eval(p, tree.getFalseExpression(), fork.fails);
        m.take(Memory.join(fork.holds, fork.fails));
        return Outcome.both(yes, no);
    }

    private Object choice(Place p, SwitchExpressionTree tree, Memory m) {
        Enum<?> selector = (Enum<?>) eval(p, tree.getExpression(), m);
        for (CaseTree one : tree.getCases()) {
            for (ExpressionTree label : one.getExpressions()) {
                if (text(label).equals(selector.name())) {
                    return eval(p, (ExpressionTree) one.getBody(), m);
                }
            }
        }
        throw new IllegalStateException(selector + " has no case");
    }

    // conditions

    private Fork fork(Place p, ExpressionTree tree, Memory m) {
        switch (tree.getKind()) {
            case PARENTHESIZED -> {
                return fork(p, ((ParenthesizedTree) tree).getExpression(), m);
            }
            case LOGICAL_COMPLEMENT -> {
                Fork fork = fork(p, ((UnaryTree) tree).getExpression(), m);
                return new Fork(fork.fails, fork.holds);
            }
            case CONDITIONAL_AND -> {
                Fork a = fork(p, ((BinaryTree) tree).getLeftOperand(), m);
                Fork b = a.holds == null
                        ? new Fork(null, null)
                        : fork(p, ((BinaryTree) tree).getRightOperand(), a.holds);
                return new Fork(b.holds, Memory.join(a.fails, b.fails));
            }
            case CONDITIONAL_OR -> {
                Fork a = fork(p, ((BinaryTree) tree).getLeftOperand(), m);
                Fork b = a.fails == null
                        ? new Fork(null, null)
                        : fork(p, ((BinaryTree) tree).getRightOperand(), a.fails);
                return new Fork(Memory.join(a.holds, b.holds), b.fails);
            }
            case METHOD_INVOCATION -> {
                Fork inlined = inlined(p, (MethodInvocationTree) tree, m);
                if (inlined != null) {
                    return inlined;
                }
                Truth truth = (Truth) eval(p, tree, m);
                return new Fork(truth.canHold() ? m.copy() : null, truth.canFail() ? m.copy() : null);
            }
            case CONDITIONAL_EXPRESSION -> {
                ConditionalExpressionTree choice = (ConditionalExpressionTree) tree;
                Fork which = fork(p, choice.getCondition(), m);
                Fork none = new Fork(null, null);
                Fork yes = which.holds == null ? none : fork(p, choice.getTrueExpression(), which.holds);
                Fork no = which.fails == null ? none : fork(p, choice.getFalseExpression(), which.fails);
                return new Fork(Memory.join(yes.holds, no.holds), Memory.join(yes.fails, no.fails));
            }
            case LESS_THAN, GREATER_THAN, LESS_THAN_EQUAL, GREATER_THAN_EQUAL, EQUAL_TO, NOT_EQUAL_TO -> {
                return compare(p, (BinaryTree) tree, m);
            }
            default -> {
                Truth truth = (Truth) eval(p, tree, m);
                return new Fork(truth.canHold() ? m.copy() : null, truth.canFail() ? m.copy() : null);
            }
        }
    }

    /** A method that is one condition says of its values what the condition says; null for any other method. */
    private Fork inlined(Place p, MethodInvocationTree tree, Memory m) {
        List<Object> args = new java.util.ArrayList<>();
        Object owner = tree.getMethodSelect() instanceof MemberSelectTree select
                ? eval(p, select.getExpression(), m)
                : p.self == null ? p.type : p.self;
        String name = tree.getMethodSelect() instanceof MemberSelectTree select
                ? select.getIdentifier().toString()
                : tree.getMethodSelect().toString();
        tree.getArguments().forEach(a -> args.add(eval(p, a, m)));
        Class<?> type = owner instanceof Class<?> fixed ? fixed : owner.getClass();
        if (stubs.containsKey(type.getSimpleName() + "." + name)) {
            return null;
        }
        for (MethodTree method : code.methods(type, name)) {
            if (fits(method, args)
                    && method.getBody().getStatements().size() == 1
                    && method.getBody().getStatements().get(0) instanceof ReturnTree only) {
                Map<String, Object> callers = m.locals;
                m.locals = new HashMap<>();
                for (int i = 0; i < args.size(); i++) {
                    VariableTree parameter = method.getParameters().get(i);
                    m.locals.put(parameter.getName().toString(), as(parameter.getType(), args.get(i)));
                }
                Fork fork = fork(new Place(type, owner instanceof Class<?> ? null : owner), only.getExpression(), m);
                m.locals = callers;
                for (Memory one : new Memory[] {fork.holds, fork.fails}) {
                    if (one != null) {
                        one.locals = new HashMap<>(callers);
                    }
                }
                return fork;
            }
        }
        return null;
    }

    private Fork compare(Place p, BinaryTree tree, Memory m) {
        ExpressionTree left = tree.getLeftOperand();
        ExpressionTree right = tree.getRightOperand();
        Object a = eval(p, left, m);
        Object b = eval(p, right, m);
        if (!Memory.isNumber(a) || !Memory.isNumber(b)) {
            boolean same = a == b;
            boolean holds = same == (tree.getKind() == Tree.Kind.EQUAL_TO);
            return new Fork(holds ? m.copy() : null, holds ? null : m.copy());
        }
        Reals x = Memory.real(a);
        Reals y = Memory.real(b);
        boolean known = !x.nan() && !y.nan();
        if (known && tree.getKind() == Tree.Kind.LESS_THAN_EQUAL && isOrdered(right, left, m)
                || known && tree.getKind() == Tree.Kind.GREATER_THAN_EQUAL && isOrdered(left, right, m)) {
            return new Fork(m.copy(), null);
        }
        boolean itself = text(left).equals(text(right));
        return switch (tree.getKind()) {
            case LESS_THAN -> new Fork(below(p, left, right, x, y, true, m), notBelow(p, left, right, x, y, false, m));
            case LESS_THAN_EQUAL ->
                new Fork(below(p, left, right, x, y, false, m), notBelow(p, left, right, x, y, true, m));
            case GREATER_THAN ->
                new Fork(below(p, right, left, y, x, true, m), notBelow(p, right, left, y, x, false, m));
            case GREATER_THAN_EQUAL ->
                new Fork(below(p, right, left, y, x, false, m), notBelow(p, right, left, y, x, true, m));
            case EQUAL_TO -> equal(p, left, right, x, y, itself, m);
            default -> {
                Fork fork = equal(p, left, right, x, y, itself, m);
                yield new Fork(fork.fails, fork.holds);
            }
        };
    }

    /** Where x is below y, and so neither of them NaN. */
    private Memory below(
            Place p, ExpressionTree left, ExpressionTree right, Reals x, Reals y, boolean strict, Memory m) {
        if (x.isEmpty() || y.isEmpty()) {
            return null;
        }
        Memory one = m.copy();
        double most = strict ? Math.nextDown(y.hi()) : y.hi();
        double least = strict ? Math.nextUp(x.lo()) : x.lo();
        if (x.lo() > most || y.hi() < least || strict && (y.hi() == -INF || x.lo() == INF)) {
            return null;
        }
        if (!narrow(p, left, -INF, most, false, one) || !narrow(p, right, least, INF, false, one)) {
            return null;
        }
        if (left instanceof IdentifierTree && right instanceof IdentifierTree) {
            // the one thing that is kept of how two variables stand to each other: their difference has a sign
            one.locals.put(text(right) + " - " + text(left), ORDERED);
        }
        return one;
    }

    /** Where x is not below y: above it, or one of them NaN. */
    private Memory notBelow(
            Place p, ExpressionTree left, ExpressionTree right, Reals x, Reals y, boolean strict, Memory m) {
        if (x.nan() || y.nan()) {
            boolean ordered = !x.isEmpty() && !y.isEmpty();
            Memory one = m.copy();
            boolean can = true;
            if (!y.nan() && ordered) {
                can &= narrow(p, left, strict ? Math.nextUp(y.lo()) : y.lo(), INF, true, one);
            }
            if (!x.nan() && ordered) {
                can &= narrow(p, right, -INF, strict ? Math.nextDown(x.hi()) : x.hi(), true, one);
            }
            return can ? one : null;
        }
        return below(p, right, left, y, x, strict, m);
    }

    private Fork equal(Place p, ExpressionTree left, ExpressionTree right, Reals x, Reals y, boolean itself, Memory m) {
        if (itself) {
            Memory known = m.copy();
            boolean can = !x.isEmpty() && narrow(p, left, -INF, INF, false, known);
            Memory unknown = m.copy();
            return new Fork(can ? known : null, x.nan() && narrow(p, left, INF, -INF, true, unknown) ? unknown : null);
        }
        Memory same = m.copy();
        double lo = Math.max(x.lo(), y.lo());
        double hi = Math.min(x.hi(), y.hi());
        boolean can = lo <= hi && narrow(p, left, lo, hi, false, same) && narrow(p, right, lo, hi, false, same);
        boolean always = x.lo() == x.hi() && y.lo() == y.hi() && x.lo() == y.lo() && !x.nan() && !y.nan();
        return new Fork(can ? same : null, always ? null : other(p, left, right, x, y, m));
    }

    /** Where two values differ: one that is at the end of the other's range loses that end. */
    private Memory other(Place p, ExpressionTree left, ExpressionTree right, Reals x, Reals y, Memory m) {
        Memory one = m.copy();
        if (y.lo() == y.hi() && !y.nan()) {
            return differs(p, left, x, y.lo(), one) ? one : null;
        }
        if (x.lo() == x.hi() && !x.nan()) {
            return differs(p, right, y, x.lo(), one) ? one : null;
        }
        return one;
    }

    private boolean differs(Place p, ExpressionTree tree, Reals value, double not, Memory m) {
        if (value.lo() == not) {
            return narrow(p, tree, Math.nextUp(not), INF, true, m);
        }
        return value.hi() != not || narrow(p, tree, -INF, Math.nextDown(not), true, m);
    }

    /** Takes over what a condition says of an expression; false when it cannot be. */
    private boolean narrow(Place p, ExpressionTree tree, double from, double to, boolean nan, Memory m) {
        if (tree instanceof ParenthesizedTree inner) {
            return narrow(p, inner.getExpression(), from, to, nan, m);
        }
        if (tree instanceof IdentifierTree || tree instanceof MemberSelectTree || tree instanceof ArrayAccessTree) {
            Object value = eval(p, tree, m);
            if (value instanceof Ints ints) {
                int lo = (int) Math.max(ints.lo(), Math.ceil(from));
                int hi = (int) Math.min(ints.hi(), Math.floor(to));
                return lo <= hi && (ints.isOne() || put(p, tree, new Ints(lo, hi), m) != null);
            }
            Reals kept = ((Reals) value).meet(from, to, nan);
            if (kept.isNothing()) {
                return false;
            }
            boolean variable = !(kept.lo() == kept.hi() && kept.equals(value));
            if (variable
                    && tree instanceof IdentifierTree local
                    && m.locals.containsKey(local.getName().toString())) {
                m.locals.put(local.getName().toString(), kept); // the same value, better known
                return true;
            }
            return !variable || put(p, tree, kept, m) != null;
        }
        if (tree.getKind() == Tree.Kind.MULTIPLY && from <= to) {
            BinaryTree product = (BinaryTree) tree;
            Object by = eval(p, product.getRightOperand(), m);
            Reals factor = Memory.isNumber(by) ? Memory.real(by) : Reals.ANY;
            if (factor.lo() == factor.hi() && !factor.nan() && factor.lo() > 0 && factor.hi() < INF) {
                double least = Math.nextDown(from / factor.lo());
                double most = Math.nextUp(to / factor.lo());
                return narrow(p, product.getLeftOperand(), least, most, nan, m);
            }
        }
        return true;
    }
}
