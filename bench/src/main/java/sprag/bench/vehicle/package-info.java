/**
 * Reads what a person edits: vehicles, and the parts that other files share. Every mistake names file, line, key, value and
 * remedy; all mistakes of a file come at once; nothing is half-applied.
 */
package sprag.bench.vehicle;
