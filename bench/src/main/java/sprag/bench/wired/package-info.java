/** The drawn circuit between what decides and the simulated car: current follows the wires that the schedule writes. */
package sprag.bench.wired;
