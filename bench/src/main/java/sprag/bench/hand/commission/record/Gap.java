package sprag.bench.hand.commission.record;

/**
 * Something that is not commissioned.
 *
 * @param what an input, an output or an interlock
 */
public record Gap(String what, String why) {}
