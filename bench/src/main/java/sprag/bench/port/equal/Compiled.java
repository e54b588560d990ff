package sprag.bench.port.equal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import sprag.bench.cli.Trouble;

/**
 * Object files of sources in C. They fit other sources with the same headers, file by file: so the code of a supervisor, which is the
 * same for every vehicle, is compiled once.
 *
 * @param files the sources
 * @param objects what was compiled from each
 */
record Compiled(Map<String, String> files, Map<String, byte[]> objects) {
    /** Nothing is compiled yet. */
    static final Compiled NOTHING = new Compiled(Map.of(), Map.of());

    /** Takes what was compiled into a folder.
     *
     * @param files its sources by name
     */
    static Compiled in(Path folder, Map<String, String> files) {
        Map<String, byte[]> objects = new HashMap<>();
        for (String file : files.keySet()) {
            if (file.endsWith(".c")) {
                Path object = folder.resolve(objectOf(file));
                try {
                    objects.put(file, Files.readAllBytes(object));
                } catch (IOException e) {
                    throw new Trouble("cannot read", object, e);
                }
            }
        }
        return new Compiled(Map.copyOf(files), objects);
    }

    /** The name of the object file of a source. */
    static String objectOf(String file) {
        return file.replaceFirst("c$", "o");
    }

    /** Whether the object file of a source fits among other sources: neither it nor any header differs.
     *
     * @param file its name
     * @param others all of them
     */
    boolean fits(String file, Map<String, String> others) {
        return objects.containsKey(file)
                && others.get(file).equals(files.get(file))
                && others.entrySet().stream()
                        .filter(other -> other.getKey().endsWith(".h"))
                        .allMatch(other -> other.getValue().equals(files.get(other.getKey())));
    }

    /** Writes the object file of a source that {@link #fits}. */
    void write(String file, Path folder) {
        Path object = folder.resolve(objectOf(file));
        try {
            Files.write(object, objects.get(file));
        } catch (IOException e) {
            throw new Trouble("cannot write", object, e);
        }
    }
}
