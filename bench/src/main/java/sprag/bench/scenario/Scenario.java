package sprag.bench.scenario;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import sprag.bench.bus.BusFile;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Settings;

/**
 * What is done to a car, and what must happen then.
 *
 * @param name the file's name without its ending
 * @param seed the start of every random number in it
 * @param car what the simulated car is made of where it differs from the vehicle's file
 * @param steps what is done, in the file's order
 * @param expectations what must happen, at least one
 */
public record Scenario(
        String name,
        Path file,
        About about,
        long durationMs,
        long seed,
        Map<CarParameter, Double> car,
        Map<String, Double> start,
        List<ScenarioStep> steps,
        List<Expectation> expectations) {

    /**
     * What a scenario is for and which vehicles it suits.
     *
     * @param why what it teaches or protects, in words
     * @param hazards the hazards it is about, {@code H01} and so on
     * @param vehicles the names of the vehicles it is meant for, empty for every one
     * @param needs what a vehicle must have
     * @param bus the data bus between car and supervisor, null for none
     */
    public record About(
            String title, String why, List<String> hazards, List<String> vehicles, List<Need> needs, BusFile bus) {}

    /** The vehicle with the car that this is about. */
    public Vehicle on(Vehicle vehicle) {
        return vehicle.withCar(car);
    }

    /** Whether it makes sense for a vehicle. Returns an empty text when it does, else why not. */
    public String unsuitable(String vehicle, Settings settings) {
        if (!about.vehicles().isEmpty() && !about.vehicles().contains(vehicle)) {
            return "it is meant for " + String.join(", ", about.vehicles());
        }
        for (Need need : about.needs()) {
            if (!need.metBy(settings)) {
                return "it needs " + need.text();
            }
        }
        return "";
    }
}
