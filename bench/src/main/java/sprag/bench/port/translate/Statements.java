package sprag.bench.port.translate;

import com.sun.source.tree.ArrayAccessTree;
import com.sun.source.tree.AssertTree;
import com.sun.source.tree.AssignmentTree;
import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.BlockTree;
import com.sun.source.tree.CaseTree;
import com.sun.source.tree.CompoundAssignmentTree;
import com.sun.source.tree.EnhancedForLoopTree;
import com.sun.source.tree.ExpressionStatementTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.ForLoopTree;
import com.sun.source.tree.IfTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.ParenthesizedTree;
import com.sun.source.tree.ReturnTree;
import com.sun.source.tree.StatementTree;
import com.sun.source.tree.SwitchExpressionTree;
import com.sun.source.tree.SwitchTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.UnaryTree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.TreePath;
import java.util.List;
import java.util.function.BiConsumer;
import javax.lang.model.element.Element;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.type.TypeKind;
import javax.lang.model.type.TypeMirror;

/** Writes the body of one method. */
final class Statements {
    private static final String STEP = "    ";

    private final Expressions expressions;
    private final Sources sources;
    private final TypeMirror gives;
    private final StringBuilder out = new StringBuilder();
    private String indent = STEP;

    Statements(Expressions expressions, ExecutableElement method) {
        this.expressions = expressions;
        this.sources = expressions.sources;
        this.gives = method.getReturnType();
    }

    String body(TreePath method, BlockTree block) {
        statements(Expressions.sub(method, block), block.getStatements());
        return out.toString();
    }

    private void line(String text) {
        out.append(Wrapping.of(indent, text));
    }

    private void statements(TreePath path, List<? extends StatementTree> all) {
        long before = -1;
        for (StatementTree statement : all) {
            remarks(path, before, statement);
            write(Expressions.sub(path, statement));
            before = sources.end(path.getCompilationUnit(), statement);
        }
    }

    /** The line comments before a statement. */
    private void remarks(TreePath path, long before, Tree statement) {
        long from = before < 0 ? sources.start(path.getCompilationUnit(), path.getLeaf()) + 1 : before;
        long to = sources.start(path.getCompilationUnit(), statement);
        if (from <= 0 || to <= from) {
            return;
        }
        sources.text(path.getCompilationUnit(), from, to)
                .lines()
                .map(String::strip)
                .filter(text -> text.startsWith("//"))
                .forEach(text -> line("/* " + text.substring(2).strip() + " */"));
    }

    private void write(TreePath path) {
        Tree tree = path.getLeaf();
        if (tree instanceof BlockTree block) {
            if (path.getParentPath().getLeaf() instanceof BlockTree) {
                throw sources.refuse(path, "a block by itself", "Write a method.");
            }
            statements(path, block.getStatements());
        } else if (tree instanceof VariableTree variable) {
            variable(path, variable);
        } else if (tree instanceof ExpressionStatementTree expression) {
            expression(Expressions.sub(path, expression.getExpression()));
        } else if (tree instanceof IfTree choice) {
            choice(path, choice, "");
        } else if (tree instanceof ReturnTree back) {
            back(path, back);
        } else if (tree instanceof ForLoopTree loop) {
            loop(path, loop);
        } else if (tree instanceof EnhancedForLoopTree loop) {
            each(path, loop);
        } else if (tree instanceof AssertTree claim) {
            TreePath claimed = Expressions.sub(path, claim.getCondition());
            if (new Order(expressions).changes(claimed)) {
                throw sources.refuse(
                        path,
                        "an assert that changes something",
                        "Change it in the line above: Java may skip asserts.");
            }
            line("SPRAG_ASSERT(" + condition(claimed) + ");");
        } else if (tree instanceof SwitchTree cases) {
            cases(path, cases.getExpression(), cases.getCases(), this::single);
        } else {
            throw sources.refuse(
                    path,
                    tree.getKind() + "",
                    "Use assignments, calls, if, for, switch with arrows, return and assert.");
        }
    }

    private void single(TreePath path, Tree body) {
        if (body instanceof ExpressionTree) {
            expression(Expressions.sub(path, body));
        } else if (body instanceof BlockTree block
                && block.getStatements().stream().anyMatch(VariableTree.class::isInstance)) {
            line("{");
            block(Expressions.sub(path, body));
            line("}");
        } else {
            write(Expressions.sub(path, body));
        }
        line("break;");
    }

    private String condition(TreePath path) {
        String text = expressions.write(path, null);
        return text.startsWith("(") && text.endsWith(")") && path.getLeaf().getKind() == Tree.Kind.PARENTHESIZED
                ? text.substring(1, text.length() - 1)
                : text;
    }

