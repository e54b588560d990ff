package sprag.bench.loop.trace;

import java.io.IOException;
import java.io.Writer;
import java.util.Arrays;
import java.util.List;
import sprag.bench.cli.Numbers;

/**
 * A trace as a value change dump (IEEE 1364, clause 18), for any wave viewer. Switches are wires, quantities are reals.
 *
 * <p>The format knows no words: the state is a vector holding its number and, beside it, one wire a state, so that a
 * viewer shows which one is entered without a table. An unknown switch is {@code x}, an unknown quantity {@code nan}.
 */
public final class VcdTrace implements TraceWriter {
    private static final int FIRST_CODE = '!';
    private static final int CODES = '~' - '!' + 1;

    private final Channels channels;
    private final Writer out;
    private final StringBuilder text = new StringBuilder(4096);
    private final Frame last;
    private final int stateBase;
    private final int interlockBase;
    private final int stateVector;
    private final int stateBits;
    /** The short names of all variables. */
    private final String[] codes;

    private final boolean[] isSwitch;
    private boolean started;
    private long writtenMs;

    /** Writes the declarations.
     *
     * @param title what was run, for the comment at the top
     * @param out where to write; closed with this
     * @throws IOException when it cannot be written
     */
    public VcdTrace(Channels channels, String title, Writer out) throws IOException {
        this.channels = channels;
        this.out = out;
        this.last = channels.newFrame();
        this.stateBase = channels.all().size();
        this.interlockBase = stateBase + channels.states().size();
        this.stateVector = interlockBase + channels.interlocks().size();
        this.stateBits =
                Math.max(1, 32 - Integer.numberOfLeadingZeros(channels.states().size() - 1));
        codes = new String[stateVector + 1];
        Arrays.setAll(codes, VcdTrace::code);
        isSwitch = new boolean[stateBase];
        for (int i = 0; i < stateBase; i++) {
            isSwitch[i] = channels.all().get(i).isSwitch();
        }
        declare(title);
    }

    private void declare(String title) throws IOException {
        text.append("$version sprag $end\n$comment ")
                .append(title.replace('$', ' '))
                .append(" $end\n");
        text.append("$comment state:");
        for (int i = 0; i < channels.states().size(); i++) {
            text.append(' ').append(i).append('=').append(channels.states().get(i));
        }
        text.append(" $end\n$timescale 1 ms $end\n$scope module sprag $end\n");
        text.append("$var reg ")
                .append(stateBits)
                .append(' ')
                .append(codes[stateVector])
                .append(" state");
        text.append(stateBits > 1 ? " [" + (stateBits - 1) + ":0]" : "").append(" $end\n");
        wires("states", channels.states(), stateBase);
        for (Channel.Source source : Channel.Source.values()) {
            scope(source);
        }
        // a name in this format holds no hyphen
        List<String> interlocks = channels.interlocks().stream()
                .map(name -> name.replace('-', '_'))
                .toList();
        wires("interlocks", interlocks, interlockBase);
        text.append("$upscope $end\n$enddefinitions $end\n");
        send();
    }

    private void scope(Channel.Source source) {
        text.append("$scope module ").append(source == Channel.Source.QUANTITY ? "car" : source.key() + "s");
        text.append(" $end\n");
        for (int i = 0; i < channels.all().size(); i++) {
            Channel channel = channels.all().get(i);
            if (channel.source() == source) {
                text.append(channel.isSwitch() ? "$var wire 1 " : "$var real 64 ")
                        .append(codes[i])
                        .append(' ');
                text.append(channel.key()).append(" $end\n");
            }
        }
        text.append("$upscope $end\n");
    }

    private void wires(String scope, List<String> names, int base) {
        text.append("$scope module ").append(scope).append(" $end\n");
        for (int i = 0; i < names.size(); i++) {
            text.append("$var wire 1 ")
                    .append(codes[base + i])
                    .append(' ')
                    .append(names.get(i))
                    .append(" $end\n");
        }
        text.append("$upscope $end\n");
    }

    @Override
    public void write(Frame frame) throws IOException {
        text.setLength(0);
        text.append('#').append(frame.timeMs).append('\n');
        int head = text.length();
        text.append(started ? "" : "$dumpvars\n");
        for (int i = 0; i < frame.value.length; i++) {
            if (!started || Double.compare(frame.value[i], last.value[i]) != 0) {
                value(i, frame.value[i]);
            }
        }
        for (int i = 0; i < frame.acting.length; i++) {
            if (!started || frame.acting[i] != last.acting[i]) {
                wire(interlockBase + i, frame.acting[i] ? '1' : '0');
            }
        }
        if (!started || frame.state != last.state) {
            state(frame.state);
        }
        text.append(started ? "" : "$end\n");
        if (text.length() > head) {
            send();
            writtenMs = frame.timeMs;
        }
        last.copyFrom(frame);
        started = true;
    }

    private void value(int index, double value) {
        if (isSwitch[index]) {
            wire(index, Double.isNaN(value) ? 'x' : value != 0 ? '1' : '0');
            return;
        }
        text.append('r');
        if (Double.isNaN(value)) {
            text.append("nan");
        } else {
            Numbers.append(text, value);
        }
        text.append(' ').append(codes[index]).append('\n');
    }

    private void wire(int index, char level) {
        text.append(level).append(codes[index]).append('\n');
    }

    private void state(int state) {
        text.append('b')
                .append(Integer.toBinaryString(state))
                .append(' ')
                .append(codes[stateVector])
                .append('\n');
        for (int i = 0; i < channels.states().size(); i++) {
            boolean changed = !started || i == state || i == last.state;
            if (changed) {
                wire(stateBase + i, i == state ? '1' : '0');
            }
        }
    }

    /** The short name of a variable: one or more printable characters. */
    private static String code(int index) {
        char[] code = new char[index < CODES ? 1 : 2];
        Arrays.fill(code, (char) (FIRST_CODE + index % CODES));
        if (code.length == 2) {
            code[1] = (char) (FIRST_CODE + index / CODES - 1);
        }
        return new String(code);
    }

    private void send() throws IOException {
        out.append(text);
        text.setLength(0);
    }

    @Override
    public void flush() throws IOException {
        out.flush();
    }

    /** Ends the dump with the time of the last frame, so that a viewer shows the run to its end. */
    @Override
    public void close() throws IOException {
        try (out) {
            if (started && last.timeMs > writtenMs) {
                out.append("#" + last.timeMs + "\n");
            }
        }
    }
}
