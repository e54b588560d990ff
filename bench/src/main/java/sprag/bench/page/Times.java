package sprag.bench.page;

import java.util.function.IntToDoubleFunction;

/**
 * The times of the values of a plot.
 *
 * @param timeMs the time of each, growing
 */
public record Times(int size, IntToDoubleFunction timeMs) {}