    private void variable(TreePath path, VariableTree tree) {
        Element element = expressions.element(path);
        TypeMirror type = element.asType();
        String declared = expressions
                .types
                .declare(type, Names.local(element), false)
                .orElseThrow(() -> sources.refuse(
                        path, "a local of type " + type, "Use numbers, booleans, rows of enums and objects."));
        if (tree.getInitializer() == null) {
            line(declared + ";");
        } else if (tree.getInitializer() instanceof SwitchExpressionTree cases) {
            line(declared + " = " + (expressions.types.isEnum(type) ? Expressions.NO_ROW : "0") + ";");
            assignCases(Expressions.sub(path, cases), cases, Names.local(element), type);
        } else {
            line(declared + " = " + expressions.write(Expressions.sub(path, tree.getInitializer()), type) + ";");
        }
    }

    private void expression(TreePath path) {
        Tree tree = path.getLeaf();
        if (tree instanceof AssignmentTree assignment) {
            TreePath place = Expressions.sub(path, assignment.getVariable());
            if (assignment.getVariable() instanceof ArrayAccessTree access) {
                new Order(expressions)
                        .check(
                                path,
                                Expressions.sub(place, access.getIndex()),
                                Expressions.sub(path, assignment.getExpression()));
            }
            TypeMirror type = expressions.type(place);
            String left = expressions.write(place, null);
            if (assignment.getExpression() instanceof SwitchExpressionTree cases) {
                assignCases(Expressions.sub(path, cases), cases, left, type);
            } else {
                line(left + " = " + expressions.write(Expressions.sub(path, assignment.getExpression()), type) + ";");
            }
        } else if (tree instanceof CompoundAssignmentTree assignment) {
            compound(path, assignment);
        } else if (tree instanceof UnaryTree unary) {
            String place = expressions.write(Expressions.sub(path, unary.getExpression()), null);
            switch (tree.getKind()) {
                case POSTFIX_INCREMENT, PREFIX_INCREMENT -> line(place + "++;");
                case POSTFIX_DECREMENT, PREFIX_DECREMENT -> line(place + "--;");
                default -> throw sources.refuse(path, "a value that nobody uses", "Leave it out.");
            }
        } else if (tree instanceof MethodInvocationTree) {
            boolean ignored = expressions.type(path).getKind() != TypeKind.VOID;
            line((ignored ? "(void)" : "") + expressions.write(path, null) + ";");
        } else {
            throw sources.refuse(path, "this statement", "Use assignments and calls.");
        }
    }

    private void compound(TreePath path, CompoundAssignmentTree tree) {
        TreePath place = Expressions.sub(path, tree.getVariable());
        TreePath value = Expressions.sub(path, tree.getExpression());
        new Order(expressions).check(path, place, value);
        String sign = switch (tree.getKind()) {
            case PLUS_ASSIGNMENT -> "+";
            case MINUS_ASSIGNMENT -> "-";
            case MULTIPLY_ASSIGNMENT -> "*";
            case DIVIDE_ASSIGNMENT -> "/";
            case OR_ASSIGNMENT -> "|";
            case AND_ASSIGNMENT -> "&";
            default -> throw sources.refuse(path, "this assignment", "Write it out: place = place ... value.");
        };
        TypeMirror type = expressions.type(place);
        expressions.checkWidth(path, place, value);
        if (tree.getKind() == Tree.Kind.DIVIDE_ASSIGNMENT) {
            expressions.checkDivisor(path, type, value);
        }
        boolean logical = type.getKind() == TypeKind.BOOLEAN;
        String text = expressions.write(value, type);
        boolean wraps = value.getLeaf() instanceof BinaryTree && logical;
        line(expressions.write(place, null) + " " + sign + "= " + (wraps ? "(" + text + ")" : text) + ";");
    }

    private void choice(TreePath path, IfTree tree, String before) {
        line(before + "if (" + condition(Expressions.sub(path, tree.getCondition())) + ") {");
        block(Expressions.sub(path, tree.getThenStatement()));
        StatementTree otherwise = tree.getElseStatement();
        if (otherwise instanceof IfTree next) {
            choice(Expressions.sub(path, next), next, "} else ");
        } else if (otherwise != null) {
            line("} else {");
            block(Expressions.sub(path, otherwise));
            line("}");
        } else {
            line("}");
        }
    }

    private void block(TreePath path) {
        String outer = indent;
        indent = outer + STEP;
        write(path);
        indent = outer;
    }

