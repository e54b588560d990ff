package sprag.bench.vehicle;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.tomlj.Toml;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;

/** A TOML file as it was read, for any kind of file a person edits. */
public final class TomlFile {
    private TomlFile() {}

    /**
     * Reads a file. What cannot be read, and every slip of the syntax, goes to the problems.
     *
     * @param problems where mistakes go, also those found later through the section
     * @throws BadInput when the file cannot be read or is not TOML, with all slips of the syntax
     */
    public static Section read(Path file, Problems problems) throws BadInput {
        String text;
        try {
            text = Files.readString(file, StandardCharsets.UTF_8);
        } catch (IOException e) {
            problems.add(file, "cannot be read: " + e, "Give a readable text file in UTF-8.");
            throw new BadInput(problems.list());
        }
        return parse(file, text, problems);
    }

    /**
     * Reads a text as if it stood in a file.
     *
     * @param problems where mistakes go, also those found later through the section
     * @throws BadInput when the text is not TOML, with all slips of the syntax
     */
    public static Section parse(Path file, String text, Problems problems) throws BadInput {
        TomlParseResult result = Toml.parse(text);
        for (TomlParseError error : result.errors()) {
            String what = error.getMessage().replaceAll("\\s*\\R\\s*", " ");
            int line = error.position().line();
            int column = error.position().column();
            problems.add(new Problem(file, line, column, "", what, "TOML", "", "Write it as TOML asks for."));
        }
        if (result.hasErrors()) {
            throw new BadInput(problems.list());
        }
        return new Section(file, result, "", problems);
    }
}
