package sprag.bench.drawing.live;

import sprag.bench.drawing.live.element.Gate;

/**
 * Where a source holds a potential.
 *
 * @param potential what it holds
 * @param node where
 * @param gate when
 */
record Pole(Potential potential, int node, Gate gate) {}
