/** {@code speed}: how fast all of it is on this machine, each figure beside its baseline. */
package sprag.bench.speed;
