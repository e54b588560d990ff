package sprag.bench.port.translate;

import com.sun.source.tree.AssignmentTree;
import com.sun.source.tree.ExpressionStatementTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.LambdaExpressionTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.NewClassTree;
import com.sun.source.tree.StatementTree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.TreePath;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;

/** Finds, for each row of an enum, the lambda that its constructors put into a field. */
final class RowLambdas {
    private final Sources sources;
    private final VariableElement field;

    RowLambdas(Sources sources, VariableElement field) {
        this.sources = sources;
        this.field = field;
    }

    List<Reach.Lambda> find() {
        TypeElement owner = (TypeElement) field.getEnclosingElement();
        List<Reach.Lambda> rows = new ArrayList<>();
        for (Element row : owner.getEnclosedElements()) {
            if (row.getKind() == ElementKind.ENUM_CONSTANT) {
                TreePath path = sources.path(row);
                NewClassTree made = (NewClassTree) ((VariableTree) path.getLeaf()).getInitializer();
                TreePath call = new TreePath(path, made);
                ExecutableElement constructor =
                        (ExecutableElement) sources.trees().getElement(call);
                List<TreePath> arguments = new ArrayList<>();
                made.getArguments().forEach(a -> arguments.add(new TreePath(call, a)));
                rows.add(new Reach.Lambda(row.getSimpleName().toString(), follow(constructor, arguments)));
            }
        }
        if (rows.isEmpty()) {
            throw sources.refuse(
                    sources.path(field), "a function kept in a field of a class", "Keep it in a row of an enum.");
        }
        return rows;
    }

    private TreePath follow(ExecutableElement constructor, List<TreePath> arguments) {
        TreePath path = sources.path(constructor);
        Map<Element, TreePath> given = new HashMap<>();
        for (int i = 0; i < arguments.size(); i++) {
            given.put(constructor.getParameters().get(i), arguments.get(i));
        }
        TreePath body = new TreePath(path, ((MethodTree) path.getLeaf()).getBody());
        for (StatementTree statement : ((MethodTree) path.getLeaf()).getBody().getStatements()) {
            if (statement instanceof ExpressionStatementTree line) {
                TreePath at = new TreePath(new TreePath(body, statement), line.getExpression());
                if (line.getExpression() instanceof MethodInvocationTree call
                        && call.getMethodSelect() instanceof IdentifierTree name
                        && name.getName().contentEquals("this")) {
                    List<TreePath> next = new ArrayList<>();
                    call.getArguments().forEach(a -> next.add(resolve(new TreePath(at, a), given)));
                    return follow((ExecutableElement) sources.trees().getElement(at), next);
                }
                if (line.getExpression() instanceof AssignmentTree set
                        && field.equals(sources.trees().getElement(new TreePath(at, set.getVariable())))) {
                    return lambda(resolve(new TreePath(at, set.getExpression()), given));
                }
            }
        }
        throw sources.refuse(path, "a constructor that does not set " + field, "Set it once, plainly.");
    }

    private TreePath resolve(TreePath path, Map<Element, TreePath> given) {
        ExpressionTree tree = (ExpressionTree) path.getLeaf();
        return tree instanceof IdentifierTree
                ? given.getOrDefault(sources.trees().getElement(path), path)
                : path;
    }

    private TreePath lambda(TreePath path) {
        if (path.getLeaf() instanceof LambdaExpressionTree lambda
                && lambda.getBodyKind() == LambdaExpressionTree.BodyKind.EXPRESSION) {
            return path;
        }
        throw sources.refuse(path, "a function that is no plain lambda", "Write a lambda of one expression.");
    }
}
