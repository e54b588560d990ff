/** A first vehicle file from a few answers. */
package sprag.bench.begin;
