/** What happened, tick by tick: its columns, and the files it is written to. */
package sprag.bench.loop.trace;
