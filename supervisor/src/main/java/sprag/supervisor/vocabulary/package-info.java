/**
 * The words that all stages share: the tables of rows (parameters, signals, facts, interlocks, states, transitions, outputs) and
 * the plain data that one stage hands to the next (readings, conditioned quantities, facts, permissions, commands).
 *
 * <p>It stands below the pipeline and reads no stage of it.
 */
package sprag.supervisor.vocabulary;
