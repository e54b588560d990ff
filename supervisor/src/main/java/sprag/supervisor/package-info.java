/**
 * The decisions of the vehicle supervisor, pure and complete.
 *
 * <p>One tick runs in one direction; each stage reads only what stands to its left:
 *
 * <pre>
 * Readings -> Conditioner -> Facts -> Logic -> Permissions -> Shapers -> Gate -> Commands
 * </pre>
 *
 * <p>Nothing here knows a clock, a thread, a file or a library. Time is the tick, and the tick is an argument.
 */
package sprag.supervisor;
