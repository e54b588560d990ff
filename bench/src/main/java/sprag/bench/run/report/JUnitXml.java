package sprag.bench.run.report;

import java.io.StringWriter;
import java.util.List;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.ExpectationVerdict.Outcome;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.ScenarioStep;

/** Results in the XML that build servers show: a suite a scenario, a case an expectation. Times are simulated seconds. */
public final class JUnitXml {
    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;

    private JUnitXml() throws XMLStreamException {
        xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
    }

    /** Writes results.
     *
     * @param runs what came of them
     * @return the document
     */
    public static String of(List<RunResult> runs) {
        try {
            JUnitXml document = new JUnitXml();
            document.write(runs);
            return document.text.toString();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("XML refused for " + runs.size() + " runs", e);
        }
    }

    private void write(List<RunResult> runs) throws XMLStreamException {
        xml.writeStartDocument("UTF-8", "1.0");
        xml.writeCharacters("\n");
        xml.writeStartElement("testsuites");
        xml.writeAttribute("name", "sprag run");
        for (RunResult run : runs) {
            suite(run);
        }
        xml.writeCharacters("\n");
        xml.writeEndElement();
        xml.writeCharacters("\n");
        xml.writeEndDocument();
        xml.flush();
    }

    private void suite(RunResult run) throws XMLStreamException {
        String name = run.vehicle() + "." + run.scenario().name();
        int cases = run.judged().size() + run.missed().size() + (run.interrupted() ? 1 : 0);
        long errors = cases - run.count(Outcome.PASS) - run.count(Outcome.FAIL);
        xml.writeCharacters("\n");
        xml.writeStartElement("testsuite");
        xml.writeAttribute("name", name);
        xml.writeAttribute("tests", String.valueOf(cases));
        xml.writeAttribute("failures", String.valueOf(run.count(Outcome.FAIL)));
        xml.writeAttribute("errors", String.valueOf(errors));
        xml.writeAttribute("skipped", "0");
        xml.writeAttribute("time", String.format(Locale.ROOT, "%.3f", run.endMs() / 1000.0));
        for (RunResult.Judged judged : run.judged()) {
            ExpectationVerdict verdict = judged.verdict();
            String margin = verdict.marginText().isEmpty() ? "" : "; margin " + verdict.marginText();
            String wrong = verdict.passed() ? "" : verdict.outcome() == Outcome.FAIL ? "failure" : "error";
            testCase(name, judged.expectation().text(), wrong, verdict.detail() + margin);
        }
        for (ScenarioStep step : run.missed()) {
            testCase(name, "the step \"" + step.name() + "\" is done", "error", Outcomes.missed(step));
        }
        if (run.interrupted()) {
            testCase(name, "the run goes on to its end", "error", "it was stopped before its end");
        }
        xml.writeCharacters("\n");
        xml.writeEndElement();
    }

    private void testCase(String suite, String name, String wrong, String message) throws XMLStreamException {
        xml.writeCharacters("\n");
        xml.writeStartElement("testcase");
        xml.writeAttribute("classname", suite);
        xml.writeAttribute("name", name);
        if (!wrong.isEmpty()) {
            xml.writeEmptyElement(wrong);
            xml.writeAttribute("message", message);
        }
        xml.writeEndElement();
    }
}
