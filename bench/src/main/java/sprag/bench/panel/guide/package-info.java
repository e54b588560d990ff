/** The sentence that tells a person what to do next, and why nothing happens. */
package sprag.bench.panel.guide;
