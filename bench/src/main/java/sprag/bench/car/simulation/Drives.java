package sprag.bench.car.simulation;

import sprag.bench.car.Faults;
import sprag.bench.car.OutputTrouble;
import sprag.bench.car.PartFault;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;

/** What arrives at the car's relays and controllers: the commands, through the faults of their wires. */
public final class Drives {
    /** How long outputs stand when the link is lost, before the board lets go of them by itself. */
    private static final int LET_GO_MS = 500;

    private static final Output[] OUTPUTS = Output.values();

    private final Commands arrived = new Commands();
    private long linkLostMs = -1;
    private long lastBeatMs = Long.MIN_VALUE / 2;
    private double lastBeat;

    void take(Commands commands, Faults faults, long nowMs) {
        if (faults.has(PartFault.LINK_LOST)) {
            linkLostMs = linkLostMs < 0 ? nowMs : linkLostMs;
            if (nowMs - linkLostMs >= LET_GO_MS) {
                arrived.release();
            }
            return;
        }
        linkLostMs = -1;
        arrived.copyFrom(commands);
        if (!faults.isEmpty()) {
            distort(faults, nowMs);
        }
        double beat = arrived.get(Output.HEARTBEAT);
        if (beat != lastBeat) {
            lastBeat = beat;
            lastBeatMs = nowMs;
        }
    }

    private void distort(Faults faults, long nowMs) {
        for (Output output : OUTPUTS) {
            OutputTrouble trouble = faults.trouble(output);
            if (trouble != null) {
                arrived.set(output, trouble.distort(arrived.get(output), nowMs));
            }
        }
    }

    public double get(Output output) {
        return arrived.get(output);
    }

    public boolean isOn(Output output) {
        return arrived.isOn(output);
    }

    /** How long ago the supervisor's beat last changed. */
    long beatAgeMs(long nowMs) {
        return nowMs - lastBeatMs;
    }
}
