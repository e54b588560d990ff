/** A toy machine, explored by other tools too: it shows that the explorer counts right, and how fast. */
package sprag.bench.evidence.prove.toy;
