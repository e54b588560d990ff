package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;

/** The test vehicle: pack 403 V at most, cells 4.15 V high and 4.2 V at most, full from 0.97. */
class FullPackTest {
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACK_V   | CELL_V  | CHARGE | SHARE | BECAUSE
            350      | 3.8     | 0.6    | 1     | the middle
            390.91   | 4.15    | 0.97   | 1     | all three where they begin
            395.4438 | 3.8     | 0.6    | 0.5   | the pack half way to its end
            399.977  | 3.8     | 0.6    | 0.001 | the pack a little before its end
            399.98   | 3.8     | 0.6    | 0     | the pack at its end, three quarters of the way from 390.91 to 403 V
            500      | 3.8     | 0.6    | 0     | far beyond
            350      | 4.16875 | 0.6    | 0.5   | the cell half way to its end
            350      | 4.1875  | 0.6    | 0     | the cell at its end
            350      | 4.1874  | 0.6    | 0.003 | the cell a little before its end
            350      | 3.8     | 0.98125| 0.5   | the charge half way to its end
            350      | 3.8     | 0.9925 | 0     | the charge at its end
            350      | 3.8     | 0.9924 | 0.004 | the charge a little before its end
            395.4438 | 4.1874  | 0.9    | 0.003 | the least counts
            NaN      | 3.8     | 0.6    | 0     | the pack voltage is unknown
            350      | NaN     | 0.6    | 0     | the cell is unknown
            350      | 3.8     | NaN    | 0     | the charge is unknown
            0        | 3.8     | 0.6    | 1     | a voltage lost as zero: nothing is taken, because the power limit is then zero
            """)
    void cellsFitted_theFirstLimitMetCounts(double packV, double cellV, double charge, double share, String because) {
        assertEquals(share, share(TestVehicle.full(), packV, cellV, charge), 1e-3, because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"350, 0.6, 1", "395.4438, 0.6, 0.5", "399.99, 0.6, 0", "350, 0.9925, 0"})
    void cellsNotFitted_packAndChargeCount(double packV, double charge, double share) {
        assertEquals(share, share(TestVehicle.full().without(Signal.CELL_MAX_V), packV, Double.NaN, charge), 1e-3);
    }

    private static double share(Settings settings, double packV, double cellV, double charge) {
        Conditioned c = new Conditioned();
        c.packVoltageV = packV;
        c.cellMaxV = cellV;
        c.stateOfCharge = charge;
        return new FullPack(settings).regenShare(c);
    }
}
