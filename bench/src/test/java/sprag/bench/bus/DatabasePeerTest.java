package sprag.bench.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.vehicle.BadInput;
import sprag.hal.bus.BitField;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMessage;

/**
 * Fields of a message database, decoded and encoded by another implementation too: python3-canmatrix of Debian. Both read the same
 * database; ours comes through {@code bus import} and the reader of bus files.
 */
@Tag("long")
class DatabasePeerTest {
    private static final int FIELDS = 100_000;
    /** As many as one bus file may hold: it is read up to 1 MB. */
    private static final int FIELDS_PER_FILE = 4000;

    private static final String PYTHON = "/usr/bin/python3";

    /** For each message: counts and values of the fields in a payload; the payload that holds given counts; the values of those. */
    private static final String PEER = """
        import sys
        import canmatrix.formats
        folder, files = sys.argv[1], int(sys.argv[2])
        for k in range(files):
            database = canmatrix.formats.loadp_flat('%s/%d.dbc' % (folder, k))
            with open('%s/%d.asked' % (folder, k)) as asked, open('%s/%d.answered' % (folder, k), 'w') as answered:
                for line in asked:
                    name, payload, counts = line.strip().split('|')
                    frame = database.frame_by_name(name)
                    counts = [int(c) for c in counts.split()]
                    fields = [frame.signal_by_name('F%d' % i) for i in range(len(counts))]
                    decoded = frame.decode(bytearray.fromhex(payload))
                    read = ['%d=%s' % (decoded[f.name].raw_value, decoded[f.name].phys_value) for f in fields]
                    values = [f.raw2phys(c) for f, c in zip(fields, counts)]
                    packed = frame.encode({f.name: f.phys2raw(v) for f, v in zip(fields, values)})
                    answered.write('|'.join([' '.join(read), packed.hex(), ' '.join(str(v) for v in values)]) + '\\n')
        """;

    private static final String[] FACTORS = {"1", "0.1", "0.01", "0.005", "0.25", "2", "-1", "0.03125", "100", "-0.5"};
    private static final String[] OFFSETS = {"0", "0", "-40", "1000", "0.5", "-1234.5"};

    /** What is asked of both: the counts in a random payload, and a payload that holds random counts. */
    private record Asked(String message, byte[] payload, long[] counts) {}

    @TempDir
    Path folder;

    private final Random random = new Random(18);

    @Test
    void hundredThousandRandomFields_ofBothOrders_areReadAndWrittenAsAnotherLibraryDoes() throws Exception {
        assumeTrue(
                Files.exists(Path.of(PYTHON)) && run("-c", "import canmatrix.formats") == 0,
                "python3-canmatrix is not installed");
        List<BusFile> buses = new ArrayList<>();
        List<List<Asked>> asked = new ArrayList<>();
        int fields = 0;
        while (fields < FIELDS) {
            BusFile bus = imported(buses.size());
            fields += bus.map().messages().stream()
                    .mapToInt(m -> m.fields().size())
                    .sum();
            asked.add(ask(buses.size(), bus));
            buses.add(bus);
        }
        Path script = Files.writeString(folder.resolve("peer.py"), PEER);
        assertEquals(0, run(script.toString(), folder.toString(), "" + buses.size()));
        int compared = 0;
        for (int k = 0; k < buses.size(); k++) {
            List<String> answered = Files.readAllLines(folder.resolve(k + ".answered"));
            assertEquals(asked.get(k).size(), answered.size());
            for (int m = 0; m < answered.size(); m++) {
                compared += compare(
                        buses.get(k).map().messages().get(m), asked.get(k).get(m), answered.get(m));
            }
        }
        assertEquals(fields, compared);
        System.out.println(compared + " fields read and written as python3-canmatrix does");
    }

