package sprag.bench.lesson;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import sprag.bench.page.Cautions;
import sprag.bench.panel.web.Panel;
import sprag.bench.panel.web.PanelServer;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;

/** Serves the simulated car with a lesson beside it. No board can be attached here. */
final class LessonPanel {
    private static final long END_WITHIN_MS = 2000;

    private LessonPanel() {}

    /** Serves until the program is ended.
     *
     * @param scenarios what can be played on it
     * @param port where to listen on this machine, 0 for any free port
     */
    static void serve(LessonBeside beside, Vehicle vehicle, List<Scenario> scenarios, int port, PrintWriter out) {
        Panel panel = new Panel(vehicle, null, Clock.real(), scenarios);
        CountDownLatch ended = new CountDownLatch(1);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> end(panel, ended)));
        try (PanelServer server = new PanelServer(panel, "127.0.0.1", port, beside)) {
            out.println("The lesson, with " + vehicle.name() + " beside it:");
            out.println();
            out.println("  " + server.link());
            out.println();
            out.println(Cautions.STANDING);
            out.println("Ctrl-C ends it.");
            out.flush();
            panel.thread().run();
        } finally {
            ended.countDown();
        }
    }

    private static void end(Panel panel, CountDownLatch ended) {
        panel.thread().stop();
        try {
            ended.await(END_WITHIN_MS, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
