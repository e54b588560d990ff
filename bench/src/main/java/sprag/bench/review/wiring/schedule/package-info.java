/** The wiring schedule and the list of parts, read from files a person keeps in a spreadsheet. */
package sprag.bench.review.wiring.schedule;
