/**
 * Industrial I/O modules that speak Modbus RTU, through the library j2mod over the project's own {@link sprag.hal.board.Port}.
 *
 * <p>The library builds and reads frames and checks their check sum. What it leaves open is checked here: that the reply comes
 * from the unit, for the function and of the length that was asked for, and that a late reply to one request is never taken
 * for the reply to another.
 */
package sprag.hal.board.modbus;
