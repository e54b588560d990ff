package sprag.bench.port.translate;

import com.sun.source.tree.AssignmentTree;
import com.sun.source.tree.CompoundAssignmentTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.UnaryTree;
import com.sun.source.util.TreePathScanner;

/** Goes through a piece of source and tells of every place that is given a value there, in each of the ways that Java has. */
abstract class Changes extends TreePathScanner<Void, Void> {
    /** A place that is given a value; {@link #getCurrentPath} leads to what gives it. */
    abstract void change(ExpressionTree place);

    @Override
    public Void visitAssignment(AssignmentTree tree, Void none) {
        change(tree.getVariable());
        return super.visitAssignment(tree, none);
    }

    @Override
    public Void visitCompoundAssignment(CompoundAssignmentTree tree, Void none) {
        change(tree.getVariable());
        return super.visitCompoundAssignment(tree, none);
    }

    @Override
    public Void visitUnary(UnaryTree tree, Void none) {
        switch (tree.getKind()) {
            case POSTFIX_INCREMENT, POSTFIX_DECREMENT, PREFIX_INCREMENT, PREFIX_DECREMENT ->
                change(tree.getExpression());
            default -> {}
        }
        return super.visitUnary(tree, none);
    }
}
