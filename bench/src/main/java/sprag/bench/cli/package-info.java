/**
 * What every command shares: exit codes, the terminal, folders for results, line wrapping, near names. It knows nothing of
 * vehicles, and no other package of the bench is imported here.
 */
package sprag.bench.cli;
