package sprag.bench.book.print;

import java.util.List;

/**
 * A document before it is written.
 *
 * @param over a few words above the title
 * @param foot what stands at the foot of every page, so that a page alone can be told from an older one
 * @param front what the first page says, below the title
 */
public record Document(String over, String title, String foot, Chapter front, List<Chapter> chapters) {}
