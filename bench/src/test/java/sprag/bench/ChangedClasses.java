package sprag.bench;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Loads every class of this project anew, those that are instrumented from a folder. */
public final class ChangedClasses extends ClassLoader {
    private final Path changed;

    /** The classes that are changed lie under a folder. */
    public ChangedClasses(Path changed) {
        super(ChangedClasses.class.getClassLoader());
        this.changed = changed;
    }

    @Override
    protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
        if (!name.startsWith("sprag.")) {
            return super.loadClass(name, resolve);
        }
        synchronized (getClassLoadingLock(name)) {
            Class<?> known = findLoadedClass(name);
            return known == null ? define(name) : known;
        }
    }

    private Class<?> define(String name) throws ClassNotFoundException {
        String file = name.replace('.', '/') + ".class";
        Path other = changed.resolve(file);
        try (InputStream in = Files.exists(other) ? Files.newInputStream(other) : getResourceAsStream(file)) {
            if (in == null) {
                throw new ClassNotFoundException(name);
            }
            byte[] bytes = in.readAllBytes();
            return defineClass(name, bytes, 0, bytes.length);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + file, e);
        }
    }
}
