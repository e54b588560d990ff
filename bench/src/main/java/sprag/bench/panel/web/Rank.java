package sprag.bench.panel.web;

/** What the link allows by which a page has come. Each rank has a token of its own. */
enum Rank {
    /** The link that was printed first: may ask for control, take it at once, and hand it to a seat. */
    TEACHER("for you: may take control and hand it out"),
    /** May ask for control. */
    DRIVER("may ask for control"),
    /** Never gets control, whatever it asks. */
    ONLOOKER("looks on, never gets control");

    /** The same for people. */
    final String words;

    Rank(String words) {
        this.words = words;
    }
}
