package sprag.bench.evidence.mcdc;

import com.sun.source.tree.BinaryTree;
import com.sun.source.tree.CaseTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.ConditionalExpressionTree;
import com.sun.source.tree.ExpressionTree;
import com.sun.source.tree.ForLoopTree;
import com.sun.source.tree.IfTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.ParenthesizedTree;
import com.sun.source.tree.ReturnTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.UnaryTree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.SourcePositions;
import com.sun.source.util.TreeScanner;
import com.sun.source.util.Trees;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;

/** The deciding classes of the supervisor, compiled anew so that each condition and each decision reports how it came out. */
final class Instrumented {
    private static final Path SOURCES = Path.of("..", "supervisor", "src", "main", "java");
    private static final String PACKAGE = "sprag/supervisor/";
    /** Where it is decided: the state machine, the sequences, the last check. */
    private static final List<String> FILES = List.of(
            "logic/Logic.java",
            "logic/ContactorSequence.java",
            "logic/DriveRules.java",
            "logic/ChargeRules.java",
            "gate/Gate.java");

    private static final Set<Tree.Kind> JOINED = Set.of(Tree.Kind.CONDITIONAL_AND, Tree.Kind.CONDITIONAL_OR);
    private static final Set<Tree.Kind> COMPARED = Set.of(
            Tree.Kind.LESS_THAN,
            Tree.Kind.LESS_THAN_EQUAL,
            Tree.Kind.GREATER_THAN,
            Tree.Kind.GREATER_THAN_EQUAL,
            Tree.Kind.EQUAL_TO,
            Tree.Kind.NOT_EQUAL_TO,
            Tree.Kind.LOGICAL_COMPLEMENT);

    private record Insert(long at, int order, String text) {}

    final List<Decision> decisions = new ArrayList<>();
    final List<String> arms = new ArrayList<>();
    /** Where the classes stand. */
    final Path classes;

