package sprag.bench.hand.emulated;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import sprag.bench.bus.BusReader;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.bus.FarPair;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Clock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.SerialPorts;

/** The van's pair with an adapter at the far end of a pseudo-terminal, in real time. It knows what was sent to it, and when. */
final class RealPair implements AutoCloseable {
    private static final long NS_PER_MS = 1_000_000;
    /** Where the clock of the adapter begins to count. */
    private static final long ZERO_NS = 1_000_000_000;

    private final Clock clock = Clock.real();
    private final Path file;
    private final PseudoTerminals cable;
    private final Port far;
    private final FarPair pair;
    private final Thread thread = new Thread(this::carry, "pair");
    private volatile boolean listening = true;

    /** A pair on which those messages are.
     *
     * @param folder for the bus file and the cable
     * @param names a pattern for the names of the messages
     */
    RealPair(Path folder, String names) throws Exception {
        cable = new PseudoTerminals(folder);
        String[] parts = Files.readString(Catalogue.installed().bus("van-pair"))
                .replaceFirst("(?m)^port = .*$", "port = \"" + cable.near() + "\"")
                // A host that is busy with other things keeps the adapter waiting; that is not what is tried here.
                .replace("timeout_ms = 150", "timeout_ms = 1000")
                .split("(?=\\[\\[message]])");
        StringBuilder text = new StringBuilder(parts[0]);
        for (String message : List.of(parts).subList(1, parts.length)) {
            text.append(message.matches("(?s).*name = \"(" + names + ")\".*") ? message : "");
        }
        file = Files.writeString(folder.resolve("bus.toml"), text);
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        pair = new FarPair(clock, BusReader.read(file, van).map(), new SimulatedCar(van, 1), 1);
        far = SerialPorts.of(PortChoice.path(cable.far()), new LineSettings(115_200, LineSettings.Parity.NONE, 1));
        far.open();
        thread.start();
    }

    private void carry() {
        byte[] in = new byte[512];
        byte[] out = new byte[512];
        try {
            while (listening) {
                int got = Math.max(0, far.read(in));
                int given;
                synchronized (this) {
                    pair.take(in, got);
                    pair.speak();
                    given = pair.give(out);
                }
                far.write(out, given);
                LockSupport.parkNanos(NS_PER_MS / 2);
            }
        } catch (LinkLost e) {
            throw new IllegalStateException("the adapter's line failed", e);
        } finally {
            far.close();
        }
    }

    String file() {
        return file.toString();
    }

    /** Now, as the adapter counts. */
    long nowMs() {
        return (clock.nowNs() - ZERO_NS) / NS_PER_MS;
    }

    /** How many frames came. */
    synchronized int sent() {
        return pair.adapter.sent.size();
    }

    /** When the last frame came. Negative before the first. */
    synchronized long lastSentMs() {
        return pair.adapter.sent.isEmpty()
                ? -1
                : pair.adapter.sent.get(pair.adapter.sent.size() - 1).atMs();
    }

    /** When an output was last driven. Negative before that. */
    synchronized long lastDrivenMs() {
        return pair.lastDrivenMs();
    }

    /** The messages whose last frame does not release what they carry. */
    synchronized List<String> notReleased() {
        return pair.notReleased();
    }

    @Override
    public void close() {
        listening = false;
        try {
            thread.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        cable.close();
    }
}
