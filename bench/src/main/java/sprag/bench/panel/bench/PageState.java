package sprag.bench.panel.bench;

import java.util.List;
import sprag.bench.panel.guide.Guidance;

/**
 * What pages are told when it changes, beside the numbers of the frames.
 *
 * @param guidance where the vehicle stands and what is missing
 * @param faults the faults there are, as they are written
 * @param playing the scenario that is played, empty for none
 * @param health what is wrong with the pins, empty when nothing is
 * @param board what the board is doing, empty without one
 */
public record PageState(Guidance guidance, List<String> faults, String playing, String health, String board) {}
