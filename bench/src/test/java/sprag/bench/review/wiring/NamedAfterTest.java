package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A name is held against the wiring only where it says one thing. */
class NamedAfterTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van");

    @ParameterizedTest
    @CsvSource({
        "heater_probe,       false",
        "motor_heater_probe, false",
        "probe_2,            false",
        "motor_probe,        true",
        "coolant_probe,      true"
    })
    void heaterSensor_underAnotherName_isFoundOnlyWhereTheNameSaysAnotherTemperature(String name, boolean found) {
        Draft draft = Draft.of(VAN);
        List.of(".a", ".b", ".airflow").forEach(pin -> draft.moveAll("heater_probe" + pin, name + pin));
        draft.setPart("heater_probe", "part", name);
        boolean said = WiringCheck.findings(draft.schedule(), TestLimits.van()).stream()
                .anyMatch(finding -> finding.id().equals(Rule.SIGNALS_SWAPPED.id()));
        assertEquals(found, said);
    }
}
