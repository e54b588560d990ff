package sprag.bench.page;

import java.io.StringWriter;
import java.util.List;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/** Writes results in the XML that build servers show. */
public final class JUnitXml {
    /** What came of a case. */
    public enum Outcome {
        /** As expected. */
        PASSED(""),
        /** Not as expected. */
        FAILED("failure"),
        /** It could not be judged. */
        ERROR("error"),
        /** It was not judged, on purpose. */
        SKIPPED("skipped");

        private final String element;

        Outcome(String element) {
            this.element = element;
        }
    }

    /**
     * One case.
     *
     * @param group what it belongs to; build servers show it as the class
     * @param message why it did not pass; empty for none
     */
    public record Case(String group, String name, Outcome outcome, String message) {}

    /**
     * Several cases.
     *
     * @param seconds how long they took; NaN when that says nothing
     */
    public record Suite(String name, double seconds, List<Case> cases) {
        private String count(Outcome outcome) {
            return Long.toString(
                    cases.stream().filter(each -> each.outcome() == outcome).count());
        }
    }

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;

    private JUnitXml() throws XMLStreamException {
        xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
    }

    /** Writes results. */
    public static String of(String name, List<Suite> suites) {
        try {
            JUnitXml document = new JUnitXml();
            document.write(name, suites);
            return document.text.toString();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("the XML writer refused the results of " + name, e);
        }
    }

    private void write(String name, List<Suite> suites) throws XMLStreamException {
        xml.writeStartDocument("UTF-8", "1.0");
        begin("testsuites", "name", name);
        for (Suite suite : suites) {
            suite(suite);
        }
        end();
        xml.writeCharacters("\n");
        xml.writeEndDocument();
        xml.flush();
    }

    private void suite(Suite suite) throws XMLStreamException {
        begin(
                "testsuite",
                "name",
                suite.name(),
                "tests",
                String.valueOf(suite.cases().size()));
        attributes("failures", suite.count(Outcome.FAILED), "errors", suite.count(Outcome.ERROR));
        attributes("skipped", suite.count(Outcome.SKIPPED));
        if (!Double.isNaN(suite.seconds())) {
            attributes("time", String.format(Locale.ROOT, "%.3f", suite.seconds()));
        }
        for (Case each : suite.cases()) {
            begin("testcase", "classname", each.group(), "name", each.name());
            if (each.outcome() != Outcome.PASSED) {
                xml.writeEmptyElement(each.outcome().element);
                if (!each.message().isEmpty()) {
                    attributes("message", each.message());
                }
            }
            xml.writeEndElement();
        }
        end();
    }

    private void begin(String element, String... attributes) throws XMLStreamException {
        xml.writeCharacters("\n");
        xml.writeStartElement(element);
        attributes(attributes);
    }

    private void attributes(String... namesAndValues) throws XMLStreamException {
        for (int i = 0; i < namesAndValues.length; i += 2) {
            xml.writeAttribute(namesAndValues[i], namesAndValues[i + 1]);
        }
    }

    private void end() throws XMLStreamException {
        xml.writeCharacters("\n");
        xml.writeEndElement();
    }
}
