package sprag.bench.evidence.prove;

import java.io.IOException;
import java.io.InputStream;

/** Loads the classes of this project once more, so that a changed constant among them is seen by nobody else. */
final class ApartLoader extends ClassLoader {
    ApartLoader() {
        super(ApartLoader.class.getClassLoader());
    }

    @Override
    protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
        if (!name.startsWith("sprag.")) {
            return super.loadClass(name, resolve);
        }
        synchronized (getClassLoadingLock(name)) {
            Class<?> known = findLoadedClass(name);
            return known != null ? known : define(name);
        }
    }

    private Class<?> define(String name) throws ClassNotFoundException {
        try (InputStream in = getParent().getResourceAsStream(name.replace('.', '/') + ".class")) {
            if (in == null) {
                throw new ClassNotFoundException(name);
            }
            byte[] code = in.readAllBytes();
            return defineClass(name, code, 0, code.length);
        } catch (IOException e) {
            throw new ClassNotFoundException(name, e);
        }
    }
}
