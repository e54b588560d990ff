package sprag.bench.review.wiring;

import sprag.bench.review.wiring.schedule.PartKind;

/** The rules and the kinds of parts as Markdown, for the reference in the docs. */
public final class RuleList {
    private RuleList() {}

    /** Every rule. Returns a table, one row a rule. */
    public static String rules() {
        StringBuilder text = new StringBuilder("| id | weight | why | source |\n|---|---|---|---|\n");
        for (Rule rule : Rule.values()) {
            text.append("| `")
                    .append(rule.id())
                    .append("` | ")
                    .append(rule.weight.word())
                    .append(" | ")
                    .append(rule.why)
                    .append(" | ")
                    .append(rule.source)
                    .append(" |\n");
        }
        return text.toString();
    }

    /** Every kind of part. Returns a table, one row a kind. */
    public static String kinds() {
        StringBuilder text = new StringBuilder(
                "| kind | told by these words of a name | terminals that the rules know |\n|---|---|---|\n");
        for (PartKind kind : PartKind.values()) {
            text.append("| `")
                    .append(kind.word())
                    .append("` | ")
                    .append(String.join(", ", kind.hints()))
                    .append(" | ")
                    .append(kind.terminals)
                    .append(" |\n");
        }
        return text.toString();
    }
}
