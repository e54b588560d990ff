package sprag.bench.port.translate;

import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.MemberSelectTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.util.TreePath;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.TypeKind;

/** Writes calls. */
final class Calls {
    private final Expressions expressions;
    private final Sources sources;

    Calls(Expressions expressions) {
        this.expressions = expressions;
        this.sources = expressions.sources;
    }

    String write(TreePath path, MethodInvocationTree call) {
        ExecutableElement called =
                (ExecutableElement) expressions.element(Expressions.sub(path, call.getMethodSelect()));
        TypeElement owner = (TypeElement) called.getEnclosingElement();
        new Order(expressions).checkCall(path, call);
        if (expressions.reach.isTold(owner)) {
            expressions.needs.add("board");
            return Names.type(owner) + "_" + called.getSimpleName() + "(" + arguments(path, call, called) + ")";
        }
        if (sources.isOwn(owner) && sources.trees().getTree(called) != null) {
            return own(path, call, expressions.reach.target(called));
        }
        return foreign(path, call, called, owner);
    }

    private String own(TreePath path, MethodInvocationTree call, ExecutableElement target) {
        expressions.need(target);
        if (target.isVarArgs()) {
            throw sources.refuse(
                    path, "a call with any number of arguments", "Give the method a fixed number of them.");
        }
        List<String> all = new ArrayList<>();
        if (!target.getModifiers().contains(Modifier.STATIC)) {
            all.add(receiver(path, call));
        }
        String arguments = arguments(path, call, target);
        if (!arguments.isEmpty()) {
            all.add(arguments);
        }
        return expressions.names.function(target) + "(" + String.join(", ", all) + ")";
    }

    private String receiver(TreePath path, MethodInvocationTree call) {
        if (call.getMethodSelect() instanceof MemberSelectTree select) {
            TreePath selected = Expressions.sub(path, select);
            return expressions.write(Expressions.sub(selected, select.getExpression()), null);
        }
        return "self";
    }

    private String arguments(TreePath path, MethodInvocationTree call, ExecutableElement called) {
        List<String> texts = new ArrayList<>();
        for (int i = 0; i < call.getArguments().size(); i++) {
            ExpressionTree argument = call.getArguments().get(i);
            texts.add(expressions.argument(
                    Expressions.sub(path, argument),
                    called.getParameters().get(i).asType()));
        }
        return String.join(", ", texts);
    }

    private String foreign(TreePath path, MethodInvocationTree call, ExecutableElement called, TypeElement owner) {
        String name = owner.getQualifiedName() + "." + called.getSimpleName();
        String real = expressions.types.real().suffix;
        boolean whole = called.getReturnType().getKind() == TypeKind.INT;
        if (called.getReturnType().getKind() == TypeKind.LONG) {
            return refused(path, call);
        }
        return switch (name) {
            case "java.lang.Enum.ordinal" -> receiver(path, call);
            case "java.lang.Math.abs" -> plain(path, call, called, whole ? refused(path, call) : "fabs" + real);
            case "java.lang.Math.ceil" -> plain(path, call, called, "ceil" + real);
            case "java.lang.Math.sqrt" -> plain(path, call, called, "sqrt" + real);
            case "java.lang.Math.copySign" -> plain(path, call, called, "copysign" + real);
            case "java.lang.Math.min" -> plain(path, call, called, whole ? "sprag_min_int" : "sprag_min_real");
            case "java.lang.Math.max" -> plain(path, call, called, whole ? "sprag_max_int" : "sprag_max_real");
            case "java.util.Arrays.fill" -> "sprag_fill(" + arguments(path, call, called) + ")";
            case "java.lang.System.arraycopy" -> copy(path, call);
            case "java.util.Set.contains" -> contains(path, call);
            default -> applied(path, call, owner);
        };
    }

    private String plain(TreePath path, MethodInvocationTree call, ExecutableElement called, String function) {
        return function + "(" + arguments(path, call, called) + ")";
    }

    private String refused(TreePath path, MethodInvocationTree call) {
        throw sources.refuse(
                path,
                "the call " + call,
                "Use Math.abs, min, max, ceil, sqrt or copySign, or write a method: what else the library of a chip"
                        + " computes may differ in its last bits.");
    }

    private String contains(TreePath path, MethodInvocationTree call) {
        MemberSelectTree select = (MemberSelectTree) call.getMethodSelect();
        Expressions.Array set =
                expressions.array(Expressions.sub(Expressions.sub(path, select), select.getExpression()));
        ExpressionTree row = call.getArguments().get(0);
        String index = expressions.write(Expressions.sub(path, row), null);
        return set.place() + "[sprag_index(" + index + ", " + set.length() + ")]";
    }

    /** A copy of a whole array. */
    private String copy(TreePath path, MethodInvocationTree call) {
        List<String> texts =
                call.getArguments().stream().map(ExpressionTree::toString).collect(Collectors.toList());
        if (!texts.get(1).equals("0") || !texts.get(3).equals("0")) {
            throw sources.refuse(path, "a copy of a part of an array", "Copy it from its beginning, or write a loop.");
        }
        Expressions.Array from =
                expressions.array(Expressions.sub(path, call.getArguments().get(0)));
        Expressions.Array to =
                expressions.array(Expressions.sub(path, call.getArguments().get(2)));
        return "sprag_copy(" + from.place() + ", " + to.place() + ", "
                + expressions.write(Expressions.sub(path, call.getArguments().get(4)), null) + ")";
    }

    /** A function that a row of an enum brings along. */
    private String applied(TreePath path, MethodInvocationTree call, TypeElement owner) {
        if (call.getMethodSelect() instanceof MemberSelectTree select
                && owner.getQualifiedName().contentEquals("java.util.function.ToDoubleFunction")) {
            TreePath function = Expressions.sub(Expressions.sub(path, select), select.getExpression());
            Element field = expressions.element(function);
            if (field instanceof VariableElement && field.getKind() == ElementKind.FIELD) {
                ExpressionTree given = call.getArguments().get(0);
                return expressions.write(function, null) + "(" + expressions.write(Expressions.sub(path, given), null)
                        + ")";
            }
        }
        return refused(path, call);
    }
}
