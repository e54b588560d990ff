package sprag.hal.board;

import java.io.IOException;

/** The link to the board is lost. The message says what was seen and what to check. */
public final class LinkLost extends IOException {
    private static final long serialVersionUID = 1;

    /** Says what happened.
     *
     * @param words what was seen, with names and values, and what to look at
     */
    public LinkLost(String words) {
        super(words);
    }
}
