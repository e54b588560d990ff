/**
 * Boards that speak Firmata 2.x: microcontroller boards with ready-made firmware.
 *
 * <p>Written from the protocol's own document, {@code protocol.md} of the project firmata/protocol on GitHub. Where the text
 * and the table of modes there disagree about a number, the table is followed.
 */
package sprag.hal.board.firmata;
