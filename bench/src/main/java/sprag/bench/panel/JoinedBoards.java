package sprag.bench.panel;

import java.util.List;
import java.util.stream.Collectors;
import sprag.bench.panel.session.BoardLink;
import sprag.hal.Device;
import sprag.hal.DeviceGroup;
import sprag.hal.Health;

/** A board and a data bus as one: ready when both are, armed together, disarmed together. */
final class JoinedBoards implements BoardLink {
    private final List<BoardLink> links;
    private final DeviceGroup device;

    JoinedBoards(List<BoardLink> links) {
        this.links = links;
        this.device = new DeviceGroup(links.stream().map(BoardLink::device).toList());
    }

    @Override
    public Device device() {
        return device;
    }

    /** That of the one that is to be trusted least. */
    @Override
    public Stage stage() {
        return links.stream().map(BoardLink::stage).min(Stage::compareTo).orElseThrow();
    }

    @Override
    public String identity() {
        return joined(BoardLink::identity);
    }

    @Override
    public String figures() {
        return joined(BoardLink::figures);
    }

    @Override
    public Health arm() {
        for (BoardLink link : links) {
            Health asked = link.arm();
            if (!asked.isWell()) {
                disarm();
                return asked;
            }
        }
        return Health.OK;
    }

    @Override
    public void disarm() {
        links.forEach(BoardLink::disarm);
    }

    private String joined(java.util.function.Function<BoardLink, String> text) {
        return links.stream()
                .map(link -> link.device().name() + ": " + text.apply(link))
                .collect(Collectors.joining("; "));
    }
}
