package sprag.bench.port.translate;

import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.Tree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreePath;
import com.sun.source.util.Trees;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import javax.lang.model.element.Element;
import javax.lang.model.element.TypeElement;
import javax.lang.model.type.TypeKind;
import javax.lang.model.util.ElementFilter;
import javax.lang.model.util.Elements;
import javax.lang.model.util.Types;
import javax.tools.Diagnostic;
import javax.tools.DiagnosticCollector;
import javax.tools.JavaCompiler;
import javax.tools.JavaFileObject;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import sprag.bench.cli.Trouble;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;

/** The sources of the supervisor, read by the compiler of the JDK: parsed, typed and resolved. */
final class Sources {
    /** Where the sources stand below the folder that holds {@code config}. */
    static final Path PLACE = Path.of("supervisor", "src", "main", "java");

    private static final String ROOT_PACKAGE = "sprag.supervisor";

    private final Trees trees;
    private final Elements elements;
    private final Types types;
    private final List<TypeElement> declared = new ArrayList<>();
    private final Map<Element, TreePath> paths = new HashMap<>();

    private Sources(JavacTask task, Iterable<? extends Element> analysed) {
        trees = Trees.instance(task);
        elements = task.getElements();
        types = task.getTypes();
        for (Element element : analysed) {
            if (element instanceof TypeElement type) {
                declare(type);
            }
        }
    }

    private void declare(TypeElement type) {
        declared.add(type);
        ElementFilter.typesIn(type.getEnclosedElements()).forEach(this::declare);
    }

    /** Reads every source below a folder.
     *
     * @param root the folder that holds the package folders
     * @return the typed trees
     * @throws BadInput when a source does not compile or there is none
     */
    static Sources read(Path root) throws BadInput {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        if (compiler == null) {
            throw new Trouble("this Java has no compiler, and the sources are read with it. Set JAVA_HOME to a JDK");
        }
        DiagnosticCollector<JavaFileObject> told = new DiagnosticCollector<>();
        try (StandardJavaFileManager files = compiler.getStandardFileManager(told, null, StandardCharsets.UTF_8)) {
            List<String> options = List.of("-proc:none", "-implicit:none", "-Xlint:none");
            JavacTask task = (JavacTask) compiler.getTask(
                    null, files, told, options, null, files.getJavaFileObjectsFromPaths(javaFiles(root)));
            task.parse();
            Sources sources = new Sources(task, task.analyze());
            List<Problem> errors = told.getDiagnostics().stream()
                    .filter(d -> d.getKind() == Diagnostic.Kind.ERROR)
                    .map(Sources::problem)
                    .toList();
            if (!errors.isEmpty()) {
                throw new BadInput(errors);
            }
            return sources;
        } catch (IOException e) {
            throw new Trouble("cannot read", root, e);
        }
    }

    private static Problem problem(Diagnostic<? extends JavaFileObject> d) {
        Path file = d.getSource() == null ? Path.of("?") : Path.of(d.getSource().toUri());
        return new Problem(
                file, (int) d.getLineNumber(), 0, "", d.getMessage(null), "", "", "Make it compile as Java first.");
    }

    private static List<Path> javaFiles(Path root) throws BadInput {
        if (!Files.isDirectory(root.resolve(ROOT_PACKAGE.replace('.', '/')))) {
            Problem none = new Problem(
                    root,
                    0,
                    0,
                    "",
                    "does not hold the sources of the supervisor",
                    "",
                    "",
                    "They stand in " + PLACE + " of a source tree and of a release archive.");
            throw new BadInput(List.of(none));
        }
        try (Stream<Path> all = Files.walk(root)) {
            return all.filter(file -> file.toString().endsWith(".java"))
                    .filter(file -> !file.endsWith("module-info.java"))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot list " + root, e);
        }
    }

    Trees trees() {
        return trees;
    }

    /** The way to where an element is declared; null when that is not in the sources. The search goes through a whole file. */
    TreePath path(Element element) {
        return paths.computeIfAbsent(element, trees::getPath);
    }

    Elements elements() {
        return elements;
    }

    Types types() {
        return types;
    }

    /** Every type of the sources, nested ones after the one around them. */
    List<TypeElement> declared() {
        return declared;
    }

    TypeElement type(String name) {
        return declared.stream()
                .filter(t -> t.getQualifiedName().contentEquals(ROOT_PACKAGE + "." + name))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("the sources have no " + name));
    }

    /** Whether an element is declared in the sources rather than in the JDK. */
    boolean isOwn(Element element) {
        return elements.getPackageOf(element).getQualifiedName().toString().startsWith(ROOT_PACKAGE);
    }

    /** Whether a class can have live objects: not an interface, not abstract. */
    boolean extendsType(TypeElement type, TypeElement above) {
        return type.asType().getKind() == TypeKind.DECLARED
                && types.isSubtype(types.erasure(type.asType()), types.erasure(above.asType()));
    }

    /** A refusal with the place of a tree.
     *
     * @param at the tree
     * @param found what stands there
     * @param remedy what to write instead
     * @return to be thrown
     */
    Refused refuse(TreePath at, String found, String remedy) {
        CompilationUnitTree unit = at.getCompilationUnit();
        long position = trees.getSourcePositions().getStartPosition(unit, at.getLeaf());
        int line = position < 0 ? 0 : (int) unit.getLineMap().getLineNumber(position);
        Path file = Path.of(unit.getSourceFile().toUri());
        return new Refused(new Problem(file, line, 0, "", found + " cannot go to the chip", "", "", remedy));
    }

    /** The text between two places of a source. */
    String text(CompilationUnitTree unit, long from, long to) {
        try {
            return unit.getSourceFile()
                    .getCharContent(true)
                    .subSequence((int) from, (int) to)
                    .toString();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + unit.getSourceFile().getName(), e);
        }
    }

    /** Where an element stands in its file. */
    long place(Element element) {
        TreePath path = path(element);
        return start(path.getCompilationUnit(), path.getLeaf());
    }

    long start(CompilationUnitTree unit, Tree tree) {
        return trees.getSourcePositions().getStartPosition(unit, tree);
    }

    long end(CompilationUnitTree unit, Tree tree) {
        return trees.getSourcePositions().getEndPosition(unit, tree);
    }
}
