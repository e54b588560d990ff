package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a real port does when its far end dies in different ways, and how a port is chosen. Tests without the tag wait for an event on
 * a pseudo-terminal and may take as long as they like.
 */
class SerialLineTest {
    private static final LineSettings LINE = new LineSettings(115200, LineSettings.Parity.NONE, 1);
    private static final PortInfo FIRST = usb("/dev/ttyACM0", "2a03", "0043", "A1");
    private static final PortInfo TWIN = usb("/dev/ttyACM1", "2a03", "0043", "A2");
    private static final PortInfo PLAIN = new PortInfo("/dev/ttyS0", "", "", "", "", "", "");

    @TempDir
    Path folder;

    @Test
    void whileNobodyReadsAtTheFarEnd_aWriteEndsInWordsInsteadOfWaitingForEver() throws Exception {
        try (PseudoTerminals cable = new PseudoTerminals(folder);
                Port near = SerialPorts.of(PortChoice.path(cable.near()), LINE)) {
            near.open();
            byte[] block = new byte[1000];
            LinkLost lost = assertThrows(LinkLost.class, () -> {
                for (int i = 0; i < 10_000; i++) {
                    near.write(block, block.length);
                }
            });
            assertTrue(lost.getMessage().contains("has stopped reading"), lost.getMessage());
        }
    }

    @Test
    void cablePulled_theNextReadSaysSo() throws Exception {
        try (PseudoTerminals cable = new PseudoTerminals(folder);
                Port near = SerialPorts.of(PortChoice.path(cable.near()), LINE)) {
            near.open();
            assertEquals(0, near.read(new byte[10]), "nothing has come, and it does not wait for it");
            cable.pull();
            LinkLost lost = assertThrows(LinkLost.class, () -> {
                while (true) {
                    near.read(new byte[10]);
                }
            });
            assertTrue(lost.getMessage().contains("is gone"), lost.getMessage());
        }
    }

    /** In real time: a machine that stalls while the line is written makes the line count as stuck. */
    @Test
    @Tag("realtime")
    void bytesArriveAsTheyWereSent() throws Exception {
        try (PseudoTerminals cable = new PseudoTerminals(folder);
                Port near = SerialPorts.of(PortChoice.path(cable.near()), LINE);
                Port far = SerialPorts.of(PortChoice.path(cable.far()), LINE)) {
            near.open();
            far.open();
            byte[] all = new byte[256];
            for (int i = 0; i < all.length; i++) {
                all[i] = (byte) i;
            }
            near.write(all, all.length);
            byte[] seen = new byte[256];
            byte[] part = new byte[256];
            int[] got = {0};
            PseudoTerminals.await("all bytes", 5_000_000_000L, () -> {
                try {
                    int n = far.read(part);
                    System.arraycopy(part, 0, seen, got[0], n);
                    got[0] += n;
                    return got[0] == all.length;
                } catch (LinkLost e) {
                    throw new AssertionError(e);
                }
            });
            assertEquals(HexFormat.of().formatHex(all), HexFormat.of().formatHex(seen));
        }
    }

    @Test
    void portThatIsNotThere_isToldWithItsRemedy() {
        Port port = SerialPorts.of(PortChoice.path(folder.resolve("nothing").toString()), LINE);
        LinkLost lost = assertThrows(LinkLost.class, port::open);
        assertTrue(lost.getMessage().contains("is not there"), lost.getMessage());
        assertTrue(lost.getMessage().contains("plug the board in"), lost.getMessage());
    }

    @ParameterizedTest(name = "{5}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        /dev/ttyX | ''   | ''   | '' | /dev/ttyX    | a path is taken as it is
        ''        | 2A03 | 0043 | A2 | /dev/ttyACM1 | the serial number tells two alike apart; case does not matter
        ''        | 2a03 | 0043 | '' | -            | two suit
        ''        | 2a03 | 0044 | '' | -            | none suits
        ''        | ''   | ''   | A1 | /dev/ttyACM0 | a serial number alone is enough
        """)
    void choice(String path, String vendor, String product, String serial, String found, String because)
            throws Exception {
        PortChoice choice = new PortChoice(path, vendor, product, serial);
        List<PortInfo> attached = List.of(FIRST, TWIN, PLAIN);
        if (found == null) {
            String words =
                    assertThrows(LinkLost.class, () -> choice.find(attached)).getMessage();
            assertTrue(words.contains("should be one port but is"), because + ": " + words);
        } else {
            assertEquals(found, choice.find(attached), because);
        }
    }

    @ParameterizedTest
    @CsvSource({"299, 1", "4000001, 1", "9600, 0", "9600, 3"})
    void lineThatCannotBe_isRefused(int baud, int stopBits) {
        assertThrows(IllegalArgumentException.class, () -> new LineSettings(baud, LineSettings.Parity.NONE, stopBits));
    }

    private static PortInfo usb(String path, String vendor, String product, String serial) {
        return new PortInfo(path, "", "", vendor, product, serial, "");
    }
}
