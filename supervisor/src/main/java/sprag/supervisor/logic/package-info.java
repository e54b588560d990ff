/**
 * The second stage, from facts to permissions: the state machine, the contactor sequence and the interlocks.
 *
 * <p>It reads facts and its own state, so it is a finite machine that can be explored completely.
 */
package sprag.supervisor.logic;
