/**
 * A complete breadth-first explorer for finite machines whose whole state fits a long.
 *
 * <p>It knows nothing of vehicles. A {@link sprag.bench.evidence.prove.explore.Machine} lists the successors of a state; the
 * {@link sprag.bench.evidence.prove.explore.Explorer} visits every reachable state once, in breadth-first order, and says that it
 * is complete only when nothing was left to visit. A {@link sprag.bench.evidence.prove.explore.Stepper} is the easier way to write
 * a machine: it runs one step and asks {@link sprag.bench.evidence.prove.explore.Choices} for whatever comes from outside, and
 * only what it asks for is branched on. {@link sprag.bench.evidence.prove.explore.Watched} turns it into a machine and puts
 * properties and observers beside it.
 */
package sprag.bench.evidence.prove.explore;
