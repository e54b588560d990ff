/** The command {@code check}. Findings, calculations, rules and pages stand in the packages below. */
package sprag.bench.review;
