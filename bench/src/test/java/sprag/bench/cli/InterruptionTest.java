package sprag.bench.cli;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

class InterruptionTest {
    @Test
    void filesBeingWritten_processorSlow_waitedFor() throws Exception {
        AtomicInteger looks = new AtomicInteger();
        Interruption[] run = new Interruption[1];
        run[0] = new Interruption(() -> {
            if (looks.incrementAndGet() == 4) {
                run[0].close();
            }
            return Duration.ofSeconds(looks.get());
        });

        assertTrue(run[0].hasFinished(), "three seconds of work were left");
    }

    @Test
    void filesBeingWritten_tooMuchWork_givenUp() throws Exception {
        AtomicInteger looks = new AtomicInteger();
        try (Interruption run = new Interruption(() -> Duration.ofSeconds(6L * looks.getAndIncrement()))) {
            assertFalse(run.hasFinished(), "twelve seconds of the processor");
        }
    }
}
