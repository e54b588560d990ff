/** What a circuit of switches is made of: terminals, ways through parts, sources, consumers, controls, and when these conduct. */
package sprag.bench.drawing.live.element;