    Instrumented(Path folder) throws IOException {
        classes = Files.createDirectories(folder.resolve("classes"));
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        List<Path> changed = new ArrayList<>();
        try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, StandardCharsets.UTF_8)) {
            List<Path> sources =
                    FILES.stream().map(f -> SOURCES.resolve(PACKAGE + f)).toList();
            JavacTask task = (JavacTask) compiler.getTask(
                    null, files, null, List.of("-proc:none"), null, files.getJavaFileObjectsFromPaths(sources));
            SourcePositions positions = Trees.instance(task).getSourcePositions();
            for (CompilationUnitTree unit : task.parse()) {
                String source = unit.getSourceFile().getCharContent(true).toString();
                Path copy = folder.resolve(
                        Path.of(unit.getSourceFile().toUri()).getFileName().toString());
                Files.writeString(copy, new Rewriter(unit, source, positions).rewritten());
                changed.add(copy);
            }
            List<String> options = List.of(
                    "-proc:none",
                    "-nowarn",
                    "-classpath",
                    System.getProperty("java.class.path") + java.io.File.pathSeparator + ownClasses(),
                    "-d",
                    classes.toString());
            boolean well = compiler.getTask(
                            null, files, null, options, null, files.getJavaFileObjectsFromPaths(changed))
                    .call();
            if (!well) {
                throw new IllegalStateException("the instrumented sources in " + folder + " do not compile");
            }
        }
    }

    private static String ownClasses() {
        return place(Seen.class) + java.io.File.pathSeparator + place(sprag.supervisor.Supervisor.class);
    }

    private static String place(Class<?> type) {
        try {
            return Path.of(type.getProtectionDomain()
                            .getCodeSource()
                            .getLocation()
                            .toURI())
                    .toString();
        } catch (java.net.URISyntaxException e) {
            throw new IllegalStateException("cannot find the classes of " + type, e);
        }
    }

    /** Writes calls around conditions, decisions and cases. */
    private final class Rewriter extends TreeScanner<Void, Void> {
        private final CompilationUnitTree unit;
        private final String source;
        private final SourcePositions positions;
        private final List<Insert> inserts = new ArrayList<>();
        private final String file;
        private int order;
        private boolean truthReturned;

        Rewriter(CompilationUnitTree unit, String source, SourcePositions positions) {
            this.unit = unit;
            this.source = source;
            this.positions = positions;
            file = Path.of(unit.getSourceFile().toUri()).getFileName().toString();
        }

        String rewritten() {
            scan(unit, null);
            inserts.sort(Comparator.comparingLong(Insert::at).thenComparingInt(Insert::order));
            StringBuilder text = new StringBuilder();
            int from = 0;
            for (Insert insert : inserts) {
                text.append(source, from, (int) insert.at).append(insert.text);
                from = (int) insert.at;
            }
            return text.append(source.substring(from)).toString();
        }

        private long start(Tree tree) {
            return positions.getStartPosition(unit, tree);
        }

        private long end(Tree tree) {
            return positions.getEndPosition(unit, tree);
        }

        private String text(Tree tree) {
            return source.substring((int) start(tree), (int) end(tree)).replaceAll("\\s+", " ");
        }

        /** Outer texts begin first and end last. */
        private void around(Tree tree, String before) {
            order++;
            inserts.add(new Insert(start(tree), order, "sprag.bench.evidence.mcdc.Seen." + before));
            inserts.add(new Insert(end(tree), -order, ")"));
        }

        private void decide(ExpressionTree tree) {
            ExpressionTree whole = bare(tree);
            List<ExpressionTree> conditions = new ArrayList<>();
            collect(whole, conditions);
            int id = decisions.size();
            decisions.add(new Decision(
                    id,
                    file,
                    unit.getLineMap().getLineNumber(start(whole)),
                    text(whole),
                    conditions.stream().map(this::text).toList()));
            around(whole, "decision(" + id + ", " + conditions.size() + ", ");
            for (int i = 0; i < conditions.size(); i++) {
                around(conditions.get(i), "condition(" + id + ", " + i + ", ");
            }
            conditions.forEach(condition -> condition.accept(this, null));
        }

        private void collect(ExpressionTree tree, List<ExpressionTree> into) {
            ExpressionTree inner = bare(tree);
            if (JOINED.contains(inner.getKind())) {
                collect(((BinaryTree) inner).getLeftOperand(), into);
                collect(((BinaryTree) inner).getRightOperand(), into);
            } else if (inner.getKind() == Tree.Kind.LOGICAL_COMPLEMENT) {
                collect(((UnaryTree) inner).getExpression(), into);
            } else {
                into.add(inner);
            }
        }

        private static ExpressionTree bare(ExpressionTree tree) {
            return tree instanceof ParenthesizedTree inner ? bare(inner.getExpression()) : tree;
        }

        private boolean isTruth(ExpressionTree tree) {
            Tree.Kind kind = bare(tree).getKind();
            return JOINED.contains(kind) || COMPARED.contains(kind);
        }

        @Override
        public Void scan(Tree tree, Void none) {
            // an expression of conditions anywhere else: an argument, an assignment, a condition inside a condition
            if (tree instanceof ExpressionTree expression
                    && !(tree instanceof ParenthesizedTree)
                    && isTruth(expression)) {
                decide(expression);
                return null;
            }
            return super.scan(tree, none);
        }

        @Override
        public Void visitMethod(MethodTree tree, Void none) {
            boolean before = truthReturned;
            truthReturned = tree.getReturnType() != null
                    && tree.getReturnType().toString().equals("boolean");
            scan(tree.getBody(), none);
            truthReturned = before;
            return null;
        }

        @Override
        public Void visitIf(IfTree tree, Void none) {
            decide(tree.getCondition());
            scan(tree.getThenStatement(), none);
            return scan(tree.getElseStatement(), none);
        }

        @Override
        public Void visitForLoop(ForLoopTree tree, Void none) {
            return scan(tree.getStatement(), none); // counted loops decide nothing
        }

        @Override
        public Void visitAssert(com.sun.source.tree.AssertTree tree, Void none) {
            return null;
        }

        @Override
        public Void visitConditionalExpression(ConditionalExpressionTree tree, Void none) {
            decide(tree.getCondition());
            scan(tree.getTrueExpression(), none);
            return scan(tree.getFalseExpression(), none);
        }

        @Override
        public Void visitReturn(ReturnTree tree, Void none) {
            boolean choice =
                    tree.getExpression() != null && bare(tree.getExpression()) instanceof ConditionalExpressionTree;
            if (truthReturned && !choice && tree.getExpression().getKind() != Tree.Kind.BOOLEAN_LITERAL) {
                decide(tree.getExpression());
                return null;
            }
            return super.visitReturn(tree, none);
        }

        @Override
        public Void visitVariable(VariableTree tree, Void none) {
            boolean truth = tree.getType() != null && tree.getType().toString().equals("boolean");
            ExpressionTree initial = tree.getInitializer();
            boolean plain = initial == null
                    || initial.getKind() == Tree.Kind.BOOLEAN_LITERAL
                    || bare(initial) instanceof ConditionalExpressionTree;
            if (truth && !plain) {
                decide(initial);
                return null;
            }
            return scan(initial, none);
        }

        @Override
        public Void visitCase(CaseTree tree, Void none) {
            if (tree.getBody() instanceof ExpressionTree value) {
                around(value, "arm(" + arms.size() + ", ");
                arms.add(file + " | case " + tree.getExpressions());
            }
            return scan(tree.getBody(), none);
        }
    }
}
