/** What every written page shares: its frame, its style, its cautions. */
package sprag.bench.page;
