package sprag.bench.begin;

/**
 * A value that follows from the answers, or from values that do.
 *
 * @param value in the unit of the row; for a choice the index of the word
 * @param because how it was found, in words or as a formula
 */
record Suggestion(double value, String because) {}
