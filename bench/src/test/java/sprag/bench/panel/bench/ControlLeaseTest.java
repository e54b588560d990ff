package sprag.bench.panel.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** One page in control at a time. */
final class ControlLeaseTest {
    private static final long A = 1;
    private static final long B = 2;
    private static final long MS = 1_000_000;
    private final ControlLease helm = new ControlLease();

    private void speaking(long fromMs, long toMs) {
        for (long ms = fromMs; ms <= toMs; ms += 100) {
            helm.heard(A, ms * MS);
            helm.watch(ms * MS);
        }
    }

    @Test
    void nobodyInControl_firstToAsk_getsIt() {
        helm.ask(A, true, 0);
        assertTrue(helm.holds(A));
        assertFalse(helm.holds(B));
    }

    @Test
    void held_anotherAsks_theHolderDecides() {
        helm.ask(A, true, 0);
        helm.ask(B, true, 0);
        assertTrue(helm.holds(A));
        assertTrue(helm.isAsking(B));
        helm.keep(A);
        assertFalse(helm.isAsking(B));
        helm.ask(B, true, 0);
        helm.yield(A, 0);
        assertTrue(helm.holds(B));
    }

    @Test
    void asked_anotherPageThanTheHolderAnswers_changesNothing() {
        helm.ask(A, true, 0);
        helm.ask(B, true, 0);
        helm.yield(B, 0);
        helm.keep(B);
        assertTrue(helm.holds(A));
        assertTrue(helm.isAsking(B));
    }

    @Test
    void asked_holderDoesNotAnswer_changesHandsAfterTheStatedTimeAndNotBefore() {
        helm.ask(A, true, 0);
        helm.ask(B, true, 0);
        speaking(0, ControlLease.ANSWER_MS);
        assertTrue(helm.holds(A));
        speaking(ControlLease.ANSWER_MS + 100, ControlLease.ANSWER_MS + 100);
        assertTrue(helm.holds(B));
    }

    @Test
    void asked_pageThatDoesNotInsist_notAnswered_questionLapsesAfterTheStatedTimeAndTheHolderKeepsControl() {
        helm.ask(A, true, 0);
        helm.ask(B, false, 0);
        speaking(0, ControlLease.ANSWER_MS);
        assertTrue(helm.isAsking(B));
        speaking(ControlLease.ANSWER_MS + 100, ControlLease.ANSWER_MS + 100);
        assertFalse(helm.isAsking(B));
        assertTrue(helm.holds(A));
    }

    @Test
    void asked_anotherAsksToo_isToldThatItsQuestionDoesNotStand() {
        long third = 3;
        assertTrue(helm.ask(A, true, 0));
        assertTrue(helm.ask(B, false, 0));
        assertTrue(helm.ask(B, false, 0));
        assertFalse(helm.ask(third, true, 0));
        assertTrue(helm.isAsking(B));
    }

    @Test
    void holderSilent_watched_losesControlAfterTheStatedTimeAndNotBefore() {
        helm.ask(A, true, 0);
        helm.watch(ControlLease.SILENT_MS * MS);
        assertTrue(helm.holds(A));
        helm.watch(ControlLease.SILENT_MS * MS + 1);
        assertFalse(helm.isHeld());
        assertTrue(helm.lost().contains("1.5 s"), helm.lost());
    }

    @Test
    void aWatcherSpeaks_whileTheHolderIsSilent_doesNotHelpTheHolder() {
        helm.ask(A, true, 0);
        helm.heard(B, ControlLease.SILENT_MS * MS);
        helm.watch(ControlLease.SILENT_MS * MS + 1);
        assertFalse(helm.isHeld());
    }

    @Test
    void everyChangeOfHands_beginsANewTerm() {
        helm.ask(A, true, 0);
        int first = helm.term();
        helm.ask(B, true, 0);
        helm.yield(A, 0);
        helm.left(B, 0);
        assertEquals(first + 2, helm.term());
        assertFalse(helm.isHeld());
    }

    @Test
    void askerLeaves_holderAnswers_nobodyIsInControl() {
        helm.ask(A, true, 0);
        helm.ask(B, true, 0);
        helm.left(B, 0);
        helm.yield(A, 0);
        assertFalse(helm.isHeld());
    }
}
