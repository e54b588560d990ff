package sprag.bench.evidence.prove.promise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import sprag.bench.evidence.prove.explore.Choices;
import sprag.bench.evidence.prove.explore.Successors;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Settings;

class TickTest {
    private static final int STATES = 60;
    private static final long CONTROL = (1L << LogicState.CONTROL_BITS) - 1;

    /** What stands first in a shape is still whole behind everything else: nothing was pushed out at the upper end. */
    @Test
    void ticksFromManyStates_shaped_keepEveryBit() throws Exception {
        Settings cart = VehicleReader.read(new Catalogue(Path.of("..")).vehicle("yard-cart"))
                .settings();
        Tick tick = new Tick(cart, cart, Set.of(), false);
        Choices choices = new Choices(tick.keys());
        Successors labels = new Successors(tick.labels());
        List<Long> states = new ArrayList<>(List.of(tick.initial()));
        Set<Long> known = new HashSet<>(states);
        Set<Long> shapes = new HashSet<>();
        for (int i = 0; i < states.size() && i < STATES; i++) {
            long state = states.get(i);
            choices.begin();
            do {
                long after = tick.step(state, choices, labels);
                shapes.add(tick.shape());
                assertEquals(state & CONTROL, tick.shape() >>> Tick.SHAPE_BITS - LogicState.CONTROL_BITS);
                if (known.add(after)) {
                    states.add(after);
                }
            } while (choices.next());
        }
        assertTrue(states.size() >= STATES && shapes.size() > STATES, states.size() + " states");
    }
}
