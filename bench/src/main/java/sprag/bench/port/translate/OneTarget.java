package sprag.bench.port.translate;

import com.sun.source.tree.NewClassTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.TypeElement;
import javax.lang.model.util.ElementFilter;

/** Refuses a call that could run one of several methods: the class of an object is not known on the chip. */
final class OneTarget {
    private static final String REMEDY = "Let one class have it, so that a call has one target.";

    private OneTarget() {}

    /** Looks whether anything takes the place of a method.
     *
     * @param called a method of the sources
     */
    static void check(Sources sources, ExecutableElement called) {
        if (called.getModifiers().contains(Modifier.STATIC)
                || called.getModifiers().contains(Modifier.PRIVATE)) {
            return;
        }
        TypeElement owner = (TypeElement) called.getEnclosingElement();
        if (owner.getKind() == ElementKind.ENUM) {
            owner.getEnclosedElements().stream()
                    .filter(row -> row.getKind() == ElementKind.ENUM_CONSTANT)
                    .forEach(row -> refuseBody(sources, row));
        }
        if (called.getModifiers().contains(Modifier.ABSTRACT)) {
            return;
        }
        for (TypeElement type : sources.declared()) {
            if (type != owner && sources.extendsType(type, owner)) {
                for (ExecutableElement other : ElementFilter.methodsIn(type.getEnclosedElements())) {
                    if (sources.elements().overrides(other, called, type)) {
                        throw sources.refuse(
                                sources.path(other),
                                other + ", which takes the place of that of " + owner.getSimpleName() + ",",
                                REMEDY);
                    }
                }
            }
        }
    }

    private static void refuseBody(Sources sources, Element row) {
        Tree tree = sources.trees().getTree(row);
        if (tree instanceof VariableTree declared
                && declared.getInitializer() instanceof NewClassTree made
                && made.getClassBody() != null) {
            throw sources.refuse(sources.path(row), "the row " + row + ", which has methods of its own,", REMEDY);
        }
    }
}
