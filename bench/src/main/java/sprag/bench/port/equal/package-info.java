/** The supervisor in Java and the same in C, side by side: every output, everything that is remembered, the whole of Logic. */
package sprag.bench.port.equal;
