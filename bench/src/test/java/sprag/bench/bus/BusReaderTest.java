package sprag.bench.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

class BusReaderTest {
    private static final String GOOD = """
        [bus]
        port = "/dev/ttyACM0"
        bit_rate_kbit = 500
        [[message]]
        name = "monitor"
        id = 0x120
        sender = "battery_monitor"
        length = 8
        period_ms = 20
        timeout_ms = 60
        counter_start = 48
        counter_bits = 4
        sum = "crc-8-1d"
        sum_byte = 7
        [[message.field]]
        name = "voltage"
        start = 0
        bits = 16
        factor = 0.1
        unit = "v"
        signal = "pack_voltage_v"
        [[message]]
        name = "charger"
        id = 0x300
        sender = "supervisor"
        length = 4
        period_ms = 100
        [[message.field]]
        name = "limit"
        start = 0
        bits = 16
        factor = 0.1
        unit = "a"
        output = "charger_1_limit_a"
        """;

    @TempDir
    Path folder;

    private BusFile read(String text) throws IOException, BadInput {
        Path file = folder.resolve("bus.toml");
        Files.writeString(file, text);
        return BusReader.read(file);
    }

    private String refusal(String text) {
        return assertThrows(BadInput.class, () -> read(text)).getMessage();
    }

