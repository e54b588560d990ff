package sprag.bench.evidence.bounds;

import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.LambdaExpressionTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreeScanner;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;

/** The sources of the supervisor as the JDK's own compiler parses them, beside the classes that it made of them. */
final class Code {
    private static final Path PLACE = Path.of("..", "supervisor", "src", "main", "java");
    private static final Code SUPERVISOR = new Code();

    private final Map<Class<?>, ClassTree> trees = new HashMap<>();
    private final Map<String, Class<?>> bySimpleName = new HashMap<>();
    private final Map<Class<?>, Map<String, List<MethodTree>>> methods = new HashMap<>();

    static Code supervisor() {
        return SUPERVISOR;
    }

    private Code() {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, StandardCharsets.UTF_8);
                Stream<Path> all = Files.walk(PLACE)) {
            List<Path> sources = all.filter(f -> f.toString().endsWith(".java"))
                    .filter(f -> !f.endsWith("module-info.java") && !f.endsWith("package-info.java"))
                    .toList();
            JavacTask task = (JavacTask) compiler.getTask(
                    null, files, null, List.of("-proc:none"), null, files.getJavaFileObjectsFromPaths(sources));
            for (CompilationUnitTree unit : task.parse()) {
                for (Tree type : unit.getTypeDecls()) {
                    if (type instanceof ClassTree tree) {
                        declare(tree, unit.getPackageName() + "." + tree.getSimpleName());
                    }
                }
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException("cannot read the sources of the supervisor", e);
        }
    }

    private void declare(ClassTree tree, String name) {
        Class<?> type;
        try {
            type = Class.forName(name);
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException("a source without its class: " + name, e);
        }
        trees.put(type, tree);
        bySimpleName.put(type.getSimpleName(), type);
        Map<String, List<MethodTree>> own = new HashMap<>();
        for (Tree member : tree.getMembers()) {
            if (member instanceof MethodTree method && method.getBody() != null) {
                own.computeIfAbsent(method.getName().toString(), n -> new ArrayList<>())
                        .add(method);
            } else if (member instanceof ClassTree nested) {
                declare(nested, name + "$" + nested.getSimpleName());
            }
        }
        methods.put(type, own);
    }

    /** A class of the supervisor, or one of the few of the JDK that its formulas use. */
    Class<?> type(String simpleName) {
        return switch (simpleName) {
            case "Math" -> Math.class;
            case "Double" -> Double.class;
            case "Integer" -> Integer.class;
            default -> bySimpleName.get(simpleName);
        };
    }

    List<MethodTree> methods(Class<?> type, String name) {
        return methods.getOrDefault(type, Map.of()).getOrDefault(name, List.of());
    }

    /** The lambda among the arguments of an enum's constant, or else the one that a shorter constructor fills in. */
    LambdaExpressionTree lambda(Enum<?> constant) {
        ClassTree tree = trees.get(constant.getDeclaringClass());
        for (Tree member : tree.getMembers()) {
            if (member instanceof VariableTree row && row.getName().contentEquals(constant.name())) {
                LambdaExpressionTree own = first(row.getInitializer());
                if (own != null) {
                    return own;
                }
            }
        }
        for (MethodTree constructor : methods(constant.getDeclaringClass(), "<init>")) {
            LambdaExpressionTree filled = first(constructor.getBody());
            if (filled != null) {
                return filled;
            }
        }
        throw new IllegalStateException(constant + " has no lambda");
    }

    private static LambdaExpressionTree first(Tree tree) {
        return new TreeScanner<LambdaExpressionTree, Void>() {
            @Override
            public LambdaExpressionTree visitLambdaExpression(LambdaExpressionTree node, Void none) {
                return node;
            }

            @Override
            public LambdaExpressionTree reduce(LambdaExpressionTree a, LambdaExpressionTree b) {
                return a == null ? b : a;
            }
        }.scan(tree, null);
    }
}
