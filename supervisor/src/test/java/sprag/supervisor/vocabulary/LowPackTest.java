package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;

/** The test vehicle: pack 288 to 403 V, cells 3.0 V at least and 3.2 V low. */
class LowPackTest {
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACK_V   | CELL_V   | ROOM   | BECAUSE
            305.25   | 3.2      | 1      | both where low begins
            299.5    | 3.5      | 0.5    | the pack half way
            293.75   | 3.5      | 0      | 5 % of the range above the least
            293.7    | 3.5      | -0.004 | a little below
            288      | 3.5      | -0.5   | where the car would stop
            350      | 3.133333 | 0.5    | the cell half way
            350      | 3.066667 | 0      | a third of the way from its least to its low voltage
            350      | 3.0      | -0.5   | where the car would stop
            299.5    | 3.066667 | 0      | the cell is nearer to its end
            293.75   | 3.133333 | 0      | the pack is
            299.5    | NaN      | 0.5    | an unknown cell has no say
            NaN      | 3.5      | NaN    | the pack is unknown
            NaN      | 3.0      | NaN    | even with a known cell
            0        | 3.5      | -25.54 | a voltage lost as zero is an empty pack
            Infinity | 3.2      | 1      | nonsense of one is no room of the other
            """)
    void cellsFitted_theLesserRoomCounts(double packV, double cellV, double room, String because) {
        assertEquals(room, room(TestVehicle.full(), packV, cellV), 5e-3, because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"305.25, 2, 1", "293.75, 5, 0", "NaN, 3.5, NaN"})
    void cellsNotFitted_thePackAloneCounts(double packV, double cellV, double room) {
        assertEquals(room, room(TestVehicle.full().without(Signal.CELL_MIN_V), packV, cellV), 1e-3);
    }

    private static double room(Settings settings, double packV, double cellV) {
        Conditioned c = new Conditioned();
        c.packVoltageV = packV;
        c.cellMinV = cellV;
        return new LowPack(settings).room(c);
    }
}
