/** How far, how fast, how warm: a driver follows a speed trace with the simulated car ({@code trip}). */
package sprag.bench.trip;
