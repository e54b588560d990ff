/** The commands about the drawing: what is live when. */
package sprag.bench.drawing;
