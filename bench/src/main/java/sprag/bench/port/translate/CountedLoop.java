package sprag.bench.port.translate;

import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.ForLoopTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.UnaryTree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.TreePath;
import com.sun.source.util.TreePathScanner;
import java.util.HashSet;
import java.util.Set;
import javax.lang.model.element.Element;
import javax.lang.model.type.TypeKind;

/** A {@code for} that counts a whole number up or down to an end that does not move. Every other loop is refused. */
final class CountedLoop {
    private static final Set<Tree.Kind> UP = Set.of(Tree.Kind.POSTFIX_INCREMENT, Tree.Kind.PREFIX_INCREMENT);
    private static final Set<Tree.Kind> DOWN = Set.of(Tree.Kind.POSTFIX_DECREMENT, Tree.Kind.PREFIX_DECREMENT);
    private static final Set<Tree.Kind> BELOW = Set.of(Tree.Kind.LESS_THAN, Tree.Kind.LESS_THAN_EQUAL);
    private static final Set<Tree.Kind> ABOVE = Set.of(Tree.Kind.GREATER_THAN, Tree.Kind.GREATER_THAN_EQUAL);

    private final Expressions expressions;
    private final TreePath path;
    private final ForLoopTree tree;

    CountedLoop(Expressions expressions, TreePath path, ForLoopTree tree) {
        this.expressions = expressions;
        this.path = path;
        this.tree = tree;
    }

    /** The declaration of the counter. */
    VariableTree counter() {
        if (tree.getInitializer().size() == 1
                && tree.getInitializer().get(0) instanceof VariableTree counter
                && counter.getInitializer() != null
                && tree.getUpdate().size() == 1
                && tree.getUpdate().get(0).getExpression() instanceof UnaryTree step
                && tree.getCondition() instanceof BinaryTree end
                && counts(counter, step, end)
                && !moves(counter, end)) {
            return counter;
        }
        throw expressions.sources.refuse(
                path,
                "a loop that does not count an int to a fixed end",
                "Write for (int i = a; i < b; i++), change neither i nor b in it, and call no method for b.");
    }

    /** The sign in C. */
    String next() {
        return isUp((UnaryTree) tree.getUpdate().get(0).getExpression()) ? "++" : "--";
    }

    private static boolean isUp(UnaryTree step) {
        return UP.contains(step.getKind());
    }

    private boolean counts(VariableTree counter, UnaryTree step, BinaryTree end) {
        Element element = expressions.element(Expressions.sub(path, counter));
        boolean fits = isUp(step) ? BELOW.contains(end.getKind()) : ABOVE.contains(end.getKind());
        return element.asType().getKind() == TypeKind.INT
                && (isUp(step) || DOWN.contains(step.getKind()))
                && fits
                && isNamed(step.getExpression(), element)
                && isNamed(end.getLeftOperand(), element);
    }

    private boolean isNamed(ExpressionTree tree, Element element) {
        return tree instanceof IdentifierTree && element.equals(expressions.element(Expressions.sub(path, tree)));
    }

    private boolean moves(VariableTree counter, BinaryTree end) {
        if (new Order(expressions).canVary(Expressions.sub(path, end))) {
            return true;
        }
        Assigned body = new Assigned();
        body.scan(Expressions.sub(path, tree.getStatement()), null);
        Set<Element> fixed = new HashSet<>();
        fixed.add(expressions.element(Expressions.sub(path, counter)));
        new TreePathScanner<Void, Void>() {
            @Override
            public Void visitIdentifier(IdentifierTree name, Void none) {
                fixed.add(expressions.element(getCurrentPath()));
                return null;
            }
        }.scan(Expressions.sub(path, end), null);
        return fixed.stream().anyMatch(body.all::contains);
    }

    /** What the body assigns to. */
    private final class Assigned extends Changes {
        private final Set<Element> all = new HashSet<>();

        @Override
        void change(ExpressionTree place) {
            all.add(expressions.element(new TreePath(getCurrentPath(), place)));
        }
    }
}
