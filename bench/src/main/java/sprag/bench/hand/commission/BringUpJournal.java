package sprag.bench.hand.commission;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import sprag.bench.cli.Trouble;

/**
 * What happened, one line of JSON each, only ever added to. Each line is on the disk before the next step is asked, so that a power
 * cut loses at most the step that was being done. A last line without its end was being written just then and is left out.
 */
final class BringUpJournal implements AutoCloseable {
    /** The file in the folder of a record. */
    static final String FILE = "commission.jsonl";

    private static final ObjectMapper JSON = new ObjectMapper();

    private final Path file;
    private final List<JsonNode> lines = new ArrayList<>();
    private final FileChannel channel;

    /** Opens a journal, or begins one.
     *
     * @throws Trouble when it cannot be read or written, or a line within it is damaged
     */
    BringUpJournal(Path folder) {
        file = folder.resolve(FILE);
        try {
            boolean isNew = !Files.exists(file);
            byte[] bytes = isNew ? new byte[0] : Files.readAllBytes(file);
            int whole = wholeLines(bytes);
            channel = FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            channel.truncate(whole);
            channel.position(whole);
            if (isNew) {
                secure(folder);
            }
        } catch (IOException e) {
            throw new Trouble("cannot keep the journal", file, e);
        }
    }

    /** Reads up to the last line that has its end. */
    private int wholeLines(byte[] bytes) throws IOException {
        int from = 0;
        for (int i = 0; i < bytes.length; i++) {
            if (bytes[i] == '\n') {
                String line = new String(Arrays.copyOfRange(bytes, from, i), StandardCharsets.UTF_8);
                try {
                    lines.add(JSON.readTree(line));
                } catch (JsonProcessingException e) {
                    throw new IOException("line " + (lines.size() + 1) + " is damaged: " + e.getOriginalMessage(), e);
                }
                from = i + 1;
            }
        }
        return from;
    }

    /** The folder's own entry for the file must be on the disk too; systems whose folders cannot be opened do that themselves. */
    private static void secure(Path folder) throws IOException {
        if (!System.getProperty("os.name").startsWith("Windows")) {
            try (FileChannel entry = FileChannel.open(folder, StandardOpenOption.READ)) {
                entry.force(true);
            }
        }
    }

    /** Every line, in order. */
    List<JsonNode> lines() {
        return lines;
    }

    /** A line of a kind, with the time now, for {@link #add}. */
    static ObjectNode line(String kind) {
        ObjectNode node = JSON.createObjectNode();
        node.put("kind", kind);
        node.put("at", OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString());
        return node;
    }

    /** Adds a line; when this returns it is on the disk. */
    void add(ObjectNode line) {
        ByteBuffer bytes = ByteBuffer.wrap((line + "\n").getBytes(StandardCharsets.UTF_8));
        try {
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            channel.force(false);
        } catch (IOException e) {
            throw new Trouble("cannot keep the journal", file, e);
        }
        lines.add(line);
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            throw new Trouble("cannot close the journal", file, e);
        }
    }
}
