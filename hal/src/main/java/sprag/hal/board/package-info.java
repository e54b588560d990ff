/**
 * Real pins: boards on a serial port, what is wired to them, and when they may be driven.
 *
 * <pre>
 *                 the loop's thread        |        the board's own thread
 *  sample()  &lt;--- newest values, times --- Handover &lt;--- BoardSession.turn() &lt;--- Port
 *  command() ---&gt; newest requests --------&gt; Handover ---&gt; BoardSession.drive() --&gt; Port
 * </pre>
 *
 * <p>A protocol is one folder: a {@link sprag.hal.board.BoardDriver}, its session and its settings, and one line in
 * {@code META-INF/services}. Nothing else names it.
 */
package sprag.hal.board;
