package sprag.bench.speed;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Supplier;
import sprag.bench.evidence.campaign.CampaignRuns;
import sprag.bench.evidence.prove.explore.Explorer;
import sprag.bench.evidence.prove.explore.Observer;
import sprag.bench.evidence.prove.explore.Watched;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.record.Recorder;
import sprag.bench.review.report.Checker;
import sprag.bench.review.wiring.WiringCheck;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * What the program is asked for in growing sizes.
 *
 * @param schedule the vehicle's drawing
 * @param work how much is done; 1 takes some ten seconds on a quiet machine
 */
record GrowthTrials(Vehicle vehicle, Schedule schedule, Path folder, double work) {
    private static final double NS_PER_MS = 1e6;
    private static final double BYTES_PER_MB = 1e6;
    private static final String TIME = "processor time (ms)";
    private static final int S_PER_H = 3600;
    private static final List<Double> WAITS = List.of(0.5, 1.0, 2.0, 4.0);
    private static final List<Double> TICKS_MS = List.of(5.0, 10.0, 20.0, 40.0);
    private static final List<Double> SIZES = List.of(1.0, 2.0, 4.0, 8.0);
    /** The compiler of the machine needs some before times say anything. */
    private static final int WARMING_CHECKS = 5;

    private static final int LEAST_RUNS = 24;
    private static final double LEAST_HOURS = 0.25;

    /** Every trial by its name. */
    Map<String, Supplier<List<Growth>>> all() {
        Map<String, Supplier<List<Growth>>> all = new LinkedHashMap<>();
        all.put("states of the proof", () -> List.of(statesOverWait(), statesOverTick()));
        all.put("campaign", () -> List.of(campaign()));
        all.put("check of a schedule", () -> List.of(check()));
        all.put("recording", this::recording);
        return all;
    }

    private Growth statesOverWait() {
        double waitMs = vehicle.get(Parameter.RUNDOWN_WAIT_MS);
        return measured(
                "states of the proof",
                "rundown.wait_ms (ms)",
                "states",
                WAITS,
                share -> share * waitMs,
                waited -> states(vehicle.with(Parameter.RUNDOWN_WAIT_MS, waited)));
    }

    private Growth statesOverTick() {
        return measured(
                "states of the proof",
                "loop.tick_ms (ms)",
                "states",
                TICKS_MS,
                tickMs -> tickMs,
                tickMs -> states(vehicle.with(Parameter.LOOP_TICK_MS, tickMs)));
    }

    private static double states(Vehicle tried) {
        return Explorer.of(() -> new Watched<>(
                        new Tick(tried.settings(), tried.settings(), Set.of(), false),
                        List.<Promise>of(),
                        List.<Observer<Tick>>of()))
                .explore()
                .size()
                .states();
    }

    /** Runs from all over the plan, so that short and long stories are mixed alike in each size. */
    private Growth campaign() {
        CampaignRuns runs = new CampaignRuns(vehicle);
        int planned = runs.names().size();
        int warming = amount(LEAST_RUNS * SIZES.get(SIZES.size() - 1));
        for (int i = 0; i < warming; i++) {
            runs.play(i * planned / warming, (name, loop) -> () -> {});
        }
        return measured("campaign", "runs with a fault", TIME, SIZES, size -> amount(LEAST_RUNS * size), count -> {
            long beganNs = processorNs();
            for (int i = 0; i < count; i++) {
                runs.play((int) (i * planned / count), (name, loop) -> () -> {});
            }
            return (processorNs() - beganNs) / NS_PER_MS;
        });
    }

    private Growth check() {
        return measured(
                "check of a schedule",
                "wires",
                TIME,
                SIZES,
                copies -> copies * schedule.wires().size(),
                wires -> {
                    Schedule large =
                            copied((int) Math.round(wires / schedule.wires().size()));
                    for (int i = 0; i < WARMING_CHECKS; i++) {
                        WiringCheck.findings(large, Checker.limits(vehicle));
                    }
                    long beganNs = processorNs();
                    WiringCheck.findings(large, Checker.limits(vehicle));
                    return (processorNs() - beganNs) / NS_PER_MS;
                });
    }

    /** The drawing several times over, each copy with names of its own. */
    private Schedule copied(int copies) {
        List<Wire> wires = new ArrayList<>();
        Map<String, Part> parts = new LinkedHashMap<>();
        for (int copy = 0; copy < copies; copy++) {
            String mark = copy == 0 ? "" : "-" + copy;
            schedule.wires().forEach(wire -> wires.add(marked(wire, mark)));
            schedule.parts().forEach((name, part) -> parts.put(name + mark, part.named(name + mark)));
        }
        return new Schedule(List.copyOf(wires), Map.copyOf(parts));
    }

    private static Wire marked(Wire wire, String mark) {
        return wire.between(wire.id() + mark, marked(wire.from(), mark), marked(wire.to(), mark));
    }

    private static String marked(String terminal, String mark) {
        return terminal.isEmpty() ? "" : Wire.partOf(terminal) + mark + "." + Wire.pinOf(terminal);
    }

    /** Size of the file, and what the program holds in memory when the last tick is recorded. */
    private List<Growth> recording() {
        List<Growth.Point> file = new ArrayList<>();
        List<Growth.Point> memory = new ArrayList<>();
        for (double size : SIZES) {
            double hours = LEAST_HOURS * size * work;
            Path path = folder.resolve("growth.rec");
            try {
                memory.add(new Growth.Point(hours, recorded(path, hours)));
                file.add(new Growth.Point(hours, Files.size(path) / BYTES_PER_MB));
                Files.delete(path);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        String cause = "hours of a drive (h)";
        return List.of(
                new Growth("recording, its file", cause, "MB", file),
                new Growth("recording, memory meanwhile", cause, "MB", memory));
    }

    /** MB in use while the recording of a drive is still open. */
    private double recorded(Path path, double hours) throws IOException {
        ClosedLoop loop = DriveOff.of(vehicle);
        Recorder recorder = loop.record(path, "growth");
        try {
            DriveOff.goOn(loop, (int) Math.ceil(hours * S_PER_H));
            System.gc();
            return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed() / BYTES_PER_MB;
        } finally {
            recorder.close();
        }
    }

    private static Growth measured(
            String what,
            String cause,
            String cost,
            List<Double> sizes,
            DoubleUnaryOperator causeOf,
            DoubleUnaryOperator costOf) {
        List<Growth.Point> points = new ArrayList<>();
        for (double size : sizes) {
            double value = causeOf.applyAsDouble(size);
            points.add(new Growth.Point(value, costOf.applyAsDouble(value)));
        }
        return new Growth(what, cause, cost, List.copyOf(points));
    }

    private int amount(double whole) {
        return Math.max(1, (int) (whole * work));
    }

    private static long processorNs() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }
}
