package sprag.bench.prove;

import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.config.VehicleReader;
import sprag.supervisor.*;

class TryTest {
    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void tryIt(String name) throws Exception {
        Settings s = VehicleReader.read(Path.of("../config/vehicles/" + name)).settings();
        for (int r = 0; r < 20; r++) {
            long t = System.nanoTime();
            Proof p = new Prover(s).workers(1).prove();
            System.out.printf(
                    "%s %.2f s %d states %,d transitions%n",
                    name, (System.nanoTime() - t) / 1e9, p.states(), p.transitions());
            if (r == 19) {
                p.passes()
                        .forEach(x -> System.out.printf(
                                "  %,d states %,d tr %.1f Mtr/s %s%n",
                                x.size().states(),
                                x.size().transitions(),
                                x.size().transitionsPerS() / 1e6,
                                x.watches()));
                System.out.println("unreached " + p.unreached());
                for (Proof.Verdict v : p.broken()) {
                    System.out.println("BROKEN " + v.hazard() + " " + v.id() + ": " + v.explanation());
                    for (Story.Chapter c : v.story().get().chapters())
                        System.out.println("    " + c.from() + " x" + c.count() + " " + c.changed() + " -> "
                                + c.shown().state() + " " + c.shown().step() + " "
                                + c.shown().via() + " " + c.shown().torque());
                }
            }
        }
    }
}