    @Test
    void goodFile_read_isABus() throws IOException, BadInput {
        BusFile bus = read(GOOD);
        assertEquals(2, bus.map().messages().size());
        assertEquals(
                List.of(Signal.PACK_VOLTAGE_V), List.copyOf(bus.map().pins().signals()));
        assertEquals(
                List.of(Output.CHARGER_1_LIMIT_A), List.copyOf(bus.map().pins().driven()));
        assertEquals(300, bus.map().messages().get(1).timeoutMs(), "three periods when the file does not say");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        bit_rate_kbit = 500      | bit_rate_kbit = 501     | bus.bit_rate_kbit = 501 | the adapter has no such speed
        id = 0x120               | id = 0x800              | message[0].id = 2048    | more than 11 bits
        id = 0x120               | id = 0x300              | is that of              | two senders of one identifier
        id = 0x120               |                         | message[0].id is missing | no identifier
        length = 8               | length = 9              | message[0].length = 9   | more than a frame has
        timeout_ms = 60          | timeout_ms = 20         | is not longer than period_ms | always late
        start = 0                | start = 49              | does not fit into 8 bytes | beyond the frame
        start = 0                | start = 40              | takes bits of the counter | overlap with the counter
        sum_byte = 7             | sum_byte = 1            | takes bits of the check sum | overlap with the sum
        sum_byte = 7             | sum_byte = 6            | takes bits of the counter | the sum upon the counter
        sum = "crc-8-1d"         | sum = "crc8"            | one of none, sum-8, crc-8-1d | unknown sum
        unit = "v"               |                         | unit is missing          | no unit beside a factor
        unit = "v"               | unit = "mv"             | the unit of pack_voltage_v | wrong unit
        factor = 0.1             | factor = 0              | cannot be the value of one count | no value
        signal = "pack_voltage_v" | signal = "pack_voltage" | Did you mean             | unknown signal
        signal = "pack_voltage_v" | output = "buzzer"      | stands in a message of another node | output in a received message
        name = "charger"         | name = "monitor"        | stands in line 5 too     | one name twice
        bits = 16                | bits = 33               | are too many             | more than a pin can have
        port =                   | prt =                   | bus.port is missing      | no port
        port =                   | prt =                   | bus.prt is not a known key | unknown key
        length = 8               | length = 7.5            | a whole number           | half a byte
        bits = 16                | bits = 15.5             | a whole number           | half a bit
        factor = 0.1             | signed = true, unknown_from = 0x8000 | negative numbers unknown | a sign and the greatest counts
        sender = "supervisor"    | sender = "nobody"       | stands in a message of another node | then it is received
        """)
    void oneMistake_read_isNamed(String good, String bad, String words, String because) {
        String text =
                GOOD.replaceFirst(java.util.regex.Pattern.quote(good), bad == null ? "" : bad.replace(", ", "\n"));
        String refusal = refusal(text);
        assertTrue(refusal.contains(words), because + ": " + refusal);
        assertTrue(refusal.contains("bus.toml:"), "file and line: " + refusal);
    }

    @Test
    void twoFields_ofTheSameBits_areNamed() {
        String second = "[[message.field]]\nname = \"on\"\nstart = 8\nbits = 2\noutput = \"charger_enable\"\n";
        String refusal = refusal(GOOD + second);
        assertTrue(refusal.contains("message[1].field[1].start takes bits of field limit"), refusal);
    }

    @Test
    void mistakes_several_comeAtOnce() {
        String refusal = refusal(GOOD.replace("id = 0x120", "id = 0x800").replace("length = 4", "length = 40"));
        assertTrue(refusal.contains("id = 2048") && refusal.contains("length = 40"), refusal);
    }

    @Test
    void periodOfVehicle_readForIt_mustBeShorterThanItsStaleTime() throws IOException, BadInput {
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        double staleMs = van.get(Parameter.LOOP_STALE_MS);
        Path file = folder.resolve("bus.toml");
        Files.writeString(
                file,
                GOOD.replace("period_ms = 20", "period_ms = " + (staleMs - 1))
                        .replace("timeout_ms = 60", "timeout_ms = 200"));
        assertEquals(2, BusReader.read(file, van).map().messages().size());
        Files.writeString(
                file,
                GOOD.replace("period_ms = 20", "period_ms = " + staleMs)
                        .replace("timeout_ms = 60", "timeout_ms = 200"));
        String refusal =
                assertThrows(BadInput.class, () -> BusReader.read(file, van)).getMessage();
        assertTrue(refusal.contains("loop.stale_ms"), refusal);
    }

    @Test
    void shippedBuses_read_areGood() throws BadInput {
        assertEquals(List.of("van-pair"), Catalogue.installed().buses());
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        BusFile bus = BusReader.read(Catalogue.installed().bus("van-pair"), van);
        assertTrue(
                bus.map().pins().signals().size() >= 18,
                () -> "" + bus.map().pins().signals());
        assertTrue(van.fitted().containsAll(bus.map().pins().signals()));
        assertEquals(2, bus.nodes().stream().filter(n -> n.terminatorOhm() > 0).count());
    }

    @Test
    void database_imported_isAGoodFileAndWhatIsLostIsSaid() throws IOException, BadInput {
        List<String> database = List.of(
                "VERSION \"\"",
                "BU_: UNIT_A UNIT_B",
                "BO_ 288 Pack: 8 UNIT_A",
                " SG_ Voltage : 7|16@0+ (0.1,0) [0|6553.5] \"V\" UNIT_B",
                " SG_ Temp : 16|8@1- (1,-40) [0|0] \"degC\" UNIT_B",
                " SG_ Mode : 24|4@1+ (1,0) [0|15] \"\" UNIT_B",
                " SG_ Detail m1 : 32|8@1+ (1,0) [0|0] \"\" UNIT_B",
                "BO_ 2566844672 Far: 2 UNIT_B",
                " SG_ X : 0|8@1+ (1,0) [0|0] \"\" UNIT_A",
                "BO_ 5 Long: 64 UNIT_B",
                "BO_ 288 Twin: 8 UNIT_A",
                " SG_ OfTwin : 0|8@1+ (1,0) [0|0] \"\" UNIT_B",
                "BO_ 99999999999999999999 Huge: 8 UNIT_A",
                " SG_ OfHuge : 0|8@1+ (1,0) [0|0] \"\" UNIT_B",
                "BO_ 6 Odd: 8 UNIT_A",
                " SG_ NoNumber : 0|8@1+ (one,0) [0|0] \"\" UNIT_B",
                " SG_ Infinite : 0|8@1+ (1,1e999) [0|0] \"\" UNIT_B",
                " SG_ Bell : 8|8@1+ (1,0) [0|0] \"a\u0007b\" UNIT_B",
                " SG_ Bell : 16|8@1+ (1,0) [0|0] \"\" UNIT_B",
                "VAL_ 99999999999999999999 Mode 0 \"off\" ;",
                "CM_ SG_ 288 Voltage \"text\";",
                "BA_ \"GenMsgCycleTime\" BO_ 288 20;",
                "VAL_ 288 Mode 0 \"off\" 3 \"ready \\\\ on\" ;");
        DatabaseImport.Result result = DatabaseImport.of(database, 250);
        assertEquals(3, result.messages());
        BusFile bus = read(result.toml());
        assertEquals(20, bus.map().messages().get(0).periodMs());
        assertEquals(0x18FEF100, bus.map().messages().get(1).id());
        assertTrue(bus.map().messages().get(1).extended());
        assertEquals(
                "off",
                bus.map().messages().get(0).fields().get(2).codes().texts().get(0L));
        byte[] data = {0x03, (byte) 0xC0, 10, 3, 0, 0, 0, 0};
        assertEquals(96, bus.map().messages().get(0).fields().get(0).value(data), 1e-9);
        assertEquals(-30, bus.map().messages().get(0).fields().get(1).value(data), 1e-9);
        assertEquals(3, bus.map().messages().get(0).fields().size(), "no field of another message");
        assertEquals("a b", bus.map().messages().get(2).fields().get(0).unit());
        String lost = String.join("\n", result.lost());
        List.of(
                        "Twin has the identifier of Pack",
                        "line 13 cannot be read",
                        "NoNumber",
                        "Infinite",
                        "Bell of Odd is there")
                .forEach(words -> assertTrue(lost.contains(words), words + " in " + lost));
        assertTrue(lost.contains("Detail") && lost.contains("Long") && lost.contains("CM_"), lost);
    }
}
