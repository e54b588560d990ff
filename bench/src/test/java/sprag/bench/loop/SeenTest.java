package sprag.bench.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.loop.Seen.Contactor;
import sprag.bench.loop.Seen.Shows;
import sprag.bench.panel.PanelBench;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Every sentence about a contact or the bus against what is asked, what is read and what is fitted. */
final class SeenTest {
    private static final Vehicle VAN = PanelBench.vehicle("parcel-van");
    private final Readings readings = new Readings();
    private final Commands commands = new Commands();

    private Seen seen(Settings settings) {
        return new Seen(settings, readings, commands);
    }

    @ParameterizedTest
    @CsvSource({
        "false, 0,   true,  shows open",
        "false, 1,   true,  shows CLOSED although asked to open",
        "false, NaN, true,  'is asked to open, its contact cannot be read'",
        "false, 0,   false, 'is asked to open, no contact shows it'",
        "false, 1,   false, 'is asked to open, no contact shows it'",
        "true,  0,   true,  shows OPEN although asked to close",
        "true,  1,   true,  shows closed",
        "true,  NaN, true,  'is asked to close, its contact cannot be read'",
        "true,  0,   false, 'is asked to close, no contact shows it'",
        "true,  1,   false, 'is asked to close, no contact shows it'",
    })
    void contactor_askedAndRead_sentenceSaysWhatIsSeenOrThatNothingShowsIt(
            boolean asked, double reads, boolean fitted, String words) {
        Output[] outputs = {Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY, Output.POSITIVE_CONTACTOR};
        Signal[] contacts = {Signal.NEGATIVE_AUX_CLOSED, Signal.PRECHARGE_AUX_CLOSED, Signal.POSITIVE_AUX_CLOSED};
        for (Contactor which : Contactor.values()) {
            Settings settings = VAN.settings();
            if (!fitted) {
                settings = settings.without(contacts[which.ordinal()]);
            }
            commands.release();
            commands.set(outputs[which.ordinal()], asked);
            readings.set(contacts[which.ordinal()], reads);
            Shows shows =
                    settings.has(contacts[which.ordinal()]) ? seen(settings).shows(which) : Shows.NOTHING;
            if (settings.has(contacts[which.ordinal()]) == fitted) {
                assertEquals(which.words + " " + words, Seen.clause(which, asked, shows));
            }
        }
    }

    private void contacts(double negative, double precharge, double positive) {
        readings.set(Signal.NEGATIVE_AUX_CLOSED, negative);
        readings.set(Signal.PRECHARGE_AUX_CLOSED, precharge);
        readings.set(Signal.POSITIVE_AUX_CLOSED, positive);
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void bus_atAboveAndBelowItsLimitReversedAndUnknown_isLiveUnlessItReadsDischarged(String name) {
        Settings settings = PanelBench.vehicle(name).settings();
        double limitV = settings.get(Parameter.BUS_DISCHARGED_V);
        commands.release();
        contacts(0, 0, 0);
        for (double liveV : new double[] {limitV + 0.1, -limitV - 0.1, 900, Double.NaN}) {
            readings.set(Signal.BUS_VOLTAGE_V, liveV);
            assertTrue(seen(settings).busLive(), name + " " + liveV);
            assertTrue(
                    seen(settings).bus().matches(".*(LIVE|take the bus as live).*"),
                    seen(settings).bus());
        }
        readings.set(Signal.BUS_VOLTAGE_V, limitV);
        assertFalse(seen(settings).busLive());
        assertFalse(seen(settings).bus().contains("dead"), seen(settings).bus());
    }

    @ParameterizedTest
    @CsvSource({"1,0,1,true", "1,1,0,true", "0,1,1,false", "1,0,0,false", "0,0,0,false"})
    void busReadsNothing_contactsShowClosed_isTakenAsLiveWhereBothPolesAreClosed(
            double negative, double precharge, double positive, boolean live) {
        commands.release();
        contacts(negative, precharge, positive);
        readings.set(Signal.BUS_VOLTAGE_V, 0);
        boolean hasRelayContact = VAN.settings().has(Signal.PRECHARGE_AUX_CLOSED);
        boolean known = hasRelayContact || precharge == 0 || positive == 1;
        assertEquals(live && known, seen(VAN.settings()).busLive());
    }
}
