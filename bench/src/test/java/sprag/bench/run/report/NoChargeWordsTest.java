package sprag.bench.run.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.Lever;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.trace.Frame;
import sprag.bench.loop.trace.History;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** The report of a run says why nothing is charged where a voltage forbids it. */
class NoChargeWordsTest {
    private static final String NO_CURRENT = "No charge current is asked for: the ";

    @ParameterizedTest(name = "{0}, plugged in {1}")
    @CsvSource(delimiter = '|', quoteCharacter = '"', textBlock = """
        pack_voltage_v.short_low | true  | pack shows 0.00 V, less than half of 78 V (pack.min_v). 0 V is what an open wire shows
        pack_voltage_v.short_low | false | ""
        ""                       | true  | ""
        """)
    void charge_voltageBelowHalfOfItsLeast_saysWhy(String fault, boolean plugged, String says) throws Exception {
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        ClosedLoop loop = new ClosedLoop(van, 1);
        History history = new History(loop.channels());
        Frame frame = loop.channels().newFrame();
        if (!fault.isEmpty()) {
            loop.inject(fault);
        }
        loop.car().levers().set(Lever.PLUG, plugged ? 1 : 0);
        for (int tick = 0; tick < 500; tick++) {
            loop.decide();
            loop.show(frame);
            history.add(frame);
            loop.live();
        }
        String said = NoChargeWords.of(history, van.settings());
        String begins = says.isEmpty() ? "" : NO_CURRENT + says;
        assertEquals(begins, said.substring(0, Math.min(begins.length(), said.length())), said);
        assertEquals(says.isEmpty(), said.isEmpty(), said);
    }
}
