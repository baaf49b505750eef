package foilproof.house;

import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.JavacTask;
import com.sun.source.util.SourcePositions;
import com.sun.source.util.TreePathScanner;
import com.sun.source.util.Trees;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import javax.lang.model.element.Modifier;
import javax.tools.ToolProvider;

/** What one Java source says of itself, read with the JDK's own parser. */
final class SourceFacts {
    /** A public number: {@code id} is {@code package.Type.method(name)} or {@code package.Type.name}. */
    record Number(String place, String id, String name) {}

    /** A method or constructor with its length in lines, signature to closing brace. */
    record Method(String place, String id, int lines) {}

    private final Path path;
    private final List<Number> numbers = new ArrayList<>();
    private final List<Method> methods = new ArrayList<>();
    private final List<String> undocumented = new ArrayList<>();

    private SourceFacts(Path path) {
        this.path = path;
    }

    Path path() {
        return path;
    }

    List<Number> publicDoubles() {
        return numbers;
    }

    List<Method> methods() {
        return methods;
    }

    List<String> undocumentedTypes() {
        return undocumented;
    }

    static List<SourceFacts> readAll(List<Path> roots) {
        List<Path> files = new ArrayList<>();
        for (Path root : roots) {
            if (Files.isDirectory(root)) {
                try (Stream<Path> walk = Files.walk(root)) {
                    walk.filter(p -> p.toString().endsWith(".java")).sorted().forEach(files::add);
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            }
        }
        var compiler = ToolProvider.getSystemJavaCompiler();
        try (var manager =
                compiler.getStandardFileManager(null, Locale.ROOT, java.nio.charset.StandardCharsets.UTF_8)) {
            JavacTask task = (JavacTask) compiler.getTask(
                    null, manager, d -> {}, List.of("-proc:none"), null, manager.getJavaFileObjectsFromPaths(files));
            Trees trees = Trees.instance(task);
            List<SourceFacts> out = new ArrayList<>();
            for (CompilationUnitTree unit : task.parse()) {
                SourceFacts facts = new SourceFacts(Path.of(unit.getSourceFile().toUri()));
                facts.new Reader(unit, trees).scan(unit, null);
                out.add(facts);
            }
            return out;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private final class Reader extends TreePathScanner<Void, Void> {
        private final CompilationUnitTree unit;
        private final Trees trees;
        private final SourcePositions positions;
        private final List<ClassTree> types = new ArrayList<>();

        Reader(CompilationUnitTree unit, Trees trees) {
            this.unit = unit;
            this.trees = trees;
            this.positions = trees.getSourcePositions();
        }

        @Override
        public Void visitClass(ClassTree type, Void ignored) {
            types.add(type);
            if (isOpen() && type.getSimpleName().length() > 0 && trees.getDocComment(getCurrentPath()) == null) {
                undocumented.add(place(type) + " " + name());
            }
            super.visitClass(type, ignored);
            types.remove(types.size() - 1);
            return null;
        }

        @Override
        public Void visitMethod(MethodTree method, Void ignored) {
            String id = name() + "." + method.getName();
            if (method.getBody() != null) {
                methods.add(new Method(place(method), id, line(end(method)) - line(start(method)) + 1));
            }
            boolean seen = isOpen()
                    && (isPublic(method.getModifiers().getFlags()) || owner().getKind() == Tree.Kind.INTERFACE)
                    && !method.getModifiers().getFlags().contains(Modifier.PRIVATE);
            if (seen) {
                for (VariableTree parameter : method.getParameters()) {
                    number(
                            parameter,
                            id + "(" + parameter.getName() + ")",
                            parameter.getType(),
                            parameter.getName().toString());
                }
                if (method.getReturnType() != null) {
                    number(method, id, method.getReturnType(), method.getName().toString());
                }
            }
            types.add(null); // types inside a body are not public
            super.visitMethod(method, ignored);
            types.remove(types.size() - 1);
            return null;
        }

        @Override
        public Void visitVariable(VariableTree variable, Void ignored) {
            boolean member = !types.isEmpty()
                    && types.get(types.size() - 1) != null
                    && getCurrentPath().getParentPath().getLeaf() instanceof ClassTree;
            if (member && isOpen()) {
                Set<Modifier> flags = variable.getModifiers().getFlags();
                // A record's components are private final fields in the parser's tree.
                boolean component = owner().getKind() == Tree.Kind.RECORD && !flags.contains(Modifier.STATIC);
                if (component || isPublic(flags)) {
                    number(
                            variable,
                            name() + "." + variable.getName(),
                            variable.getType(),
                            variable.getName().toString());
                }
            }
            return super.visitVariable(variable, ignored);
        }

        private void number(Tree at, String id, Tree type, String name) {
            if (type != null && Set.of("double", "float").contains(type.toString())) {
                numbers.add(new Number(place(at), id, name));
            }
        }

        /** Whether every type around this place is public, and none of them is inside a method. */
        private boolean isOpen() {
            for (ClassTree type : types) {
                if (type == null || !isPublic(type.getModifiers().getFlags()) && !insideInterface(type)) {
                    return false;
                }
            }
            return !types.isEmpty();
        }

        private boolean insideInterface(ClassTree type) {
            int at = types.indexOf(type);
            return at > 0 && types.get(at - 1) != null && types.get(at - 1).getKind() == Tree.Kind.INTERFACE;
        }

        private ClassTree owner() {
            return types.get(types.size() - 1);
        }

        private String name() {
            StringBuilder out = new StringBuilder(
                    unit.getPackageName() == null ? "" : unit.getPackageName().toString());
            for (ClassTree type : types) {
                out.append('.').append(type == null ? "?" : type.getSimpleName());
            }
            return out.toString();
        }

        private String place(Tree tree) {
            return path.getFileName() + ":" + line(start(tree));
        }

        private long start(Tree tree) {
            return positions.getStartPosition(unit, tree);
        }

        private long end(Tree tree) {
            return positions.getEndPosition(unit, tree);
        }

        private int line(long position) {
            return (int) unit.getLineMap().getLineNumber(Math.max(0, position));
        }

        private boolean isPublic(Set<Modifier> flags) {
            return flags.contains(Modifier.PUBLIC);
        }
    }
}
