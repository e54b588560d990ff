/** A document of chapters, written as one page of HTML and as a PDF with page numbers. It knows nothing of vehicles. */
package sprag.bench.book.print;
