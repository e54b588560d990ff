package sprag.bench.port.translate;

import java.lang.reflect.Field;
import javax.lang.model.element.TypeElement;
import javax.lang.model.element.VariableElement;
import sprag.supervisor.Supervisor;

/** From an element of the sources to the class and the field that run in this program. */
final class Live {
    private final Sources sources;

    Live(Sources sources) {
        this.sources = sources;
    }

    Class<?> type(TypeElement type) {
        String name = sources.elements().getBinaryName(type).toString();
        try {
            return Class.forName(name, true, Supervisor.class.getClassLoader());
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(
                    "the sources have " + name + ", this program has not: they are not of one version", e);
        }
    }

    Field field(VariableElement field) {
        try {
            Field live = type((TypeElement) field.getEnclosingElement())
                    .getDeclaredField(field.getSimpleName().toString());
            live.setAccessible(true);
            return live;
        } catch (NoSuchFieldException e) {
            throw new IllegalStateException(
                    "this program has no " + field + ": it is not of the version of the sources", e);
        }
    }

    Object get(VariableElement field, Object of) {
        try {
            return field(field).get(of);
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot read " + field, e);
        }
    }
}
