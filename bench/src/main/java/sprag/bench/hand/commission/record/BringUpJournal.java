package sprag.bench.hand.commission.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Trouble;

/**
 * What happened, one line of JSON each. Lines are only ever added. Each line is on the disk before the next step begins, so a
 * power cut loses at most the step that was being done. A last line without its line end was cut off and is left out.
 */
public final class BringUpJournal implements AutoCloseable {
    /** The file in the folder of a record. */
    public static final String FILE = "commission.jsonl";

    private static final ObjectMapper JSON = new ObjectMapper();

    private final Path file;
    private final List<JournalEntry> entries = new ArrayList<>();
    private final FileChannel channel;

    /** Opens a journal, or begins one.
     *
     * @throws Trouble when it cannot be read or written, or a line within it is damaged
     */
    public BringUpJournal(Path folder) {
        file = folder.resolve(FILE);
        try {
            boolean isNew = !Files.exists(file);
            byte[] bytes = isNew ? new byte[0] : Files.readAllBytes(file);
            int whole = readWholeLines(bytes);
            channel = FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            channel.truncate(whole);
            channel.position(whole);
            if (isNew) {
                forceEntryOf(folder);
            }
        } catch (IOException e) {
            throw new Trouble("cannot keep the journal", file, e);
        }
    }

    /** Reads up to the last line that has its end; returns how many bytes that is. */
    private int readWholeLines(byte[] bytes) throws IOException {
        int from = 0;
        for (int i = 0; i < bytes.length; i++) {
            if (bytes[i] == '\n') {
                String line = new String(bytes, from, i - from, StandardCharsets.UTF_8);
                try {
                    entries.add(complete(JSON.readValue(line, JournalEntry.class)));
                } catch (JsonProcessingException e) {
                    throw new IOException("line " + (entries.size() + 1) + " is damaged: " + e.getOriginalMessage(), e);
                }
                from = i + 1;
            }
        }
        return from;
    }

    /** Unknown keys are refused by the reader, missing keys here. */
    private JournalEntry complete(JournalEntry entry) throws IOException {
        try {
            for (RecordComponent key : entry.getClass().getRecordComponents()) {
                if (key.getAccessor().invoke(entry) == null) {
                    throw new IOException("line " + (entries.size() + 1) + " has no \"" + key.getName() + "\"");
                }
            }
            return entry;
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("a journal entry cannot be looked into: " + entry, e);
        }
    }

    /** The folder's entry for the file must be on the disk too. Windows cannot open a folder; it does this itself. */
    private static void forceEntryOf(Path folder) throws IOException {
        if (!System.getProperty("os.name").startsWith("Windows")) {
            try (FileChannel entry = FileChannel.open(folder, StandardOpenOption.READ)) {
                entry.force(true);
            }
        }
    }

    /** Every entry, in order. */
    public List<JournalEntry> entries() {
        return entries;
    }

    /** The time now, as it stands in entries. */
    static String now() {
        return OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString();
    }

    /** Adds an entry; when this returns it is on the disk. */
    void add(JournalEntry entry) {
        try {
            ByteBuffer bytes =
                    ByteBuffer.wrap((JSON.writeValueAsString(entry) + "\n").getBytes(StandardCharsets.UTF_8));
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            channel.force(false);
        } catch (IOException e) {
            throw new Trouble("cannot keep the journal", file, e);
        }
        entries.add(entry);
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
