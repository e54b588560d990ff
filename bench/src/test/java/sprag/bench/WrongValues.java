package sprag.bench;

import java.util.List;

/** What a person, an editor or an accident may write in place of a value of a TOML file. */
public final class WrongValues {
    /** Numbers that are none, too large or at the edge, and values of another kind. */
    public static final List<String> TOML = List.of(
            "nan",
            "inf",
            "-inf",
            "-1",
            "0",
            "1e308",
            "-0.0",
            "\"\"",
            "\"hv\"",
            "true",
            "[]",
            "{}",
            "[1, \"a\"]",
            "{ a = 1 }",
            "9000000000000000000",
            "99999999999999999999",
            "1979-05-27",
            "12:30:00",
            "0x10",
            "1_000",
            "'",
            "'''",
            "",
            "\"<b>lfp</b>\"",
            "\"\\u0000\\u001b[2J\"",
            "\"" + "x".repeat(3000) + "\"");

    private WrongValues() {}
}
