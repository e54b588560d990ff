package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Nonsense in, nothing worse than a count of it out. */
class FirmataParserFuzzTest {
    private static final int MESSAGES = 2000;

    private final List<String> heard = new ArrayList<>();
    private final FirmataParser parser = new FirmataParser(new Recorder(heard));

    static LongStream seeds() {
        return LongStream.range(0, 40);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whileAnyBytesCome_everyByteIsAMessageOrStray(long seed) {
        Random random = new Random(seed);
        byte[] noise = new byte[64];
        for (int i = 0; i < 500; i++) {
            random.nextBytes(noise);
            parser.feed(noise, random.nextInt(noise.length + 1));
        }
        for (String message : heard) {
            assertTrue(message.matches("[vads] \\d+ \\d+"), message);
        }
        assertTrue(parser.strayBytes() > 0, "half of all bytes cannot begin a message");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void wholeMessages_cutAnywhereIntoPieces_areAllHeard(long seed) {
        Random random = new Random(seed);
        ByteArrayOutputStream sent = new ByteArrayOutputStream();
        List<String> expected = new ArrayList<>();
        for (int i = 0; i < MESSAGES; i++) {
            addMessage(random, sent, expected);
        }
        feedInPieces(random, sent.toByteArray());
        assertEquals(expected, heard);
        assertEquals(0, parser.strayBytes());
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void afterNonsense_theNextWholeMessageIsHeard(long seed) {
        Random random = new Random(seed);
        byte[] noise = new byte[random.nextInt(300)];
        random.nextBytes(noise);
        parser.feed(noise, noise.length);
        heard.clear();
        byte[] good = {(byte) 0xE3, 0x01, 0x02};
        parser.feed(good, 3);
        assertEquals("a 3 257", heard.get(heard.size() - 1), "a command byte always begins anew");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void endlessMessage_isDroppedAndCounted(long seed) {
        Random random = new Random(seed);
        byte[] endless = new byte[10_000];
        endless[0] = (byte) 0xF0;
        for (int i = 1; i < endless.length; i++) {
            endless[i] = (byte) random.nextInt(0x80);
        }
        parser.feed(endless, endless.length);
        assertEquals(List.of(), heard);
        assertEquals(endless.length, parser.strayBytes());
    }

    private static void addMessage(Random random, ByteArrayOutputStream sent, List<String> expected) {
        int low = random.nextInt(0x80);
        int high = random.nextInt(0x80);
        int n = random.nextInt(16);
        switch (random.nextInt(4)) {
            case 0:
                put(sent, 0xF9, low, high);
                expected.add("v " + low + " " + high);
                break;
            case 1:
                put(sent, 0xE0 | n, low, high);
                expected.add("a " + n + " " + (low | high << 7));
                break;
            case 2:
                put(sent, 0x90 | n, low, high);
                expected.add("d " + n + " " + ((low | high << 7) & 0xFF));
                break;
            default:
                put(sent, 0xF0, low);
                for (int i = 0; i < n; i++) {
                    sent.write(random.nextInt(0x80));
                }
                sent.write(0xF7);
                expected.add("s " + low + " " + n);
        }
    }

    private void feedInPieces(Random random, byte[] all) {
        int at = 0;
        while (at < all.length) {
            int length = Math.min(all.length - at, random.nextInt(20));
            byte[] piece = new byte[length];
            System.arraycopy(all, at, piece, 0, length);
            parser.feed(piece, length);
            at += length;
        }
    }

    private static void put(ByteArrayOutputStream sent, int... bytes) {
        for (int value : bytes) {
            sent.write(value);
        }
    }

    private record Recorder(List<String> heard) implements FirmataListener {
        @Override
        public void version(int major, int minor) {
            heard.add("v " + major + " " + minor);
        }

        @Override
        public void analogue(int channel, int value) {
            heard.add("a " + channel + " " + value);
        }

        @Override
        public void digital(int port, int bits) {
            heard.add("d " + port + " " + bits);
        }

        @Override
        public void sysex(int command, byte[] data) {
            heard.add("s " + command + " " + data.length);
        }
    }
}
