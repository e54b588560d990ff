package sprag.bench.hand.board;

import com.fasterxml.jackson.databind.node.ArrayNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.Json;
import sprag.hal.board.PortInfo;
import sprag.hal.board.SerialPorts;

/** Lists what is attached, in enough detail to choose. */
@Command(
        name = "ports",
        mixinStandardHelpOptions = true,
        description = {
            "Lists the serial ports of this machine, with what goes into board.toml.",
            "",
            "A USB identity finds the board wherever it is plugged in; where two boards",
            "are alike, add usb_serial, or give the port."
        })
public final class PortsCommand implements Callable<Integer> {
    private final Supplier<List<PortInfo>> attached;

    @Option(names = "--json", description = "Print for programs to read.")
    private boolean json;

    @Spec
    private CommandSpec spec;

    /** For the command line. */
    public PortsCommand() {
        this(SerialPorts::attached);
    }

    PortsCommand(Supplier<List<PortInfo>> attached) {
        this.attached = attached;
    }

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        List<PortInfo> ports = attached.get();
        if (json) {
            out.println(asJson(ports).toPrettyString());
            return 0;
        }
        if (ports.isEmpty()) {
            out.println("No serial port is attached. Plug the board in and look again; a board that");
            out.println("still does not show may need another cable: many carry supply only.");
        }
        for (PortInfo port : ports) {
            print(port, out);
        }
        return 0;
    }

    private static void print(PortInfo port, PrintWriter out) {
        out.println(port.path() + "  " + port.description() + (port.maker().isEmpty() ? "" : ", " + port.maker()));
        out.println("    port = \"" + port.path() + "\"");
        if (port.isUsb()) {
            out.println("    usb_vendor = \"" + port.usbVendor() + "\"   usb_product = \"" + port.usbProduct() + "\"");
            out.println("    usb_serial = \"" + port.usbSerial() + "\""
                    + (port.usbSerial().isEmpty() ? "   (it has none)" : ""));
        } else {
            out.println("    not on USB");
        }
        if (!port.location().isEmpty()) {
            out.println("    plugged in at " + port.location());
        }
    }

    private static ArrayNode asJson(List<PortInfo> ports) {
        ArrayNode all = Json.array();
        for (PortInfo port : ports) {
            all.addObject()
                    .put("port", port.path())
                    .put("description", port.description())
                    .put("maker", port.maker())
                    .put("usb_vendor", port.usbVendor())
                    .put("usb_product", port.usbProduct())
                    .put("usb_serial", port.usbSerial())
                    .put("location", port.location());
        }
        return all;
    }
}
