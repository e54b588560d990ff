package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.hand.emulated.Program.Ending;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.SerialPorts;

/** {@code bus send} as a process, with an adapter at the far end of a pseudo-terminal: what is heard last releases the outputs. */
@Tag("realtime")
class RealBusTest {
    /** How long a release takes on a quiet machine is asked with {@code -Dreleased.ms=200}; on a busy one only what is sent counts. */
    private static final long RELEASED_NS = Long.getLong("released.ms", 60_000) * 1_000_000;
    /** Identifier and length of charger_1_command in the shipped bus. */
    private static final String COMMAND = "t0C08";
    /** Enabled, 5.0 A: fifty tenths. */
    private static final String ENABLED = COMMAND + "013200";

    private static final String RELEASED = COMMAND + "000000";

    @TempDir
    Path folder;

    private final List<String> heard = new CopyOnWriteArrayList<>();
    private PseudoTerminals cable;
    private Thread adapter;
    private volatile boolean listening = true;

    @BeforeEach
    void connect() throws IOException {
        cable = new PseudoTerminals(folder);
        Port far = SerialPorts.of(PortChoice.path(cable.far()), new LineSettings(115_200, LineSettings.Parity.NONE, 1));
        far.open();
        adapter = new Thread(() -> answer(far), "adapter");
        adapter.start();
    }

    @AfterEach
    void disconnect() throws InterruptedException {
        listening = false;
        if (adapter != null) {
            adapter.join();
            cable.close();
        }
    }

    @ParameterizedTest
    @EnumSource(Ending.class)
    void sending_nobodyThereAnyMore_releasedOutputsAreSentLast(Ending ending) throws Exception {
        String shipped = Files.readString(Path.of("..", "config", "buses", "van-pair.toml"));
        Path file = folder.resolve("bus.toml");
        Files.writeString(file, shipped.replaceFirst("(?m)^port = .*$", "port = \"" + cable.near() + "\""));
        String name = "charger_1_command";
        String[] words = {
            "bus", "send", "--bus", file.toString(), name, "enable=1", "limit=5", "--seconds", "30", "--confirm", name
        };
        try (Program program = Program.start(folder, ending, words)) {
            program.await("the command", () -> last().startsWith(ENABLED));
            ProcessHandle itself = program.itself();
            long fromNs = System.nanoTime();
            program.end(ending);
            program.await("the release after " + ending, () -> heard.stream().anyMatch(l -> l.startsWith(RELEASED)));
            long tookNs = System.nanoTime() - fromNs;
            assertTrue(tookNs < RELEASED_NS, () -> "released only after " + tookNs / 1_000_000 + " ms");
            program.await("the adapter's leave after " + ending, () -> last().equals("C"));
            List<String> end = heard.subList(heard.size() - 3, heard.size() - 1);
            assertTrue(end.stream().allMatch(l -> l.startsWith(RELEASED)), end::toString);
            program.await("the end of the program", () -> !itself.isAlive());
        }
    }

    private String last() {
        return heard.isEmpty() ? "" : heard.get(heard.size() - 1);
    }

    /** Every command and every frame is taken; a version is told. */
    private void answer(Port far) {
        byte[] buffer = new byte[256];
        StringBuilder line = new StringBuilder();
        try {
            while (listening) {
                int count = far.read(buffer);
                for (int i = 0; i < count; i++) {
                    if (buffer[i] != '\r') {
                        line.append((char) buffer[i]);
                        continue;
                    }
                    heard.add(line.toString());
                    byte[] answer =
                            (line.toString().equals("V") ? "V1013\r" : "\r").getBytes(StandardCharsets.US_ASCII);
                    far.write(answer, answer.length);
                    line.setLength(0);
                }
                LockSupport.parkNanos(500_000);
            }
        } catch (LinkLost e) {
            throw new IllegalStateException("the adapter's line failed", e);
        } finally {
            far.close();
        }
    }
}
