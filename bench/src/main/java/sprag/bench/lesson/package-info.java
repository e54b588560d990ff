/** Lessons: a prediction, a run, an explanation with the figures of this run, and exercises that the program checks. */
package sprag.bench.lesson;
