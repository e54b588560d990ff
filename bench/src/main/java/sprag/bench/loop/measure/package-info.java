/** What a run shows at a moment, asked for in one line: {@code car.bus_voltage_v at 3.7}. */
package sprag.bench.loop.measure;
