package sprag.bench.hand.board;

import sprag.hal.board.Port;

/** A port at which nothing happens, for drivers that need none. */
public final class NoPort implements Port {
    @Override
    public String name() {
        return "none";
    }

    @Override
    public void open() {}

    @Override
    public int read(byte[] into) {
        return 0;
    }

    @Override
    public void write(byte[] bytes, int length) {}

    @Override
    public void close() {}
}
