package sprag.bench.vehicle;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import sprag.bench.cli.CommandText;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Nearest;

/**
 * Finds a vehicle or a scenario by its name in the shipped configuration, or by a path.
 *
 * @param home the folder that holds {@code config}
 */
public record Catalogue(Path home) {
    /** The file that makes a folder a vehicle. */
    public static final String VEHICLE_FILE = "vehicle.toml";

    /** The file that describes the data bus of a vehicle, in the vehicle's folder. */
    public static final String BUS_FILE = "bus.toml";

    private static final String HOME_PROPERTY = "sprag.home";

    /**
     * The catalogue of the installed copy: where the system property {@code sprag.home} says, else the nearest folder with
     * {@code config/vehicles} at or above the current one.
     */
    public static Catalogue installed() {
        String told = System.getProperty(HOME_PROPERTY);
        if (told != null) {
            return new Catalogue(Path.of(told));
        }
        Path here = Path.of("").toAbsolutePath();
        for (Path at = here; at != null; at = at.getParent()) {
            if (Files.isDirectory(at.resolve("config").resolve("vehicles"))) {
                return new Catalogue(at);
            }
        }
        return new Catalogue(here);
    }

    /** The names of the shipped vehicles, in order. */
    public List<String> vehicles() {
        return names(home.resolve("config").resolve("vehicles"), "");
    }

    /** The names of the shipped scenarios, in order. */
    public List<String> scenarios() {
        return names(home.resolve("config").resolve("scenarios"), ".toml");
    }

    /**
     * The folder of a vehicle.
     *
     * @param nameOrPath a name from {@link #vehicles()}, or a path to a folder that holds a {@code vehicle.toml}
     * @throws BadInput when there is none, with the nearest name
     */
    public Path vehicle(String nameOrPath) throws BadInput {
        Path shipped = home.resolve("config").resolve("vehicles").resolve(nameOrPath);
        if (vehicles().contains(nameOrPath)) {
            return shipped;
        }
        Path given = Path.of(nameOrPath);
        Path folder = given.endsWith(VEHICLE_FILE) ? given.toAbsolutePath().getParent() : given;
        // What stands there and is no file is refused by the reader, which says what it is.
        if (InputFile.isThere(folder.resolve(VEHICLE_FILE))) {
            return folder;
        }
        String list = vehicles().isEmpty()
                ? "There is none in " + home.resolve("config") + "."
                : "The shipped vehicles are: " + String.join(", ", vehicles()) + ".";
        throw notFound(given, "vehicle", "a folder that holds " + VEHICLE_FILE, remedy(nameOrPath, vehicles(), list));
    }

    /** How a command names the vehicle of a folder: a shipped one by its name, every other by its path. */
    public String argument(Path folder) {
        Path shipped =
                home.resolve("config").resolve("vehicles").toAbsolutePath().normalize();
        Path place = folder.toAbsolutePath().normalize();
        boolean isShipped = shipped.equals(place.getParent());
        return isShipped ? place.getFileName().toString() : CommandText.quoted(folder);
    }

    /**
     * The file of a scenario.
     *
     * @param nameOrPath a name from {@link #scenarios()}, or a path to a file
     * @throws BadInput when there is none, with the nearest name
     */
    public Path scenario(String nameOrPath) throws BadInput {
        if (scenarios().contains(nameOrPath)) {
            return home.resolve("config").resolve("scenarios").resolve(nameOrPath + ".toml");
        }
        Path given = Path.of(nameOrPath);
        if (InputFile.isThere(given)) {
            return given;
        }
        String list = "The shipped scenarios stand in docs/scenario-reference.md.";
        throw notFound(given, "scenario", "a scenario file", remedy(nameOrPath, scenarios(), list));
    }

    /** The names of the shipped data buses, in order. */
    public List<String> buses() {
        return names(home.resolve("config").resolve("buses"), ".toml");
    }

    /**
     * The file of a data bus.
     *
     * @param nameOrPath a name from {@link #buses()}, a path to a file, or a folder that holds a {@code bus.toml}
     * @throws BadInput when there is none, with the nearest name
     */
    public Path bus(String nameOrPath) throws BadInput {
        if (buses().contains(nameOrPath)) {
            return home.resolve("config").resolve("buses").resolve(nameOrPath + ".toml");
        }
        Path given = Path.of(nameOrPath);
        Path inside = given.resolve(BUS_FILE);
        if (Files.isRegularFile(given) || Files.isRegularFile(inside)) {
            return Files.isRegularFile(given) ? given : inside;
        }
        String list = "The shipped buses are: " + String.join(", ", buses()) + ".";
        throw notFound(
                given, "bus", "a bus file nor a folder that holds " + BUS_FILE, remedy(nameOrPath, buses(), list));
    }

    /** The names of the shipped speed traces, in order. */
    public List<String> trips() {
        return names(home.resolve("config").resolve("trips"), ".csv");
    }

    /**
     * The file of a speed trace.
     *
     * @param nameOrPath a name from {@link #trips()}, or a path to a file
     * @throws BadInput when there is none, with the nearest name
     */
    public Path trip(String nameOrPath) throws BadInput {
        if (trips().contains(nameOrPath)) {
            return home.resolve("config").resolve("trips").resolve(nameOrPath + ".csv");
        }
        Path given = Path.of(nameOrPath);
        if (InputFile.isThere(given)) {
            return given;
        }
        String list = "The shipped traces are: " + String.join(", ", trips()) + ".";
        throw notFound(given, "speed trace", "a file (CSV or GPX)", remedy(nameOrPath, trips(), list));
    }

    private static String remedy(String written, List<String> names, String list) {
        return Nearest.to(written, names)
                .map(name -> "Did you mean " + name + "? " + list)
                .orElse(list);
    }

    private static BadInput notFound(Path given, String kind, String path, String remedy) {
        String what = "is neither the name of a shipped " + kind + " nor " + path;
        return new BadInput(List.of(new Problem(given, 0, 0, "", what, "a " + kind, "", remedy)));
    }

    private static List<String> names(Path folder, String ending) {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> all = Files.list(folder)) {
            return all.filter(p ->
                            ending.isEmpty() ? Files.isRegularFile(p.resolve(VEHICLE_FILE)) : Files.isRegularFile(p))
                    .map(p -> p.getFileName().toString())
                    .filter(n -> n.endsWith(ending))
                    .map(n -> n.substring(0, n.length() - ending.length()))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot list " + folder, e);
        }
    }
}
