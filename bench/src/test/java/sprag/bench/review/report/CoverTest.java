package sprag.bench.review.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

class CoverTest {
    @ParameterizedTest
    @EnumSource(Signal.class)
    void everySignalThatMayBeLacking_hasASentence_andNoOtherHas(Signal signal) {
        if (signal.fit != Signal.Fit.ALWAYS) {
            assertNotNull(Cover.lostWithout(signal), signal + " may be lacking, so say what is lost");
        } else {
            assertNull(Cover.lostWithout(signal), signal + " is never lacking");
        }
    }

    @Test
    void sentences_areDifferent_butForTheFurtherChargers() {
        Set<String> words = EnumSet.allOf(Signal.class).stream()
                .filter(s -> s.fit != Signal.Fit.ALWAYS)
                .map(Cover::lostWithout)
                .map(s -> s.replace("second", "further").replace("third", "further"))
                .collect(Collectors.toSet());
        long optional = EnumSet.allOf(Signal.class).stream()
                .filter(s -> s.fit != Signal.Fit.ALWAYS)
                .count();
        assertEquals(optional - 3, words.size(), "ok, current and voltage of the third charger");
    }

    @Test
    void partThatIsNotThere_isNoLoss() throws BadInput {
        Settings one = VehicleReader.read(Catalogue.installed().vehicle("yard-cart"))
                .settings()
                .without(Signal.CHARGER_2_OK)
                .without(Signal.CHARGER_3_OK);
        assertFalse(Cover.lost(one.with(Parameter.CHARGER_COUNT, 1)).containsKey(Signal.CHARGER_2_OK));
        assertTrue(Cover.lost(one.with(Parameter.CHARGER_COUNT, 2)).containsKey(Signal.CHARGER_2_OK));
        Settings none =
                one.with(Parameter.INLET_KIND, Parameter.INLET_KIND.choices().indexOf("none"));
        assertTrue(Cover.lost(none).get(Signal.PLUG_PRESENT).startsWith("no inlet"), Cover.lost(none)::toString);
        assertFalse(Cover.lost(none).containsKey(Signal.PROXIMITY_V));
    }
}
