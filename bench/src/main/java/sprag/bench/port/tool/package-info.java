/** Compilers and emulators outside of Sprag. */
package sprag.bench.port.tool;
