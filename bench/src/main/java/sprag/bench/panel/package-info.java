/**
 * The panel: a live page on which levers are moved by hand, the supervisor answers, and everyone sees why.
 *
 * <pre>
 *   page --orders--&gt; {@link sprag.bench.panel.bench.ControlLease} --queue--&gt; {@link sprag.bench.panel.bench.BenchThread} (one thread: car and supervisor)
 *   page &lt;--frames-- {@link sprag.bench.panel.web.Viewer} &lt;--newest frame-- {@link sprag.bench.panel.bench.BenchThread}
 * </pre>
 *
 * <p>Nothing that a page does or fails to do can make the bench wait.
 */
package sprag.bench.panel;
