package sprag.bench.port.translate;

import com.sun.source.tree.ArrayAccessTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.MemberSelectTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.Tree;
import com.sun.source.util.TreePath;
import com.sun.source.util.TreePathScanner;
import java.util.ArrayList;
import java.util.List;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;

/**
 * Refuses what C may evaluate in another order than Java: operands or arguments of which one changes something that another changes
 * or reads. Java goes from left to right; C leaves it open, so that a test on one compiler proves nothing.
 */
final class Order {
    private final Expressions expressions;

    Order(Expressions expressions) {
        this.expressions = expressions;
    }

    /** Looks at operands that C may evaluate in any order. */
    void check(TreePath whole, TreePath... parts) {
        int changing = 0;
        int reading = 0;
        for (TreePath part : parts) {
            Look look = new Look();
            look.scan(part, null);
            changing += look.changes ? 1 : 0;
            reading += look.reads && !look.changes ? 1 : 0;
        }
        if (changing > 1 || changing == 1 && reading > 0) {
            throw expressions.sources.refuse(
                    whole,
                    "an expression with parts of which one changes what another reads",
                    "Put the call that changes something into a variable of its own in the line above.");
        }
    }

    /** Whether an expression changes anything. */
    boolean changes(TreePath path) {
        Look look = new Look();
        look.scan(path, null);
        return look.changes;
    }

    /** Whether an expression may give something else when it is asked again, though no local has changed. */
    boolean canVary(TreePath path) {
        Look look = new Look();
        look.scan(path, null);
        return look.changes || look.reads;
    }

    void checkCall(TreePath path, MethodInvocationTree call) {
        List<TreePath> parts = new ArrayList<>();
        call.getArguments().forEach(a -> parts.add(Expressions.sub(path, a)));
        if (call.getMethodSelect() instanceof MemberSelectTree select) {
            parts.add(Expressions.sub(Expressions.sub(path, select), select.getExpression()));
        }
        check(path, parts.toArray(new TreePath[0]));
    }

    private final class Look extends TreePathScanner<Void, Void> {
        private boolean changes;
        private boolean reads;

        @Override
        public Void visitMethodInvocation(MethodInvocationTree tree, Void none) {
            Element called = expressions.element(Expressions.sub(getCurrentPath(), tree.getMethodSelect()));
            if (called instanceof ExecutableElement method
                    && expressions.sources.isOwn(method)
                    && expressions.sources.trees().getTree(method) != null) {
                TypeElement owner = (TypeElement) method.getEnclosingElement();
                ExecutableElement target = expressions.reach.isTold(owner) ? method : expressions.reach.target(method);
                changes |= expressions.reach.changes(target);
                reads = true;
            }
            return super.visitMethodInvocation(tree, none);
        }

        @Override
        public Void visitIdentifier(IdentifierTree tree, Void none) {
            read(tree);
            return super.visitIdentifier(tree, none);
        }

        @Override
        public Void visitMemberSelect(MemberSelectTree tree, Void none) {
            read(tree);
            return super.visitMemberSelect(tree, none);
        }

        @Override
        public Void visitArrayAccess(ArrayAccessTree tree, Void none) {
            Element array = expressions.element(Expressions.sub(getCurrentPath(), tree.getExpression()));
            // an array that was handed over may be one that a call changes
            reads |= array == null || array.getKind() != ElementKind.FIELD;
            return super.visitArrayAccess(tree, none);
        }

        private void read(Tree tree) {
            Element element = expressions.element(getCurrentPath());
            reads |= element != null
                    && element.getKind() == ElementKind.FIELD
                    && expressions.reach.isWritten((VariableElement) element);
        }
    }
}
