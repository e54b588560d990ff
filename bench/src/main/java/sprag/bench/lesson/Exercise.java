package sprag.bench.lesson;

import java.util.List;
import java.util.Map;

/**
 * A question with an answer that the program checks.
 *
 * @param answers what can be chosen, in order, each with the letter a, b, c before it; empty when something is typed
 * @param replies what is said to each choice; empty for the general words
 * @param right the letters of the right choice; for a value, the expression that gives it
 * @param tolerance how far a value may be off, as a share of the right one
 * @param unit the symbol of a value's unit
 * @param task what a typed answer is tried on; null when nothing is played
 * @param solution the answer explained, as a template
 */
record Exercise(
        Kind kind,
        String question,
        List<String> answers,
        List<String> replies,
        String right,
        double tolerance,
        String unit,
        List<Wrong> wrongs,
        List<String> hints,
        Task task,
        String solution) {

    /** What kind of answer it takes. */
    enum Kind {
        /** A number, compared with one that a run gives. */
        VALUE("a number"),
        /** One or several letters, in any order. */
        CHOICE("one letter, or several"),
        /** All letters, in the right order. */
        ORDER("the letters in the right order, such as bca"),
        /** A number that is just enough: the story goes well with it, and not with one step less. */
        LIMIT("a number"),
        /** A value of the vehicle's file with which the story goes well. */
        PARAMETER("a number"),
        /** Interlocks that are put back into a supervisor that lacks some. */
        INTERLOCKS("the names of interlocks, with blanks between"),
        /** A scenario file that passes, and fails when something is weakened. */
        SCENARIO("the path to your scenario file");

        /** What to type, in words. */
        final String asks;

        Kind(String asks) {
            this.asks = asks;
        }
    }

    /**
     * A wrong value that comes from a known mistake.
     *
     * @param is the expression that gives it
     */
    record Wrong(String is, String reply) {}

    /**
     * What a typed answer is tried on.
     *
     * @param story a scenario, in which {@code ANSWER} stands for what was typed; empty when the answer is a scenario
     * @param key the value of the vehicle's file that the answer sets, empty for none
     * @param step from the answer to one that must not do: a limit's grain
     * @param without the interlocks that are taken out; for a scenario, each of them in turn must make it fail
     * @param set values of the vehicle's file that differ here
     * @param most the most interlocks that may be put back
     */
    record Task(
            String vehicle,
            Map<String, Object> set,
            String story,
            String key,
            double step,
            List<String> without,
            int most) {}
}
