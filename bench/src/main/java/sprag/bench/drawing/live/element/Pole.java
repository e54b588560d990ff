package sprag.bench.drawing.live.element;

/**
 * Where a source holds a potential.
 *
 * @param potential what it holds
 * @param node where
 * @param gate when
 */
public record Pole(Potential potential, int node, Gate gate) {}
