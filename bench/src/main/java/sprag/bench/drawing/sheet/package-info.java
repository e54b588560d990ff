/** The wiring schedule as sheets to build from: which wire on which sheet, where each part stands, symbols, tables. */
package sprag.bench.drawing.sheet;
