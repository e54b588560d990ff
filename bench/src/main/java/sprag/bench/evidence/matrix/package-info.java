/** The interlock matrix and the state table, made from the code that runs. */
package sprag.bench.evidence.matrix;
