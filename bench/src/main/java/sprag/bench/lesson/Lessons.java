package sprag.bench.lesson;

import java.util.ArrayList;
import java.util.List;

/** The course, in its order. */
final class Lessons {
    /** The names, each that of a file beside this class. */
    static final List<String> NAMES = List.of(
            "still-live",
            "shape-of-a-start",
            "inrush",
            "timer",
            "welded",
            "weld-test",
            "pedal-tracks",
            "who-wins",
            "gently-or-at-once",
            "plug",
            "two-for-safety",
            "take-it-out",
            "nobody-knows",
            "body-and-twelve-volt",
            "cold-and-full");

    private Lessons() {}

    /** The lesson of a place, from 1. */
    static Lesson of(int number) {
        return LessonReader.read(number, NAMES.get(number - 1));
    }

    /** All lessons. */
    static List<Lesson> all() {
        List<Lesson> all = new ArrayList<>();
        for (int number = 1; number <= NAMES.size(); number++) {
            all.add(of(number));
        }
        return all;
    }
}
