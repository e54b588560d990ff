package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which addresses one request carries, and what that costs on the line. */
class ModbusGroupTest {
    private static List<ModbusGroup> groups(boolean forWriting, String... pins) {
        return ModbusGroup.of(Arrays.stream(pins).map(ModbusAddress::of).toList(), forWriting);
    }

    private static String text(List<ModbusGroup> groups) {
        return groups.stream()
                .map(group -> group.what() + " for pins " + Arrays.toString(group.pins()))
                .collect(Collectors.joining("; "));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        coil:1 coil:0            | coils 0 to 1 for pins [1, 0]
        coil:0 coil:2            | coil 0 for pins [0]; coil 2 for pins [1]
        coil:0 discrete:1        | coil 0 for pins [0]; discrete input 1 for pins [1]
        input:5.0 input:5.7      | input register 5 for pins [0, 1]
        input:5 holding:6        | input register 5 for pins [0]; holding register 6 for pins [1]
        discrete:3 discrete:4 discrete:5 | discrete inputs 3 to 5 for pins [0, 1, 2]
        """)
    void neighboursOfATable_areOneRequest(String pins, String expected) {
        assertEquals(expected, text(groups(false, pins.split(" "))));
    }

    /** The protocol's limits: 125 registers or 2000 bits a read (reference guide of the protocol). */
    @ParameterizedTest(name = "{1} of {0}, writing {2}")
    @CsvSource({
        "holding, 125, false, 1",
        "holding, 126, false, 2",
        "coil, 2000, false, 1",
        "coil, 2001, false, 2",
        "coil, 120, true, 1",
        "coil, 121, true, 2",
        "holding, 120, true, 1",
        "holding, 121, true, 2"
    })
    void request_carriesNoMoreThanItMay(String table, int count, boolean forWriting, int requests) {
        List<String> pins = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            pins.add(table + ":" + (7 + i));
        }
        List<ModbusGroup> groups = groups(forWriting, pins.toArray(new String[0]));
        assertEquals(requests, groups.size());
        assertEquals(7, groups.get(0).from());
        assertEquals(count, groups.stream().mapToInt(ModbusGroup::count).sum());
    }

    /** Request of 8 bytes, reply of 5 and its data, twice 3.5 characters of silence, rounded up. */
    @ParameterizedTest
    @CsvSource({"coil, 1, 22", "coil, 8, 22", "coil, 9, 23", "holding, 1, 23", "holding, 3, 27"})
    void read_costsItsBytes(String table, int count, int bytes) {
        List<String> pins = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            pins.add(table + ":" + i);
        }
        assertEquals(bytes, groups(false, pins.toArray(new String[0])).get(0).bytesToRead());
    }

    @Test
    void bitOfARegister_isThatBitAndNoOther() {
        assertEquals(0, ModbusAddress.of("input:2.0").of(0b10));
        assertEquals(1, ModbusAddress.of("input:2.0").of(0b11));
        assertEquals(1, ModbusAddress.of("input:2.1").of(0b10));
        assertEquals(0, ModbusAddress.of("input:2.15").of(0x7FFF));
        assertEquals(1, ModbusAddress.of("input:2.15").of(0x8000));
        assertEquals(0x8001, ModbusAddress.of("input:2").of(0x8001));
    }

    @Test
    void bitOfABit_isNoAddress() {
        assertNull(ModbusAddress.of("coil:0.0"));
        assertNull(ModbusAddress.of("discrete:3.1"));
        assertEquals(new ModbusAddress(ModbusTable.HOLDING, 3, 0), ModbusAddress.of(" holding:3.0 "));
    }
}
