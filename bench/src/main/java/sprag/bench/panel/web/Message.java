package sprag.bench.panel.web;

import sprag.bench.panel.bench.Order;

/** What a page may say: an order for the bench, or a word about who is in control. */
sealed interface Message {
    /** An order for the bench. */
    record Ordered(Order order) implements Message {}

    /** The teacher gives control to a page. */
    record Handed(long page) implements Message {}

    /** The page says who sits before it. */
    record Named(String name) implements Message {}

    /** A word about who is in control. */
    enum Word implements Message {
        /** The page is there and answers. */
        ALIVE,
        /** It wants control. */
        ASK,
        /** It takes control without asking: for the teacher alone. */
        TAKE,
        /** It gives control to whoever asked. */
        YIELD,
        /** It keeps control. */
        KEEP
    }
}
