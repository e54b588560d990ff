package sprag.hal.board.firmata;

import java.util.Arrays;
import java.util.List;
import sprag.hal.Clock;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.InputPin;
import sprag.hal.board.LinkLost;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.PinSink;
import sprag.hal.board.Port;

/**
 * The talk with one Firmata board.
 *
 * <p>Analogue channels are sent by the board at the sampling interval. A digital port is sent only when it changes, so it is
 * asked for at the same interval by enabling its reporting again, which is answered at once (since Firmata 2.4): each
 * reading is then a fresh one, and silence is a fault.
 */
final class FirmataSession implements BoardSession, FirmataLink.Readings {
    private static final int PORTS = 16;
    private static final long FIRST_READINGS_NS = 1_000_000_000;
    private static final int FIRST_READINGS_TRIES = 10;
    private static final long PIN_STATE_NS = 500_000_000;

    private final FirmataLink link;
    private final BoardMap map;
    private final BoardSettings settings;
    private final Clock clock;
    private final List<InputPin> inputs;
    private final LineNoise noise;
    private final long[] heardNs;
    private final int[] pinOfInput;
    private final int[] channelOfInput;
    private boolean stale;
    private PinSink sink;
    private FirmataPins pins;
    private FirmataOutputs outputs;
    private int reportsAtStart;
    private int asked;
    private long askedAtNs;
    private long turnedAtNs;
    private long aliveNs;

    FirmataSession(Port port, BoardMap map, BoardSettings settings, Clock clock) {
        this.link = new FirmataLink(port, clock);
        this.map = map;
        this.settings = settings;
        this.clock = clock;
        this.inputs = map.inputs();
        this.noise = new LineNoise(link, settings.line());
        this.heardNs = new long[inputs.size()];
        this.pinOfInput = new int[inputs.size()];
        this.channelOfInput = new int[inputs.size()];
    }

    @Override
    public String identity() {
        return link.firmware() + ", Firmata " + link.major() + "." + link.minor() + ", " + pins.count() + " pins";
    }

    @Override
    public void connect(PinSink newSink) throws LinkLost {
        sink = newSink;
        pins = new FirmataHello(link, map, settings).ask();
        reportsAtStart = link.versionReports();
        outputs = new FirmataOutputs(link, map.outputs(), pins);
        releaseWhatIsDriven();
        hearEveryInput();
        turnedAtNs = clock.nowNs();
        aliveNs = turnedAtNs;
        noise.begin(turnedAtNs);
    }

    private void hearEveryInput() throws LinkLost {
        long startedNs = clock.nowNs();
        Arrays.fill(heardNs, startedNs - 1);
        setUpInputs();
        for (int i = 0; i < FIRST_READINGS_TRIES && silentSince(startedNs) >= 0; i++) {
            writeAsk();
            link.send();
            link.await(() -> silentSince(startedNs) < 0, FIRST_READINGS_NS / FIRST_READINGS_TRIES);
        }
        int silent = silentSince(startedNs);
        if (silent >= 0) {
            InputPin pin = inputs.get(silent);
            throw new LinkLost("the board accepted the map but sends nothing for "
                    + pin.signal().key() + " on " + pin.pin() + " within " + FIRST_READINGS_NS / 1_000_000 + " ms");
        }
    }

    @Override
    public void turn(PinSink newSink) throws LinkLost {
        sink = newSink;
        long nowNs = clock.nowNs();
        // After a pause of this thread what waits in the system is of unknown age: it is read but not taken.
        stale = nowNs - turnedAtNs > settings.ns(BoardSetting.SILENCE_MS) / 2;
        if (stale) {
            for (int i = 0; i < heardNs.length; i++) {
                heardNs[i] = Math.max(heardNs[i], nowNs - settings.ns(BoardSetting.SILENCE_MS) / 2);
            }
        }
        turnedAtNs = nowNs;
        link.read();
        stale = false;
        checkStart();
        if (inputs.isEmpty()) {
            keepAlive(nowNs);
        } else {
            askPorts(nowNs);
        }
        checkSilence(nowNs);
        noise.check(nowNs);
    }

    /** A board without inputs sends nothing by itself, so the state of one pin is asked for. */
    private void keepAlive(long nowNs) throws LinkLost {
        long limitNs = settings.ns(BoardSetting.SILENCE_MS);
        if (link.modeOf(outputs.pin(0)) >= 0) {
            aliveNs = nowNs;
            link.forgetMode(outputs.pin(0));
        } else if (nowNs - aliveNs > limitNs) {
            throw new LinkLost("the board has not answered for " + (nowNs - aliveNs) / 1_000_000 + " ms (limit "
                    + limitNs / 1_000_000 + " ms); check the cable and the board");
        }
        if (nowNs - askedAtNs >= limitNs / 4) {
            askedAtNs = nowNs;
            link.writer().askPinState(outputs.pin(0));
            link.send();
        }
    }