    private int run(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(PYTHON));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("peer.out").toFile())
                .start()
                .waitFor();
    }

    /** A random database, through the import and the reader. Nothing of it may be lost. */
    private BusFile imported(int number) throws IOException, BadInput {
        List<String> lines = new ArrayList<>(List.of("VERSION \"\"", "BU_: NODE"));
        int fields = 0;
        for (int m = 0; fields < FIELDS_PER_FILE; m++) {
            int length = random.nextInt(4) == 0 ? 1 + random.nextInt(8) : 8;
            // Bit 31 says in such a database that the identifier has 29 bits.
            lines.add("BO_ " + (m < 0x700 && random.nextBoolean() ? m : 0x8000_0000L + m) + " M" + m + ": " + length
                    + " NODE");
            List<BitField> places = places(length);
            for (int f = 0; f < places.size(); f++) {
                BitField place = places.get(f);
                lines.add(" SG_ F" + f + " : " + place.start() + "|" + place.length() + "@"
                        + (place.bigEndFirst() ? "0" : "1") + (place.signed() ? "-" : "+") + " (" + one(FACTORS) + ","
                        + one(OFFSETS) + ") [0|0] \"\" NODE");
            }
            fields += places.size();
        }
        Files.write(folder.resolve(number + ".dbc"), lines);
        DatabaseImport.Result result = DatabaseImport.of(lines, 500);
        assertTrue(result.lost().stream().noneMatch(lost -> lost.contains("line ")), () -> "" + result.lost());
        BusFile bus = BusReader.read(Files.writeString(folder.resolve(number + ".toml"), result.toml()));
        assertEquals(
                fields,
                bus.map().messages().stream().mapToInt(m -> m.fields().size()).sum(),
                "no field is lost on the way");
        return bus;
    }

    private String one(String... of) {
        return of[random.nextInt(of.length)];
    }

    private List<BitField> places(int length) {
        int[] most = {1, 2, 4, 8, 12, 16, 32, 64};
        List<BitField> places = new ArrayList<>();
        long taken = 0;
        for (int n = 0; n < 40 || places.isEmpty(); n++) {
            BitField place = new BitField(
                    random.nextInt(8 * length),
                    1 + random.nextInt(most[random.nextInt(most.length)]),
                    random.nextBoolean(),
                    random.nextBoolean());
            if (place.fits(length) && (place.positions() & taken) == 0) {
                taken |= place.positions();
                places.add(place);
            }
        }
        return places;
    }

    private List<Asked> ask(int number, BusFile bus) throws IOException {
        List<Asked> asked = new ArrayList<>();
        List<String> lines = new ArrayList<>();
        for (BusMessage message : bus.map().messages()) {
            byte[] payload = new byte[message.length()];
            random.nextBytes(payload);
            long[] counts = message.fields().stream()
                    .mapToLong(f -> random.nextLong() & f.place().allOnes())
                    .toArray();
            StringBuilder numbers = new StringBuilder();
            for (int f = 0; f < counts.length; f++) {
                numbers.append(' ').append(number(message.fields().get(f), counts[f]));
            }
            asked.add(new Asked(message.name(), payload, counts));
            lines.add(message.name() + "|" + HexFormat.of().formatHex(payload) + "|" + numbers);
        }
        Files.write(folder.resolve(number + ".asked"), lines);
        return asked;
    }

    private static String number(BusField field, long raw) {
        return field.place().signed()
                ? Long.toString(field.place().number(raw))
                : Long.toUnsignedString(field.place().number(raw));
    }

    private static int compare(BusMessage message, Asked asked, String answered) {
        String[] parts = answered.split("\\|");
        String[] read = parts[0].split(" ");
        String[] values = parts[2].split(" ");
        byte[] data = java.util.Arrays.copyOf(asked.payload, 8);
        byte[] packed = new byte[8];
        for (int f = 0; f < read.length; f++) {
            BusField field = message.fields().get(f);
            String where = message.name() + " " + field;
            String[] countsAndValue = read[f].split("=");
            assertEquals(countsAndValue[0], number(field, field.place().raw(data)), where);
            double value = Double.parseDouble(countsAndValue[1]);
            double rounding = 1e-12 * (Math.abs(value) + Math.abs(field.offset()) + 1);
            assertEquals(value, field.value(data), rounding, where);
            field.place().put(packed, asked.counts[f]);
            if (field.place().length() <= 32) {
                assertEquals(asked.counts[f], field.scale().raw(Double.parseDouble(values[f])), where);
            }
        }
        String hex = HexFormat.of().formatHex(packed, 0, message.length());
        assertEquals(parts[1], hex, () -> message.name() + ": " + message.fields());
        return read.length;
    }
}