    private void back(TreePath path, ReturnTree tree) {
        if (tree.getExpression() == null) {
            line("return;");
        } else if (tree.getExpression() instanceof SwitchExpressionTree cases) {
            TreePath inner = Expressions.sub(path, cases);
            cases(inner, cases.getExpression(), cases.getCases(), (at, body) -> {
                ExpressionTree value = value(at, body);
                line("return " + expressions.write(Expressions.sub(at, value), gives) + ";");
            });
            line("return " + (expressions.types.isEnum(gives) ? Expressions.NO_ROW : "0") + ";");
        } else {
            line("return " + expressions.write(Expressions.sub(path, tree.getExpression()), gives) + ";");
        }
    }

    private void assignCases(TreePath path, SwitchExpressionTree tree, String place, TypeMirror type) {
        cases(path, tree.getExpression(), tree.getCases(), (at, body) -> {
            line(place + " = " + expressions.write(Expressions.sub(at, value(at, body)), type) + ";");
            line("break;");
        });
    }

    private ExpressionTree value(TreePath at, Tree body) {
        if (body instanceof ExpressionTree value) {
            return value;
        }
        throw sources.refuse(at, "a case with a block", "Call a method that does it.");
    }

    /** A switch over the rows of an enum. A value that is no row is a fault of the memory. */
    private void cases(
            TreePath path, ExpressionTree of, List<? extends CaseTree> all, BiConsumer<TreePath, Tree> body) {
        TreePath selector = Expressions.sub(path, of);
        ExpressionTree bare = of instanceof ParenthesizedTree p ? p.getExpression() : of;
        TypeMirror type = expressions.type(Expressions.sub(selector, bare));
        if (!expressions.types.isEnum(type)) {
            throw sources.refuse(path, "a switch over " + type, "Switch over the rows of an enum.");
        }
        line("switch (" + condition(selector) + ") {");
        boolean hasDefault = false;
        int rows = 0;
        for (CaseTree row : all) {
            TreePath at = Expressions.sub(path, row);
            if (row.getCaseKind() != CaseTree.CaseKind.RULE) {
                throw sources.refuse(at, "a case that falls through", "Write it with an arrow.");
            }
            hasDefault |= row.getExpressions().isEmpty();
            rows += row.getExpressions().size();
            labels(type, row);
            String outer = indent;
            indent = outer + STEP;
            body.accept(at, row.getBody());
            indent = outer;
        }
        if (!hasDefault && rows < expressions.types.rows(type)) {
            throw sources.refuse(path, "a switch that leaves rows out", "List every row, or write default -> {}.");
        }
        if (!hasDefault) {
            line("default:");
            line(STEP + "sprag_impossible();");
            line(STEP + "break;");
        }
        line("}");
    }

    private void labels(TypeMirror type, CaseTree row) {
        if (row.getExpressions().isEmpty()) {
            line("default:");
        }
        for (ExpressionTree label : row.getExpressions()) {
            expressions.need(expressions.types.element(type));
            line("case " + Names.type(expressions.types.element(type)) + "_" + label + ":");
        }
    }

    private void loop(TreePath path, ForLoopTree tree) {
        CountedLoop counted = new CountedLoop(expressions, path, tree);
        VariableTree counter = counted.counter();
        TreePath at = Expressions.sub(path, counter);
        String name = Names.local(expressions.element(at));
        TypeMirror type = expressions.element(at).asType();
        String first = expressions.write(Expressions.sub(at, counter.getInitializer()), type);
        String goes = expressions.write(Expressions.sub(path, tree.getCondition()), null);
        line("for (int32_t " + name + " = " + first + "; " + goes + "; " + name + counted.next() + ") {");
        block(Expressions.sub(path, tree.getStatement()));
        line("}");
    }

    private void each(TreePath path, EnhancedForLoopTree tree) {
        TreePath over = Expressions.sub(path, tree.getExpression());
        if (expressions.type(over).getKind() != TypeKind.ARRAY) {
            throw sources.refuse(path, "a loop over a collection", "Loop over an array.");
        }
        Expressions.Array array = expressions.array(over);
        TreePath at = Expressions.sub(path, tree.getVariable());
        Element item = expressions.element(at);
        String name = Names.local(item);
        String declared = expressions
                .types
                .declare(item.asType(), name, false)
                .orElseThrow(() -> sources.refuse(path, "a loop over " + item.asType(), "Loop over numbers or rows."));
        String index = name + "_index";
        line("for (int32_t " + index + " = 0; " + index + " < " + array.length() + "; " + index + "++) {");
        line(STEP + declared + " = " + array.place() + "[" + index + "];");
        block(Expressions.sub(path, tree.getStatement()));
        line("}");
    }

    /** Whether a name stands anywhere in the body that was written. */
    static boolean uses(String body, String name) {
        return body.matches("(?s).*\\b" + name + "\\b.*");
    }
}
