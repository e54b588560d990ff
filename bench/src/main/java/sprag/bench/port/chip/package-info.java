/** The supervisor on an emulated microcontroller: compiled for it, measured, and asked over its serial line. */
package sprag.bench.port.chip;
