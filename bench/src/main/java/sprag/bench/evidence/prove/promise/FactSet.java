package sprag.bench.evidence.prove.promise;

import java.util.Arrays;
import java.util.stream.Stream;
import sprag.supervisor.vocabulary.Fact;

/** A set of yes-or-no facts, one bit for each. Two operations show what a watch told about all of them. */
final class FactSet {
    final Fact[] facts;
    final long low;
    final long high;

    private FactSet(Fact[] facts) {
        this.facts = facts;
        long lowBits = 0;
        long highBits = 0;
        for (Fact fact : facts) {
            lowBits |= low(fact.ordinal());
            highBits |= high(fact.ordinal());
        }
        low = lowBits;
        high = highBits;
    }

    static FactSet of(Fact... facts) {
        return new FactSet(facts);
    }

    /** This set and more. */
    FactSet plus(Fact... more) {
        return of(Stream.concat(Arrays.stream(facts), Arrays.stream(more)).toArray(Fact[]::new));
    }

    /** The bit of one of the first 64 facts. */
    static long low(int fact) {
        return fact < Long.SIZE ? 1L << fact : 0;
    }

    /** The bit of one of the second 64 facts. */
    static long high(int fact) {
        return fact < Long.SIZE ? 0 : 1L << fact - Long.SIZE;
    }
}
