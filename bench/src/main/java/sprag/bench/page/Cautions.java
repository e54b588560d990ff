package sprag.bench.page;

import java.util.List;

/** What whoever works on a car must know before anything printed here is tried on one. */
public final class Cautions {
    /** What this is not. */
    public static final String STANDING =
            "A simulation on a reference design. Not certified, not a safety case, not for a car on the road.";

    /** The dangers and the rules of the trade, one sentence each. */
    public static final List<String> RULES = List.of(
            "Traction voltage is lethal direct current, and capacitors keep it after everything is switched off.",
            "Never work on it alone: a second person who can switch off and help stands by.",
            "Before touching anything: isolate, lock, wait, and verify absence of voltage with a meter rated for it that was"
                    + " proved before and after.",
            "Wear insulating gloves rated for the voltage, with their test in date. No rings, no watch.",
            "A wheel that can turn will turn: put the driven wheels clear of the ground.",
            "Local electrical and vehicle codes come first; where they ask for a licensed person, get one.");

    private Cautions() {}
}
