package sprag.bench.review.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.bus.BusReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

class BusCalculationsTest {
    @TempDir
    Path folder;

    private static Vehicle van() throws BadInput {
        return VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
    }

    private List<String> broken(String old, String changed) throws Exception {
        String text = Files.readString(Catalogue.installed().bus("van-pair"));
        assertTrue(text.contains(old), old);
        Path file = Files.writeString(folder.resolve("bus.toml"), text.replaceFirst(old.replace("[", "\\["), changed));
        return BusCalculations.of(van(), BusReader.read(file)).stream()
                .filter(c -> c.verdict() != Calculation.Verdict.KEPT)
                .map(Calculation::id)
                .toList();
    }

    @Test
    void shippedBus_onItsVan_keepsEveryLimit() throws Exception {
        assertEquals(List.of(), broken("[bus]", "[bus]"));
    }

    /** An @ stands for a new line. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        terminator_ohm = 120     |                          | bus-terminators        | only one is left: 120 ohm
        name = "inverter"        | name = "inverter"@terminator_ohm = 120 | bus-terminators-least | a third one: 40 ohm
        stub_m = 0.2             | stub_m = 0.61            | bus-stub-dcdc          | longer than 0.6 m at 500 kbit/s
        trunk_m = 7.5            | trunk_m = 101            | bus-trunk              | longer than 100 m at 500 kbit/s
        id = 0x080               | id = 0x180               | bus-order              | a message of 10 ms after one of 50 ms
        timeout_ms = 2000        | timeout_ms = 3001        | bus-silent-charger-1-command | longer than charger.silent_ms
        timeout_ms = 2000        | timeout_ms = 3001        | bus-goes-on-charger-1-command | longer than budget.pack_ms
        period_ms = 10@timeout_ms = 40@counter_start = 16 | period_ms = 10@timeout_ms = 251@counter_start = 16 | bus-goes-on-torque-command | longer than budget.torque_ms
        signal = "charger_1_voltage_v" | signal = "charger_3_voltage_v" | bus-unused | the van has two chargers
        factor = 0.1             | factor = 0.001           | bus-range-inverter-state-bus-voltage | 64 V at most
        """)
    void oneMistake_checked_isFound(String old, String changed, String id, String because) throws Exception {
        List<String> broken = broken(old.replace('@', '\n'), changed == null ? "" : changed.replace('@', '\n'));
        assertTrue(broken.contains(id), because + ": " + broken);
    }

    @Test
    void slowBus_checked_isTooFull() throws Exception {
        List<String> broken = broken("bit_rate_kbit = 500", "bit_rate_kbit = 50");
        assertTrue(broken.contains("bus-load"), broken::toString);
        assertTrue(broken.stream().anyMatch(id -> id.startsWith("bus-stale-")), broken::toString);
    }
}
