package sprag.bench.port.chip;

import java.util.Set;
import picocli.CommandLine.Option;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;

/** Whether an emulated microcontroller decides, as it is asked for on the command line. */
public final class ChipOption {
    @Option(
            names = "--chip",
            description =
                    "The C of the supervisor decides, on an emulated Cortex-M4F; the Java beside it must agree in every"
                            + " tick (docs/porting.md says what that needs).")
    private boolean wanted;

    /** Whether it was asked for. */
    public boolean wanted() {
        return wanted;
    }

    /** The seat of the chip; an empty one when it was not asked for.
     *
     * @param without the interlocks that are taken out
     */
    public ChipSeat seat(Vehicle vehicle, Set<Interlock> without) throws BadInput {
        return wanted ? ChipSeat.of(vehicle, without) : ChipSeat.empty();
    }
}
