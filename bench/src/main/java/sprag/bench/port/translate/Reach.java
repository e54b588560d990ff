package sprag.bench.port.translate;

import com.sun.source.tree.ArrayAccessTree;
import com.sun.source.tree.AssertTree;
import com.sun.source.tree.ClassTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.LambdaExpressionTree;
import com.sun.source.tree.MemberSelectTree;
import com.sun.source.tree.MethodInvocationTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.ReturnTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.TreePath;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.lang.model.element.Element;
import javax.lang.model.element.ElementKind;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.Modifier;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import javax.lang.model.type.TypeMirror;
import javax.lang.model.util.ElementFilter;

/** What a tick reaches: methods, fields, constants, and which of them change something. */
final class Reach {
    /** Who is told, and never asked. A call of one of these becomes a function that the board's maker writes. */
    private static final List<String> TOLD = List.of("Diagnostics", "logic.Journal");

    private final Sources sources;
    private final Set<TypeElement> told = new HashSet<>();
    private final Set<ExecutableElement> methods = new LinkedHashSet<>();
    private final Set<ExecutableElement> hooks = new LinkedHashSet<>();
    private final Set<VariableElement> fields = new LinkedHashSet<>();
    private final Set<VariableElement> written = new HashSet<>();
    private final Map<VariableElement, List<Lambda>> lambdas = new LinkedHashMap<>();
    private final Map<ExecutableElement, List<Call>> calls = new LinkedHashMap<>();
    private final Set<ExecutableElement> changing = new HashSet<>();
    /** Parameters, and for "this" the method, whose object is changed. */
    private final Set<Element> changedObjects = new HashSet<>();

    private final Map<TypeElement, TypeElement> living = new HashMap<>();
    private final Deque<ExecutableElement> open = new ArrayDeque<>();

    /** A function that a row of an enum brings along. */
    record Lambda(String row, TreePath path) {}

    private record Call(ExecutableElement callee, Element receiver, List<Element> arguments) {}

    Reach(Sources sources, List<ExecutableElement> roots) {
        this.sources = sources;
        TOLD.forEach(name -> told.add(sources.type(name)));
        roots.forEach(this::add);
        while (!open.isEmpty()) {
            ExecutableElement method = open.remove();
            new Scan(method).scan(sources.path(method), null);
        }
        spread();
        refuseRecursion();
    }

    private void add(ExecutableElement method) {
        if (methods.add(method)) {
            calls.put(method, new ArrayList<>());
            open.add(method);
        }
    }

    Set<ExecutableElement> methods() {
        return methods;
    }

    Set<ExecutableElement> hooks() {
        return hooks;
    }

    Set<VariableElement> fields() {
        return fields;
    }

    Map<VariableElement, List<Lambda>> lambdas() {
        return lambdas;
    }

    boolean isTold(TypeElement type) {
        return told.contains(type);
    }

    /** Whether something in the C changes a field, or the elements of the array it holds. */
    boolean isWritten(VariableElement field) {
        return written.contains(field);
    }

    /** Whether no object of a class ever changes, so that it can lie in flash. */
    boolean isConstant(TypeElement type) {
        TypeElement of = living(type);
        return fields.stream()
                .noneMatch(f -> written.contains(f) && living((TypeElement) f.getEnclosingElement()) == of);
    }

    /** Whether a call changes a field or calls a listener. */
    boolean changes(ExecutableElement method) {
        return hooks.contains(method) || changing.contains(method);
    }

    /** Whether a method changes the object behind one of its parameters; ask with the method itself for "this". */
    boolean changesObject(Element parameterOrMethod) {
        return changedObjects.contains(parameterOrMethod);
    }

    /** The class whose objects stand for a type: the type itself, or the only class that implements it. */
    TypeElement living(TypeElement type) {
        return living.computeIfAbsent(type, this::find);
    }

    private TypeElement find(TypeElement type) {
        boolean open =
                type.getKind() == ElementKind.INTERFACE || type.getModifiers().contains(Modifier.ABSTRACT);
        if (!open || type.getKind() == ElementKind.ENUM || !sources.isOwn(type)) {
            return type;
        }
        List<TypeElement> all = sources.declared().stream()
                .filter(t -> t != type && !t.getModifiers().contains(Modifier.ABSTRACT))
                .filter(t -> sources.extendsType(t, type))
                .toList();
        if (all.size() != 1) {
            throw sources.refuse(
                    sources.path(type),
                    type + ", which " + all.size() + " classes implement,",
                    "Let one class implement it, so that a call has one target.");
        }
        return all.get(0);
    }

