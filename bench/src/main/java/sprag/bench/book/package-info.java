/** {@code book}: everything that is known of a car in one document, for the inspector and for the next owner. */
package sprag.bench.book;
