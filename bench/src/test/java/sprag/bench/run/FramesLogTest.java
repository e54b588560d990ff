package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.record.Recording;
import sprag.bench.loop.record.Replay;
import sprag.bench.loop.record.ReplayCommand;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.board.InputPin;
import sprag.hal.board.PinSink;
import sprag.hal.bus.BusDecoder;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.CandumpText;
import sprag.supervisor.vocabulary.Parameter;

/** The frames of a run, decoded again from its log, against the readings that the supervisor had in every tick. */
class FramesLogTest implements PinSink {
    @TempDir
    Path folder;

    private List<InputPin> inputs;
    private double[] value;
    private long[] atNs;

    @ParameterizedTest
    @ValueSource(strings = {"message-pack-lost", "message-two-senders", "charge-message-lost"})
    void runOnABus_itsFramesDecodedAgain_giveTheReadingsOfEveryTick(String name) throws Exception {
        Catalogue catalogue = Catalogue.installed();
        Vehicle van = VehicleReader.read(catalogue.vehicle("parcel-van"));
        Scenario scenario =
                new ScenarioFiles(catalogue, van).take(List.of(name)).get(0);
        BusMap map = scenario.about().bus().map();
        inputs = map.pins().inputs();
        ClosedLoop loop = ClosedLoop.on(van, scenario.about().bus(), scenario.seed());
        List<double[]> read = new ArrayList<>();
        ScenarioRun.Observer watching = frame -> read.add(inputs.stream()
                .mapToDouble(pin -> loop.readings().get(pin.signal()))
                .toArray());
        try (RunFiles files = new RunFiles(folder, scenario, loop, name)) {
            new ScenarioRun(scenario, loop).play(van.name(), (step, at) -> {}, List.of(files, watching), () -> false);
        }
        compare(map, read, van.get(Parameter.LOOP_STALE_MS) * 1e6);
        compareRecording(map);
    }

    /** The recording holds the same frames, and knows which of them were sent. */
    private void compareRecording(BusMap map) throws Exception {
        BusDecoder decoder = new BusDecoder(map);
        StringWriter printed = new StringWriter();
        String file = folder.resolve("recording.sprag").toString();
        int status = new CommandLine(new ReplayCommand())
                .setOut(new PrintWriter(printed, true))
                .execute(file, "--frames");
        assertEquals(0, status);
        assertEquals(
                Files.readString(folder.resolve("frames.log")),
                printed.toString().replace(System.lineSeparator(), "\n"));
        long[] seen = {0};
        try (Recording recording = new Recording(folder.resolve("recording.sprag"))) {
            recording.listen((frame, sent, timeNs) -> {
                seen[0]++;
                assertEquals(map.messages().get(decoder.indexOf(frame.key())).isSent(), sent, frame::toString);
            });
            assertTrue(new Replay(recording).run().isEmpty());
            assertEquals(seen[0], recording.frames());
        }
        assertTrue(seen[0] > 1000, seen[0] + " frames");
    }

    private void compare(BusMap map, List<double[]> read, double staleNs) throws Exception {
        List<String> lines = Files.readAllLines(folder.resolve("frames.log"));
        assertTrue(lines.size() > read.size(), "more than a frame a tick");
        value = new double[inputs.size()];
        atNs = new long[inputs.size()];
        Arrays.fill(value, Double.NaN);
        BusDecoder decoder = new BusDecoder(map);
        CanFrame frame = new CanFrame();
        int next = 0;
        int sent = 0;
        for (int tick = 0; tick < read.size(); tick++) {
            long nowNs = tick * 10_000_000L;
            for (; next < lines.size() && CandumpText.timeNs(lines.get(next)) <= nowNs; next++) {
                assertEquals(CandumpText.Kind.FRAME, CandumpText.read(lines.get(next), frame));
                boolean own = map.messages().get(decoder.indexOf(frame.key())).isSent();
                sent += own ? 1 : 0;
                if (!own) {
                    decoder.accept(frame, nowNs, this);
                }
            }
            decoder.checkAges(nowNs, this);
            for (int i = 0; i < value.length; i++) {
                double expected = nowNs - atNs[i] > staleNs ? Double.NaN : value[i];
                assertEquals(expected, read.get(tick)[i], inputs.get(i).signal() + " in tick " + tick);
            }
        }
        assertEquals(lines.size(), next, "every frame belongs to a tick");
        assertTrue(sent > 1000, sent + " frames of the supervisor");
    }

    @Override
    public void put(int input, long raw, long arrivedNs) {
        value[input] = inputs.get(input).value(raw);
        atNs[input] = arrivedNs;
    }

    @Override
    public void putUnknown(int input, long nowNs) {
        value[input] = Double.NaN;
        atNs[input] = nowNs;
    }
}
