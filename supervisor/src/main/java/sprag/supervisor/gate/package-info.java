/**
 * The last stage, a veto straight from readings to commands. It knows neither facts nor Logic, so that one mistake cannot be in
 * both.
 */
package sprag.supervisor.gate;
