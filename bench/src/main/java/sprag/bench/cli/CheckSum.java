package sprag.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.zip.CRC32;

/** A check sum over files, to see whether they have changed. */
public final class CheckSum {
    private CheckSum() {}

    /** The CRC-32 of all files, one after another, as eight digits. */
    public static String of(List<Path> files) throws IOException {
        CRC32 sum = new CRC32();
        for (Path file : files) {
            sum.update(Files.readAllBytes(file));
        }
        return String.format(Locale.ROOT, "%08x", sum.getValue());
    }
}