    /** The method that a call runs. */
    ExecutableElement target(ExecutableElement called) {
        TypeElement owner = (TypeElement) called.getEnclosingElement();
        if (isTold(owner) || !sources.isOwn(owner)) {
            return called;
        }
        OneTarget.check(sources, called);
        if (!called.getModifiers().contains(Modifier.ABSTRACT)) {
            return called;
        }
        TypeElement class_ = living(owner);
        return ElementFilter.methodsIn(class_.getEnclosedElements()).stream()
                .filter(m -> sources.elements().overrides(m, called, class_))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException(class_ + " does not implement " + called));
    }

    /** Carries "changes something" from callees to callers until nothing is new. */
    private void spread() {
        boolean more = true;
        while (more) {
            more = false;
            for (Map.Entry<ExecutableElement, List<Call>> entry : calls.entrySet()) {
                for (Call call : entry.getValue()) {
                    more |= changes(call.callee) && changing.add(entry.getKey());
                    more |= changesObject(call.callee) && call.receiver != null && changedObjects.add(call.receiver);
                    for (int i = 0; i < call.arguments.size(); i++) {
                        Element given = call.arguments.get(i);
                        Element parameter = call.callee.getParameters().get(i);
                        more |= given != null && changesObject(parameter) && changedObjects.add(given);
                    }
                }
            }
        }
    }

    private void refuseRecursion() {
        Set<ExecutableElement> done = new HashSet<>();
        for (ExecutableElement method : methods) {
            descend(method, new LinkedHashSet<>(), done);
        }
    }

    private void descend(ExecutableElement method, Set<ExecutableElement> above, Set<ExecutableElement> done) {
        if (!above.add(method)) {
            throw sources.refuse(
                    sources.path(method),
                    method + ", which calls itself,",
                    "Write a loop with a fixed end: a stack that can grow has no bound.");
        }
        if (done.add(method)) {
            calls.get(method).stream()
                    .filter(c -> methods.contains(c.callee))
                    .forEach(c -> descend(c.callee, above, done));
        }
        above.remove(method);
    }

    /** Looks through one method. */
    private final class Scan extends Changes {
        private final ExecutableElement method;

        Scan(ExecutableElement method) {
            this.method = method;
        }

        private Element element(Tree tree) {
            return sources.trees().getElement(new TreePath(getCurrentPath(), tree));
        }

        @Override
        public Void visitMethod(MethodTree tree, Void none) {
            return scan(tree.getBody(), none);
        }

        @Override
        public Void visitAssert(AssertTree tree, Void none) {
            return scan(tree.getCondition(), none);
        }

        @Override
        public Void visitLambdaExpression(LambdaExpressionTree tree, Void none) {
            throw sources.refuse(getCurrentPath(), "a lambda in a method", "Write a loop or a method.");
        }

        @Override
        public Void visitClass(ClassTree tree, Void none) {
            throw sources.refuse(getCurrentPath(), "a class inside a method", "Give it a file of its own.");
        }

        @Override
        public Void visitIdentifier(IdentifierTree tree, Void none) {
            use(sources.trees().getElement(getCurrentPath()));
            return super.visitIdentifier(tree, none);
        }

        @Override
        public Void visitMemberSelect(MemberSelectTree tree, Void none) {
            use(sources.trees().getElement(getCurrentPath()));
            return super.visitMemberSelect(tree, none);
        }

        private void use(Element element) {
            boolean own = element != null && element.getKind() == ElementKind.FIELD && sources.isOwn(element);
            if (!own || sources.trees().getPath(element) == null) {
                return; // "this", "super" and "class" are fields that nobody declared
            }
            VariableElement field = (VariableElement) element;
            Element type = sources.types().asElement(field.asType());
            boolean kept = !(type instanceof TypeElement t && isTold(t));
            if (kept && fields.add(field) && isFunction(field.asType())) {
                follow(field);
            }
        }

        private void follow(VariableElement field) {
            List<Lambda> rows = new RowLambdas(sources, field).find();
            lambdas.put(field, rows);
            rows.forEach(row -> new Scan(method).scan(row.path, null));
        }

        @Override
        public Void scan(TreePath path, Void none) {
            boolean lambda = path.getLeaf() instanceof LambdaExpressionTree;
            return lambda
                    ? super.scan(new TreePath(path, ((LambdaExpressionTree) path.getLeaf()).getBody()), none)
                    : super.scan(path, none);
        }

        @Override
        public Void visitMethodInvocation(MethodInvocationTree tree, Void none) {
            ExecutableElement called = (ExecutableElement) element(tree.getMethodSelect());
            TypeElement owner = (TypeElement) called.getEnclosingElement();
            if (called.isVarArgs() && sources.isOwn(owner)) {
                throw sources.refuse(
                        getCurrentPath(),
                        "a call of a method that takes any number of arguments",
                        "Give the method an array that a constructor made, or a fixed number of arguments.");
            }
            if (isTold(owner)) {
                hooks.add(called);
                changing.add(method);
            } else if (sources.isOwn(owner) && owner.getKind() == ElementKind.ENUM && isOfJdk(called)) {
                return super.visitMethodInvocation(tree, none);
            } else if (sources.isOwn(owner)) {
                ExecutableElement target = target(called);
                add(target);
                calls.get(method)
                        .add(new Call(
                                target,
                                receiver(tree),
                                tree.getArguments().stream()
                                        .map(this::parameter)
                                        .toList()));
            } else if (isOf(called, "java.util.Arrays", "fill")) {
                changeArray(tree.getArguments().get(0));
            } else if (isOf(called, "java.lang.System", "arraycopy")) {
                changeArray(tree.getArguments().get(2));
            }
            return super.visitMethodInvocation(tree, none);
        }

        private boolean isOf(ExecutableElement called, String type, String name) {
            return called.getSimpleName().contentEquals(name)
                    && ((TypeElement) called.getEnclosingElement())
                            .getQualifiedName()
                            .contentEquals(type);
        }

        private boolean isOfJdk(ExecutableElement called) {
            return sources.trees().getTree(called) == null;
        }

        private Element receiver(MethodInvocationTree tree) {
            if (tree.getMethodSelect() instanceof MemberSelectTree select) {
                return parameter(select.getExpression());
            }
            return method;
        }

        /** The parameter that an expression names, the method itself for "this", null for anything else. */
        private Element parameter(ExpressionTree tree) {
            if (tree instanceof IdentifierTree name) {
                Element element = element(tree);
                if (name.getName().contentEquals("this")) {
                    return method;
                }
                return element != null && element.getKind() == ElementKind.PARAMETER ? element : null;
            }
            return null;
        }

        @Override
        public Void visitReturn(ReturnTree tree, Void none) {
            if (tree.getExpression() != null) {
                handOut(tree.getExpression());
            }
            return super.visitReturn(tree, none);
        }

        @Override
        public Void visitVariable(VariableTree tree, Void none) {
            if (tree.getInitializer() != null) {
                handOut(tree.getInitializer());
            }
            return super.visitVariable(tree, none);
        }

        /** A second name for an object may be used to change it. */
        private void handOut(ExpressionTree tree) {
            Element parameter = parameter(tree);
            if (parameter != null) {
                changedObjects.add(parameter);
            }
        }

        private void changeArray(ExpressionTree array) {
            Element changed = element(array);
            if (changed == null || changed.getKind() != ElementKind.FIELD) {
                throw refuseArray();
            }
            change(array);
        }

        private Refused refuseArray() {
            return sources.refuse(
                    getCurrentPath(),
                    "an assignment to an element of an array that is no field",
                    "Assign where the array is a field.");
        }

        /** Something is assigned to a place. */
        @Override
        void change(ExpressionTree place) {
            ExpressionTree whole = place instanceof ArrayAccessTree element ? element.getExpression() : place;
            Element changed = element(whole);
            if (changed == null || changed.getKind() != ElementKind.FIELD) {
                if (whole != place) {
                    throw refuseArray();
                }
                return;
            }
            written.add((VariableElement) changed);
            changing.add(method);
            Element owner = whole instanceof MemberSelectTree select ? parameter(select.getExpression()) : method;
            if (owner != null) {
                changedObjects.add(owner);
            }
        }
    }

    private boolean isFunction(TypeMirror type) {
        Element of = sources.types().asElement(type);
        return of instanceof TypeElement t
                && sources.elements().getPackageOf(t).getQualifiedName().contentEquals("java.util.function");
    }
}
