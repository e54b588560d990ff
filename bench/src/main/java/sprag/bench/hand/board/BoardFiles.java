package sprag.bench.hand.board;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Nearest;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.BoardReference;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;

/** Finds a board by its name in the shipped configuration, or by a path. */
public final class BoardFiles {
    /** The file that describes the board of a vehicle, in the vehicle's folder. */
    public static final String FILE = BoardReference.FILE;

    private static final String ENDING = ".toml";

    private BoardFiles() {}

    /** The names of the shipped boards, in order. */
    public static List<String> names(Catalogue catalogue) {
        Path folder = folder(catalogue);
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(p -> p.getFileName().toString())
                    .filter(n -> n.endsWith(ENDING))
                    .map(n -> n.substring(0, n.length() - ENDING.length()))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot list " + folder, e);
        }
    }

    /**
     * The file of a board.
     *
     * @param nameOrPath a shipped name, a path to a file, or a folder that holds a {@code board.toml}
     * @throws BadInput when there is none, with the nearest name
     */
    public static Path find(Catalogue catalogue, String nameOrPath) throws BadInput {
        if (names(catalogue).contains(nameOrPath)) {
            return folder(catalogue).resolve(nameOrPath + ENDING);
        }
        if (catalogue.buses().contains(nameOrPath)) {
            return catalogue.bus(nameOrPath);
        }
        Path given = Path.of(nameOrPath);
        if (InputFile.isThere(given) && !Files.isDirectory(given)) {
            return given;
        }
        if (InputFile.isThere(given.resolve(FILE))) {
            return given.resolve(FILE);
        }
        String what = "is neither the name of a shipped board nor a board file nor a folder that holds " + FILE;
        throw new BadInput(
                List.of(new Problem(given, 1, 1, "", what, "a board", "", Nearest.hint(nameOrPath, names(catalogue)))));
    }

    private static Path folder(Catalogue catalogue) {
        return catalogue.home().resolve("config").resolve("boards");
    }
}
