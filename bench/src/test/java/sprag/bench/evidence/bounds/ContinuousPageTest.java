package sprag.bench.evidence.bounds;

import java.io.IOException;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import sprag.bench.docs.MadePages;

/** The table of the page is made of the same formulas that the bounds are held against. */
class ContinuousPageTest {
    @Test
    void table_isMadeFromTheFormulas() throws IOException {
        String head = "| vehicle | braking share per km/h | driving share per km/h | limit to drive, Nm per km/h "
                + "| limit to brake, Nm per km/h | torque away from 0, Nm a tick | torque towards 0, Nm a tick "
                + "| charge current up, A a tick |\n|---|---|---|---|---|---|---|---|\n";
        MadePages.endsWith(
                "continuous.md", head + Cars.shipped().map(Steepness::row).collect(Collectors.joining()));
    }
}
