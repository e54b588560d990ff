/** A wiring schedule to begin with, drafted from a vehicle's file. */
package sprag.bench.drawing.draft;