    @Override
    public void arm() throws LinkLost {
        outputs.makeAll();
        link.send();
        for (int i = 0; i < map.outputs().size(); i++) {
            confirm(i);
        }
        turnedAtNs = clock.nowNs();
    }

    @Override
    public boolean drive(long[] raw) throws LinkLost {
        boolean changed = outputs.drive(raw, clock.nowNs(), settings.ns(FirmataSetting.REFRESH_MS));
        link.send();
        return changed;
    }

    @Override
    public void release() throws LinkLost {
        if (outputs != null) {
            outputs.release();
            link.send();
        }
    }

    @Override
    public void analogue(int channel, int value) {
        for (int i = 0; i < channelOfInput.length; i++) {
            if (channelOfInput[i] == channel) {
                hear(i, value);
            }
        }
    }

    @Override
    public void digital(int port, int bits) {
        for (int i = 0; i < pinOfInput.length; i++) {
            if (channelOfInput[i] < 0 && pinOfInput[i] / 8 == port) {
                hear(i, bits >> pinOfInput[i] % 8 & 1);
            }
        }
    }

    private void hear(int input, long raw) {
        if (!stale) {
            heardNs[input] = link.arrivedNs();
            sink.put(input, raw, link.arrivedNs());
        }
    }

    private void setUpInputs() throws LinkLost {
        link.writer().samplingMs(settings.whole(FirmataSetting.SAMPLING_MS));
        for (int i = 0; i < inputs.size(); i++) {
            InputPin input = inputs.get(i);
            int pin = pins.number(input.pin());
            pinOfInput[i] = pin;
            channelOfInput[i] = input.kind() == PinKind.ANALOGUE ? pins.channel(pin) : -1;
            link.writer().pinMode(pin, PinMode.ofInput(input.kind()));
        }
        for (int i = 0; i < inputs.size(); i++) {
            if (channelOfInput[i] >= 0) {
                link.writer().reportAnalogue(channelOfInput[i], true);
            } else {
                asked |= 1 << pinOfInput[i] / 8;
            }
        }
        link.listen(this);
    }

    /** A pin that an earlier program left as an output is set to its safe value. Other pins are not changed. */
    private void releaseWhatIsDriven() throws LinkLost {
        for (int i = 0; i < map.outputs().size(); i++) {
            int mode = askMode(outputs.pin(i), -1);
            outputs.setDriven(i, mode == PinMode.OUTPUT.code || mode == PinMode.PWM.code);
        }
        outputs.release();
        link.send();
    }

    private void confirm(int output) throws LinkLost {
        OutputPin row = map.outputs().get(output);
        PinMode wanted = PinMode.ofOutput(row.kind());
        int mode = askMode(outputs.pin(output), wanted.code);
        if (mode != wanted.code) {
            throw new LinkLost("pin " + row.pin() + " for " + row.output().key() + " was told to be a " + wanted.words
                    + " but says it is in mode " + mode
                    + (link.said().isEmpty() ? "" : "; the board says: " + link.said()));
        }
    }

    private int askMode(int pin, int wanted) throws LinkLost {
        link.forgetMode(pin);
        link.writer().askPinState(pin);
        link.send();
        if (!link.await(() -> link.modeOf(pin) >= 0, PIN_STATE_NS)) {
            throw new LinkLost("the board does not say which mode pin " + pin + " is in"
                    + (wanted < 0 ? "" : " after it was told mode " + wanted));
        }
        checkStart();
        return link.modeOf(pin);
    }

    private void askPorts(long nowNs) throws LinkLost {
        if (nowNs - askedAtNs >= settings.ns(FirmataSetting.SAMPLING_MS)) {
            askedAtNs = nowNs;
            writeAsk();
            link.send();
        }
    }

    private void writeAsk() {
        for (int port = 0; port < PORTS; port++) {
            if ((asked >> port & 1) != 0) {
                link.writer().reportDigital(port, true);
            }
        }
    }

    /** A board that reports its version without being asked has been reset, so its pins have lost their modes. */
    private void checkStart() throws LinkLost {
        if (link.versionReports() != reportsAtStart) {
            throw new LinkLost(
                    "the board started anew (it reported its version unasked), so its pins were reset; is its"
                            + " supply steady, and does anything press its reset?");
        }
    }

    private void checkSilence(long nowNs) throws LinkLost {
        long limitNs = settings.ns(BoardSetting.SILENCE_MS);
        int silent = silentSince(nowNs - limitNs);
        if (silent >= 0) {
            InputPin pin = inputs.get(silent);
            throw new LinkLost(pin.signal().key() + " on " + pin.pin() + " has been silent for "
                    + (nowNs - heardNs[silent]) / 1_000_000 + " ms (limit " + limitNs / 1_000_000
                    + " ms); check the cable and the board");
        }
    }

    /** The first input without a reading since a given time, -1 when all had one. */
    private int silentSince(long sinceNs) {
        for (int i = 0; i < heardNs.length; i++) {
            if (heardNs[i] < sinceNs) {
                return i;
            }
        }
        return -1;
    }
}
