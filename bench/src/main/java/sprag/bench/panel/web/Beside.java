package sprag.bench.panel.web;

/** A text that a page shows beside the car, such as a lesson, and that answers what is typed into it. Threads may share it. */
public interface Beside {
    /** What is shown, as JSON. */
    String text();

    /** The answer to what was typed, as JSON.
     *
     * @param place the place in the text that it was typed at, from 0; any number may come
     * @param typed any text
     */
    String answer(int place, String typed);
}
