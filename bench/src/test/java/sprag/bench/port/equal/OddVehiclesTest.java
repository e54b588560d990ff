package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Consistency;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

class OddVehiclesTest {
    private static List<Settings> sound;

    @BeforeAll
    static void make() throws Exception {
        Settings van =
                VehicleReader.read(Catalogue.installed().vehicle("parcel-van")).settings();
        sound = new OddVehicles(van).sound();
    }

    /** A reason why a mistake changes nothing may lean on these rules. */
    @Test
    void lastTwo_limitsFallTogether_butWhereARuleKeepsThemApart() {
        for (Settings settings : sound.subList(sound.size() - 2, sound.size())) {
            assertEquals(
                    List.of(),
                    Stream.of(Consistency.values())
                            .filter(row -> !row.holds(settings.get(row.lower), settings.get(row.upper)))
                            .toList());
        }
        assertTrue(sound.stream()
                .anyMatch(each -> each.get(Parameter.COOLANT_FAN_C) == each.get(Parameter.COOLANT_WARM_C)));
    }

    /** Only a plain lead without a switch is known by the lines of the chargers. */
    @Test
    void plainLead_withNothingButTheLinesOfTheChargers_isAmongThem() {
        assertTrue(sound.stream()
                .anyMatch(each -> each.is(Parameter.INLET_KIND, "plain")
                        && each.has(Signal.CHARGER_1_OK)
                        && !each.has(Signal.PILOT_PEAK_V)
                        && !each.has(Signal.PLUG_PRESENT)));
    }

    @Test
    void vehicles_noTwoAreAlike() {
        Set<List<Double>> all = new HashSet<>();
        for (Settings each : sound) {
            all.add(Stream.of(Parameter.values()).map(each::get).toList());
        }
        assertEquals(sound.size(), all.size());
        assertFalse(all.isEmpty());
    }
}
