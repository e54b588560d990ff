package sprag.hal.board.firmata;

import java.util.List;
import java.util.function.BooleanSupplier;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.PinKind;

/** Finds out which board answers and whether it has the pins of the map, before any pin is set. */
final class FirmataHello {
    private static final long ASK_AGAIN_NS = 300_000_000;
    private static final long ANSWER_NS = 2_000_000_000;
    private static final int MAJOR = 2;
    private static final int MINOR_ANSWERING_PORTS = 4;
    private static final int MESSAGE_BYTES = 3;

    private final FirmataLink link;
    private final BoardMap map;
    private final BoardSettings settings;

    FirmataHello(FirmataLink link, BoardMap map, BoardSettings settings) {
        this.link = link;
        this.map = map;
        this.settings = settings;
    }

    /** Asks all questions; returns the board's pins when they suit the map. */
    FirmataPins ask() throws LinkLost {
        askVersion();
        link.writer().askFirmware();
        answer(() -> link.firmware() != null, "who its firmware is");
        link.writer().askCapabilities();
        answer(() -> link.capability() != null, "which pins it has");
        int reports = link.versionReports();
        link.writer().askMapping();
        answer(() -> link.mapping() != null, "which pins are analogue channels");
        if (link.versionReports() != reports) {
            throw new LinkLost("the board started anew while it was being asked; is its supply steady?");
        }
        FirmataPins pins = new FirmataPins(link.capability(), link.mapping());
        checkLoad();
        List<String> misfits = pins.misfits(map);
        if (!misfits.isEmpty()) {
            throw new LinkLost("the map does not fit the board " + link.firmware() + " on " + link.portName()
                    + ", so nothing was set: " + String.join("; ", misfits));
        }
        return pins;
    }

    private void askVersion() throws LinkLost {
        long leftNs = settings.ns(BoardSetting.CONNECT_MS);
        while (leftNs > 0 && link.major() < 0) {
            link.writer().askVersion();
            link.send();
            link.await(() -> link.major() >= 0, Math.min(ASK_AGAIN_NS, leftNs));
            leftNs -= ASK_AGAIN_NS;
        }
        if (link.major() < 0) {
            throw new LinkLost(link.bytesSeen() == 0 ? nobody() : somebodyElse());
        }
        if (link.major() != MAJOR) {
            throw new LinkLost(
                    "the board speaks Firmata " + link.major() + "." + link.minor() + "; this driver speaks 2.x");
        }
        if (link.minor() < MINOR_ANSWERING_PORTS && hasSwitches()) {
            throw new LinkLost(
                    "the board speaks Firmata 2." + link.minor() + ", which reports a switch only when it changes, so"
                            + " a broken link could not be told; digital inputs need 2.4 or newer: renew its firmware");
        }
    }

    private boolean hasSwitches() {
        return map.inputs().stream().anyMatch(pin -> pin.kind() != PinKind.ANALOGUE);
    }

    private String nobody() {
        return "nothing answers on " + link.portName() + " within " + settings.whole(BoardSetting.CONNECT_MS)
                + " ms; is it the right port, has the board its supply and Firmata firmware, is "
                + settings.whole(BoardSetting.BAUD) + " baud right?";
    }

    private String somebodyElse() {
        return "something answers on " + link.portName() + ", but not in Firmata: " + link.bytesSeen()
                + " bytes, first "
                + link.firstBytes() + "; another device, other firmware, or a speed other than "
                + settings.whole(BoardSetting.BAUD) + " baud";
    }

    private void answer(BooleanSupplier done, String question) throws LinkLost {
        link.send();
        if (!link.await(done, ANSWER_NS)) {
            throw new LinkLost("the board on " + link.portName() + " speaks Firmata " + link.major() + "."
                    + link.minor() + " but did not say " + question + " within " + ANSWER_NS / 1_000_000 + " ms");
        }
    }

    /** When the line is too slow for the readings, they would wait in the board and grow old. */
    private void checkLoad() throws LinkLost {
        double room =
                (double) settings.whole(BoardSetting.BAUD) / settings.line().bitsPerCharacter();
        double samplesPerS = 1000.0 / settings.whole(FirmataSetting.SAMPLING_MS);
        double load = map.inputs().size() * MESSAGE_BYTES * samplesPerS;
        if (load > LineSettings.USABLE_SHARE * room) {
            throw new LinkLost(map.inputs().size() + " inputs every " + settings.whole(FirmataSetting.SAMPLING_MS)
                    + " ms are up to " + Math.round(load) + " bytes a second, the line carries " + Math.round(room)
                    + "; make firmata.sampling_ms longer, or the line faster");
        }
    }
}
