package sprag.bench.panel.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.Lever;
import sprag.bench.panel.PanelBench;
import sprag.bench.panel.bench.Order;
import sprag.supervisor.vocabulary.Signal;

/** What a page may say, and what it may not. */
final class MessageReaderTest {
    private final MessageReader reader =
            new MessageReader(PanelBench.vehicle("parcel-van"), null, List.of("drive-and-stop"));

    private Order order(String text) throws Refused {
        return ((Message.Ordered) reader.read(text)).order();
    }

    @Test
    void soundMessages_areRead() throws Refused {
        assertEquals(new Order.Move(Lever.PEDAL, 0.5), order("{\"do\":\"lever\",\"lever\":\"pedal\",\"to\":0.5}"));
        assertEquals(
                new Order.Force(Signal.BRAKE_PRESSED, 1),
                order("{\"do\":\"force\",\"signal\":\"brake_pressed\",\"to\":1}"));
        assertEquals(
                new Order.Force(Signal.PEDAL_A_V, Double.NaN),
                order("{\"do\":\"force\",\"signal\":\"pedal_a_v\",\"to\":null}"));
        assertEquals(new Order.Speed(20), order("{\"do\":\"speed\",\"factor\":20}"));
        assertEquals(Message.Word.ALIVE, reader.read("{\"do\":\"alive\"}"));
        assertEquals(
                "bus_voltage_v.bias=20.0",
                ((Order.Break) order("{\"do\":\"fault\",\"name\":\"bus_voltage_v.bias=20\"}")).fault());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            {"do":"lever","lever":"pedal","to":1}       | true  | the end of its range
            {"do":"lever","lever":"pedal","to":1.0001}  | false | beyond it
            {"do":"lever","lever":"pedal","to":0}       | true  | the other end
            {"do":"lever","lever":"pedal","to":-0.0001} | false | beyond it
            {"do":"speed","factor":0.1}                 | true  | the slowest
            {"do":"speed","factor":0.09}                | false | slower
            {"do":"speed","factor":20.01}               | false | faster than the fastest
            {"do":"force","signal":"pedal_a_v","to":5}  | true  | what a sound wire can show
            {"do":"force","signal":"pedal_a_v","to":5.1}| false | what none can show
            {"do":"force","signal":"key_on","to":0.5}   | false | a switch is on or off
            {"do":"force","signal":"link_lost","to":0}  | false | the loop's own word cannot be forced
            {"do":"force","signal":"charger_3_ok","to":1}| false | this van has no third charger
            """)
    void bothSidesOfEachLimit(String text, boolean sound, String because) throws Refused {
        if (sound) {
            order(text);
        } else {
            assertThrows(Refused.class, () -> reader.read(text), because);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "{",
                "[]",
                "null",
                "1",
                "\"alive\"",
                "{}",
                "{\"do\":1}",
                "{\"do\":\"nonsense\"}",
                "{\"do\":\"alive\"} {}",
                "{\"do\":\"alive\",\"more\":1}",
                "{\"do\":\"alive\",\"do\":\"alive\"}",
                "{\"do\":\"lever\",\"lever\":\"pedal\"}",
                "{\"do\":\"lever\",\"lever\":\"pedal\",\"to\":\"1\"}",
                "{\"do\":\"lever\",\"lever\":\"pedal\",\"to\":NaN}",
                "{\"do\":\"lever\",\"lever\":\"pedal\",\"to\":1e999}",
                "{\"do\":\"lever\",\"lever\":\"nose\",\"to\":0}",
                "{\"do\":\"fault\",\"name\":\"positive_contactor.vanished\"}",
                "{\"do\":\"fault\",\"name\":\"charger_3.dead\"}",
                "{\"do\":\"play\",\"scenario\":\"../../etc/passwd\"}",
                "{\"do\":\"pause\",\"on\":1}",
                "{\"do\":{\"do\":{\"do\":{}}}}"
            })
    void malformedMessages_areRefusedWithAReason(String text) {
        Refused refused = assertThrows(Refused.class, () -> reader.read(text));
        assertTrue(refused.getMessage().length() > 3, refused.getMessage());
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void soundMessagesWithBytesChanged_areReadOrRefused_neverAnythingElse(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 5000; i++) {
            StringBuilder text = new StringBuilder("{\"do\":\"force\",\"signal\":\"pedal_a_v\",\"to\":1.25}");
            for (int k = random.nextInt(4); k >= 0; k--) {
                text.setCharAt(random.nextInt(text.length()), (char) random.nextInt(128));
            }
            try {
                reader.read(text.toString());
            } catch (Refused e) {
                assertTrue(!e.getMessage().isEmpty(), text.toString());
            }
        }
    }
}
