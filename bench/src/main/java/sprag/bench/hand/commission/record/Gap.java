package sprag.bench.hand.commission.record;

/**
 * Something that is not commissioned.
 *
 * @param what an input, an output or an interlock
 * @param why the reason
 */
public record Gap(String what, String why) {}
