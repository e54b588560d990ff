package sprag.bench.loop.trace;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import sprag.bench.cli.Numbers;

/**
 * A trace as comma-separated values, one line a frame: {@code time_s}, {@code state}, every column, {@code interlocks}.
 *
 * <p>A reading that nobody knows is an empty cell. Several interlocks in a cell stand with a space between them.
 */
public final class CsvTrace implements TraceWriter {
    private final Channels channels;
    private final Writer out;
    private final StringBuilder line = new StringBuilder(1024);

    /** Writes the heading.
     *
     * @param out where to write; closed with this
     * @throws IOException when it cannot be written
     */
    public CsvTrace(Channels channels, Writer out) throws IOException {
        this.channels = channels;
        this.out = out;
        line.append("time_s,state");
        for (Channel channel : channels.all()) {
            line.append(',').append(channel.column());
        }
        out.append(line.append(",interlocks\n"));
    }

    @Override
    public void write(Frame frame) throws IOException {
        line.setLength(0);
        Numbers.append(line, frame.timeS());
        line.append(',').append(channels.states().get(frame.state));
        for (double value : frame.value) {
            line.append(',');
            if (!Double.isNaN(value)) {
                Numbers.append(line, value);
            }
        }
        line.append(',');
        appendInterlocks(frame);
        out.append(line.append('\n'));
    }

    private void appendInterlocks(Frame frame) {
        List<String> names = channels.interlocks();
        boolean first = true;
        for (int i = 0; i < frame.acting.length; i++) {
            if (frame.acting[i]) {
                line.append(first ? "" : " ").append(names.get(i));
                first = false;
            }
        }
    }

    @Override
    public void flush() throws IOException {
        out.flush();
    }

    @Override
    public void close() throws IOException {
        out.close();
    }
}
