package sprag.hal.board;

/**
 * All that is known of a board before it is opened.
 *
 * @param name what people call it
 * @param driver the protocol it speaks
 * @param port where it is
 * @param settings what is set
 * @param map what is wired to it
 */
public record BoardSpec(String name, BoardDriver driver, PortChoice port, BoardSettings settings, BoardMap map) {}
