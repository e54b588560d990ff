/**
 * The data bus (CAN, ISO 11898-1): frames, the fields in them, and a bus that is used like a board.
 *
 * <pre>
 *  BusSession --- frames ---- SlcanLine --- text --- Port (serial adapter, kernel interface, log file)
 *      |
 *      +-- BusDecoder: received frames to inputs, each with its time-out, counter and check sum
 *      +-- BusEncoder: outputs to frames that are sent
 * </pre>
 *
 * <p>Arming, handing over, releasing and losing the link are those of {@link sprag.hal.board.Board}.
 */
package sprag.hal.bus;
