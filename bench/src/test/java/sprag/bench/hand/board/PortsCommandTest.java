package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import sprag.hal.board.PortInfo;

class PortsCommandTest {
    private static final PortInfo USB =
            new PortInfo("/dev/ttyACM0", "Board one", "A maker", "2a03", "0043", "7573530373", "1-2.3");
    private static final PortInfo PLAIN = new PortInfo("/dev/ttyS0", "Physical port S0", "", "", "", "", "");

    @Test
    void usbPort_showsWhatGoesIntoTheBoardFile() {
        String text = run(List.of(USB, PLAIN));
        assertTrue(text.contains("usb_vendor = \"2a03\"   usb_product = \"0043\""), text);
        assertTrue(text.contains("usb_serial = \"7573530373\""), text);
        assertTrue(text.contains("plugged in at 1-2.3"), text);
        assertTrue(text.contains("/dev/ttyS0") && text.contains("not on USB"), text);
        assertTrue(text.lines().allMatch(l -> l.length() <= 80), text);
    }

    @Test
    void nothingAttached_saysWhatToDo() {
        assertTrue(run(List.of()).contains("No serial port is attached"));
    }

    @Test
    void json_isForPrograms() throws Exception {
        JsonNode all = new ObjectMapper().readTree(run(List.of(USB), "--json"));
        assertEquals("/dev/ttyACM0", all.get(0).get("port").asText());
        assertEquals("7573530373", all.get(0).get("usb_serial").asText());
    }

    private static String run(List<PortInfo> ports, String... args) {
        StringWriter out = new StringWriter();
        CommandLine line = new CommandLine(new PortsCommand(() -> ports)).setOut(new PrintWriter(out, true));
        assertEquals(0, line.execute(args));
        return out.toString();
    }
}
