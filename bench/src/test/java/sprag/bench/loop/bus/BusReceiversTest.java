package sprag.bench.loop.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;

/** What devices do with the supervisor's commands: they obey good frames, and nobody for long. */
class BusReceiversTest {
    private static final long NS_PER_MS = 1_000_000;

    private final BusFile bus;
    private final BusFaults faults;
    private final BusReceivers receivers;
    private final Commands asked = new Commands();
    private final long timeoutNs;

    BusReceiversTest() throws BadInput {
        bus = BusReader.read(
                Catalogue.installed().bus("van-pair"),
                VehicleReader.read(Catalogue.installed().vehicle("parcel-van")));
        faults = new BusFaults(bus.map());
        receivers = new BusReceivers(bus.map(), faults);
        timeoutNs = (long) (bus.map().messages().stream()
                        .filter(message -> message.name().equals("torque_command"))
                        .findFirst()
                        .orElseThrow()
                        .timeoutMs()
                * NS_PER_MS);
    }

    private double obeyed(double askedNm, long nowNs) {
        asked.set(Output.TORQUE_REQUEST_NM, askedNm);
        receivers.send(asked, nowNs);
        return heard(nowNs);
    }

    private double heard(long nowNs) {
        Commands obeyed = new Commands();
        receivers.obey(obeyed, nowNs);
        return obeyed.get(Output.TORQUE_REQUEST_NM);
    }

    @ParameterizedTest
    @EnumSource(names = {"LOST", "WRONG_LENGTH", "WRONG_SUM", "STUCK_COUNTER", "TWO_SENDERS"})
    void frameThatCannotBeBelieved_isNotObeyed_andTheOldOneNotForLong(FrameFault fault) {
        assertEquals(50, obeyed(50, 0), 0.1);
        faults.inject("message.torque_command." + fault.key());
        assertEquals(50, obeyed(-20, 10 * NS_PER_MS), 0.1, "the last good frame, within its time-out");
        assertEquals(50, obeyed(-20, timeoutNs), 0.1, "at the end of its time-out");
        assertEquals(0, obeyed(-20, timeoutNs + 1), 0, "after its time-out");
        faults.clear("message.torque_command." + fault.key());
        assertEquals(-20, obeyed(-20, 2 * timeoutNs), 0.1, "a good frame again");
    }

    @Test
    void silence_endsWhatWasAsked() {
        assertEquals(50, obeyed(50, 0), 0.1);
        assertEquals(50, heard(timeoutNs), 0.1);
        assertEquals(0, heard(timeoutNs + 1), 0);
    }

    @Test
    void nothingHeardYet_isNothing() {
        assertEquals(0, heard(0), 0);
    }
}
