/** The command {@code port}: the supervisor in C for a chip, shown equal to the Java. */
package sprag.bench.port;
