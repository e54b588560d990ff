package sprag.hal.board;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.function.Consumer;
import java.util.function.Predicate;

/** A line to something in the same program; its far end can die in each of the ways that a real one does. */
public final class MemoryPort implements Port {
    /** What is at the far end. */
    public interface FarEnd {
        /** Takes what was sent to it. */
        void take(byte[] bytes, int length);

        /** Gives what it has to say by now: as many bytes as fit. */
        int give(byte[] into);
    }

    /** A far end that only speaks.
     *
     * @param says what it has to say; what was given is taken away
     */
    public record Speaker(ByteArrayOutputStream says) implements FarEnd {
        @Override
        public void take(byte[] bytes, int length) {}

        @Override
        public int give(byte[] into) {
            byte[] all = says.toByteArray();
            int length = Math.min(all.length, into.length);
            System.arraycopy(all, 0, into, 0, length);
            says.reset();
            says.write(all, length, all.length - length);
            return length;
        }
    }

    private final FarEnd farEnd;
    private Consumer<byte[]> spy = bytes -> {};
    private Predicate<String> refused = text -> false;
    private boolean open;
    private boolean readFails;
    private boolean writeFails;
    private boolean absent;

    public MemoryPort(FarEnd farEnd) {
        this.farEnd = farEnd;
    }

    /** Shows everything that is written. */
    public MemoryPort spy(Consumer<byte[]> newSpy) {
        spy = newSpy;
        return this;
    }

    /** Fault: the cable is pulled; it can be opened again only after {@link #plug()}. */
    public void unplug() {
        readFails = true;
        writeFails = true;
        absent = true;
    }

    /** The cable is plugged in again. */
    public void plug() {
        readFails = false;
        writeFails = false;
        absent = false;
    }

    /** Fault: writes are no longer taken. */
    public void stopTaking() {
        writeFails = true;
    }

    /** Fault: what a test picks out is not taken. */
    public void refuse(Predicate<String> which) {
        refused = which;
    }

    @Override
    public String name() {
        return "memory";
    }

    @Override
    public void open() throws LinkLost {
        if (absent) {
            throw new LinkLost("memory is not there; plug the board in, or correct its port");
        }
        open = true;
    }

    @Override
    public int read(byte[] into) throws LinkLost {
        if (!open || readFails) {
            throw new LinkLost("memory is gone (a read returned -1); check the cable and the board's supply");
        }
        return farEnd.give(into);
    }

    @Override
    public void write(byte[] bytes, int length) throws LinkLost {
        if (!open || writeFails || refused.test(new String(bytes, 0, length, StandardCharsets.US_ASCII))) {
            throw new LinkLost("memory took 0 of " + length + " bytes");
        }
        spy.accept(Arrays.copyOf(bytes, length));
        farEnd.take(bytes, length);
    }

    @Override
    public void close() {
        open = false;
    }
}
