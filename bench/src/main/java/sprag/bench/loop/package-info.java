/** The closed loop: supervisor and simulated car, one tick after the other, and what can be read from it after each tick. */
package sprag.bench.loop;
