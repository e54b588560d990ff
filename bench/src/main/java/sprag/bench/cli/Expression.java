package sprag.bench.cli;

import java.util.function.ToDoubleFunction;

/**
 * A number worked out from names: {@code + - * /}, brackets, {@code min(a, b)}, {@code max(a, b)}, {@code sqrt(a)} and
 * the natural logarithm {@code ln(a)}.
 *
 * <p>{@code min(15, 0.8 * drive.max_kph)} is 11.2 for a car of 14 km/h.
 */
public final class Expression {
    /** Longer texts are no sum of a person; it also bounds how deep brackets can go. */
    private static final int LONGEST = 300;

    private final String text;
    private final ToDoubleFunction<String> named;
    private int at;

    private Expression(String text, ToDoubleFunction<String> named) {
        this.text = text;
        this.named = named;
    }

    /**
     * Works it out.
     *
     * @param text such as {@code 1.2 * full_s + 10800}
     * @param named the value of a name; throws {@link IllegalArgumentException} with a sentence for one it does not know
     * @return a finite number
     * @throws IllegalArgumentException with a sentence that says what is wrong
     */
    public static double value(String text, ToDoubleFunction<String> named) {
        if (text.length() > LONGEST) {
            throw new IllegalArgumentException(
                    "It has " + text.length() + " letters; at most " + LONGEST + " are read.");
        }
        Expression expression = new Expression(text, named);
        double value = expression.sum();
        if (expression.peek() != 0) {
            throw expression.wrong("an operator");
        }
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("It has no finite value.");
        }
        return value;
    }

    private double sum() {
        double value = product();
        while (peek() == '+' || peek() == '-') {
            value += text.charAt(at++) == '+' ? product() : -product();
        }
        return value;
    }

    private double product() {
        double value = factor();
        while (peek() == '*' || peek() == '/') {
            value = text.charAt(at++) == '*' ? value * factor() : value / factor();
        }
        return value;
    }

    private double factor() {
        char next = peek();
        if (next == '-') {
            at++;
            return -factor();
        }
        if (next == '(') {
            at++;
            double value = sum();
            expect(')');
            return value;
        }
        String word = word();
        if (word.isEmpty()) {
            throw wrong("a number, a name or a bracket");
        }
        if (word.equals("ln") || word.equals("sqrt")) {
            expect('(');
            double of = sum();
            expect(')');
            return word.equals("ln") ? Math.log(of) : Math.sqrt(of);
        }
        if (word.equals("min") || word.equals("max")) {
            expect('(');
            double one = sum();
            expect(',');
            double other = sum();
            expect(')');
            return word.equals("min") ? Math.min(one, other) : Math.max(one, other);
        }
        return word.matches("\\d+(\\.\\d+)?") ? Double.parseDouble(word) : named.applyAsDouble(word);
    }

    private String word() {
        int from = at;
        while (at < text.length()
                && (Character.isLetterOrDigit(text.charAt(at)) || "._".indexOf(text.charAt(at)) >= 0)) {
            at++;
        }
        return text.substring(from, at);
    }

    private void expect(char sign) {
        if (peek() != sign) {
            throw wrong("\"" + sign + "\"");
        }
        at++;
    }

    /** The next letter that is no blank; 0 at the end. */
    private char peek() {
        while (at < text.length() && text.charAt(at) == ' ') {
            at++;
        }
        return at < text.length() ? text.charAt(at) : 0;
    }

    private IllegalArgumentException wrong(String wanted) {
        String seen = at < text.length() ? "\"" + text.charAt(at) + "\"" : "its end";
        return new IllegalArgumentException("At letter " + (at + 1) + ", " + seen + ", " + wanted + " was expected.");
    }
}
