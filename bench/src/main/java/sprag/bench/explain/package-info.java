/** What a name means: every key, signal, output, interlock, fault point and command, told from the tables that the program works with. */
package sprag.bench.explain;
