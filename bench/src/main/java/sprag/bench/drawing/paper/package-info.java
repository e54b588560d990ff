/** What a drawing is made of, on a web page and on paper: lines, shapes and words in millimetres. */
package sprag.bench.drawing.paper;
