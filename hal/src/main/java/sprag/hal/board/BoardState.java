package sprag.hal.board;

/** What a board is doing. */
public enum BoardState {
    /** The right board has not answered yet, or the link was lost. */
    SEARCHING,
    /** Inputs are read; outputs are released. */
    READY,
    /** Inputs are read and outputs driven. */
    ARMED
}
