package sprag.bench.explain;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.car.OutputFault;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.car.SignalFault;
import sprag.bench.cli.Numbers;
import sprag.bench.explain.Entry.Fact;
import sprag.bench.explain.Entry.Kind;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What a person can move, see and break in the simulated car. */
final class CarEntries {
    private CarEntries() {}

    static List<Entry> all() {
        List<Entry> all = new ArrayList<>();
        for (Lever lever : Lever.values()) {
            all.add(new Entry(
                    Kind.LEVER,
                    lever.key(),
                    lever.meaning,
                    List.of(
                            new Fact("range", Vocables.range(lever.min, lever.max, lever.unit)),
                            new Fact("at first", Numbers.show(lever.initial, lever.unit)),
                            new Fact("acts", lever.way == Lever.Way.HELD ? "as long as it stands there" : "once"),
                            new Fact("in a scenario", "set = { " + lever.key() + " = ... }"))));
        }
        for (Quantity quantity : Quantity.values()) {
            all.add(new Entry(
                    Kind.QUANTITY,
                    quantity.key(),
                    quantity.meaning,
                    List.of(new Fact("in a scenario", "quantity = \"" + quantity.key() + "\""))));
        }
        for (PartFault fault : PartFault.values()) {
            all.add(fault(fault.key, fault.meaning, Numbers.show(fault.usual, fault.unit)));
        }
        for (Signal signal : Signal.values()) {
            for (SignalFault fault : SignalFault.values()) {
                if (!signal.isSwitch() || fault.onSwitches) {
                    all.add(fault(signal.key() + "." + fault.key(), signal.meaning + ": " + fault.meaning, ""));
                }
            }
        }
        for (Output output : Output.values()) {
            for (OutputFault fault : OutputFault.values()) {
                all.add(fault(output.key() + "." + fault.key(), output.meaning + ": " + fault.meaning, ""));
            }
        }
        return all;
    }

    private static Entry fault(String name, String meaning, String usual) {
        List<Fact> facts = new ArrayList<>();
        if (!usual.isEmpty()) {
            facts.add(new Fact("usual size", usual));
        }
        facts.add(new Fact("in a scenario", "fault = \"" + name + "\""));
        facts.add(new Fact("in a campaign", "--only " + name));
        return new Entry(Kind.FAULT, name, meaning, facts);
    }
}
