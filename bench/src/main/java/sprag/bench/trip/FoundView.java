package sprag.bench.trip;

import java.util.List;

/** What {@code --find} has found, for a terminal, a program and a browser. */
interface FoundView {
    List<String> text();

    String json();

    String page();

    /** Whether some value reaches the aim. */
    boolean isFound();
}
