package sprag.bench.lesson;

import java.util.List;
import java.util.Map;

/**
 * One lesson.
 *
 * @param number its place in the course, from 1
 * @param name the stable name, as in files
 * @param minutes how long it takes
 * @param caution what a hand must know that would follow it in a real car
 * @param predict the question before the run; it is not marked
 * @param explain what happened and why, as a template with the figures
 */
record Lesson(
        int number,
        String name,
        String title,
        String aim,
        int minutes,
        String caution,
        Exercise predict,
        List<Play> plays,
        List<Figure> figures,
        String explain,
        List<Exercise> exercises,
        Teacher teacher) {

    /**
     * A run.
     *
     * @param scenario the name of a shipped scenario, empty when the story is given
     * @param set values of the vehicle's file that differ here
     * @param without interlocks that are taken out
     */
    record Play(
            String name, String vehicle, String scenario, String story, Map<String, Object> set, List<String> without) {
        /** The values that differ, as a vehicle's file writes them. */
        List<String> settings() {
            return set.entrySet().stream()
                    .map(each -> each.getKey() + " = "
                            + (each.getValue() instanceof Number number
                                    ? sprag.bench.cli.Numbers.text(number.doubleValue())
                                    : "\"" + each.getValue() + "\""))
                    .toList();
        }
    }

    /**
     * A value that is measured or computed when the lesson is given.
     *
     * @param play the run that is asked, empty for a computed one
     * @param vehicle whose file a computed one uses, empty for that of the first run
     * @param ask the question to the run, or the expression over other figures
     */
    record Figure(String name, String play, String vehicle, String ask, String unit) {}

    /** What a teacher needs to know.
     *
     * @param next what to ask when the class is done
     * @param traps what usually goes wrong
     */
    record Teacher(List<String> next, List<String> traps) {}
}
