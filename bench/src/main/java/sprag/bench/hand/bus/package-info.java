/** The data bus by hand: what is heard on it, what followed an act, frames that are sent to a bench. */
package sprag.bench.hand.bus;
