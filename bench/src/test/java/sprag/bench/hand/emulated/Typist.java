package sprag.bench.hand.emulated;

/** Answers each question of a bring-up once, as its text says, without doing anything at the car. */
final class Typist {
    /** How a whole question ends. Other lines end in other ways, and output arrives in pieces that end anywhere. */
    private static final String CURSOR = ":\n    ";

    private static final String QUESTION = "\n> ";

    private final Program program;
    private int answeredTo;

    Typist(Program program) {
        this.program = program;
    }

    /** Types an answer when one is waited for. */
    void answer() {
        String said = program.said();
        int begins = said.lastIndexOf(QUESTION);
        if (begins >= answeredTo && said.endsWith(CURSOR)) {
            answeredTo = said.length();
            program.type(to(said.substring(begins).replaceAll("\\s+", " ")));
        }
    }

    private static String to(String question) {
        if (question.contains("y or n")) {
            return "y";
        }
        if (question.contains("Type \"")) {
            return question.replaceAll(".*Type \"([a-z]+)\".*", "$1");
        }
        if (question.contains("Then press Enter")) {
            return "";
        }
        if (question.contains("wire")) {
            return "2.5";
        }
        if (question.contains("end ")) {
            return "60";
        }
        return question.contains("greatest voltage")
                ? "0"
                : question.contains("least resistance")
                        ? "2000"
                        : question.contains("greatest resistance") ? "0.02" : question.contains("5 V") ? "5" : "12.6";
    }
}
