/** Boards on the bench: reading their files, listing ports, looking at pins, moving one output at a time. */
package sprag.bench.hand.board;
