/** Files that describe a data bus: {@code bus.toml}, message descriptions of others, and what they say about each other. */
package sprag.bench.bus;
