/** What the panel runs: the car, the board in front of it, and what a person has forced or latched. */
package sprag.bench.panel.session;
