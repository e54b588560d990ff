package sprag.bench.panel.guide;

import java.util.List;

/**
 * Where the vehicle stands and what is missing to go on, in words.
 *
 * @param seen what the readings show of contactors and bus
 * @param missing what keeps it from going on, strongest first
 * @param next what to do; empty when there is nothing to do but wait
 */
public record Guidance(String now, String seen, List<String> missing, String next) {}
