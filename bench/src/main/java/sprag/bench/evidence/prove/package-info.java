/**
 * Shows that the interlocks hold in every reachable state of the shipped Logic, and that each of them is needed.
 *
 * <p>{@code Tick} is the shipped Logic under exploration; {@code Promise} and {@code History} are what must never happen, tied to
 * the hazards; {@code Prover} explores.
 */
package sprag.bench.evidence.prove;
