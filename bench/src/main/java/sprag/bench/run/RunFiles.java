package sprag.bench.run;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Rig;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.trace.CsvTrace;
import sprag.bench.loop.trace.Frame;
import sprag.bench.loop.trace.History;
import sprag.bench.loop.trace.Thinner;
import sprag.bench.loop.trace.TraceWriter;
import sprag.bench.loop.trace.VcdTrace;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.CandumpText;

/** The traces of one run while it goes on. Flushed now and then, so that a run that is cut short leaves what it saw. */
public final class RunFiles implements ScenarioRun.Observer, AutoCloseable {
    private static final int FLUSH_ROWS = 500;
    private static final int BUFFER_CHARS = 1 << 16;

    private final Path folder;
    private final List<TraceWriter> traces = new ArrayList<>();
    private final Recorder recorder;
    private final Writer frames;
    private IOException lostFrames;
    private final Thinner thinner;
    private final History history;
    private int rows;

    RunFiles(Path folder, Scenario scenario, Rig loop, String title) {
        this.folder = folder;
        this.thinner = new Thinner(loop.channels(), scenario.durationMs(), loop.tickMs());
        this.history = new History(loop.channels());
        OutFolder.make(folder);
        try {
            traces.add(new CsvTrace(loop.channels(), open("trace.csv")));
            traces.add(new VcdTrace(loop.channels(), title, open("trace.vcd")));
            // Relays decide nothing that could be replayed.
            recorder =
                    loop instanceof ClosedLoop closed ? closed.record(folder.resolve("recording.sprag"), title) : null;
            frames = loop instanceof ClosedLoop closed && closed.listenToBus(this::write) ? open("frames.log") : null;
        } catch (IOException e) {
            throw new Trouble("cannot write into", folder, e);
        }
    }

    private BufferedWriter open(String name) throws IOException {
        return new BufferedWriter(
                new java.io.OutputStreamWriter(Files.newOutputStream(folder.resolve(name)), StandardCharsets.UTF_8),
                BUFFER_CHARS);
    }

    private void write(CanFrame frame, boolean sent, long nowNs) {
        try {
            frames.write(CandumpText.write(nowNs, CandumpText.SOURCE, frame));
            frames.write('\n');
        } catch (IOException e) {
            lostFrames = e; // told after the tick, which must not be broken off
        }
    }

    @Override
    public void tick(Frame frame) throws IOException {
        if (lostFrames != null) {
            throw lostFrames;
        }
        if (!thinner.keeps(frame)) {
            return;
        }
        history.add(frame);
        rows++;
        for (TraceWriter trace : traces) {
            trace.write(frame);
            if (rows % FLUSH_ROWS == 0) {
                trace.flush();
            }
        }
    }

    History history() {
        return history;
    }

    @Override
    public void close() {
        Trouble first = null;
        for (TraceWriter trace : traces) {
            try {
                trace.close();
            } catch (IOException e) {
                first = first == null ? new Trouble("cannot finish the traces in", folder, e) : first;
            }
        }
        try {
            if (frames != null) {
                frames.close();
            }
        } catch (IOException e) {
            first = first == null ? new Trouble("cannot finish", folder.resolve("frames.log"), e) : first;
        }
        try {
            if (recorder != null) {
                recorder.close();
            }
        } catch (UncheckedIOException e) {
            first = first == null ? new Trouble("cannot finish the recording in", folder, e.getCause()) : first;
        }
        if (first != null) {
            throw first;
        }
    }
}
