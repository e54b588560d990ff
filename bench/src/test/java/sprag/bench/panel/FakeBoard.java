package sprag.bench.panel;

import sprag.bench.panel.session.BoardLink;
import sprag.hal.Device;
import sprag.hal.Health;

/** A board that arms at once and counts how often it was disarmed. */
final class FakeBoard implements BoardLink {
    private final Device pins;
    private Stage stage = Stage.READY;
    int disarmed;

    FakeBoard(Device pins) {
        this.pins = pins;
    }

    @Override
    public Device device() {
        return pins;
    }

    @Override
    public Stage stage() {
        return stage;
    }

    @Override
    public String identity() {
        return "bench board 1.0";
    }

    @Override
    public Health arm() {
        stage = Stage.ARMED;
        return Health.OK;
    }

    @Override
    public void disarm() {
        disarmed++;
        stage = Stage.READY;
    }
}
