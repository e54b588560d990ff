package sprag.bench.evidence.prove;

import java.io.StringWriter;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/** A proof in the XML that build servers show: a case a promise, one for completeness, one for dead logic, one for each necessity. */
final class ProofXml {
    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;
    private final String vehicle;

    private ProofXml(String vehicle) throws XMLStreamException {
        this.vehicle = vehicle;
        xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
    }

    /** The document.
     *
     * @param necessity null when it was not asked for
     */
    static String of(String vehicle, Proof proof, Necessity necessity, double seconds) {
        try {
            ProofXml document = new ProofXml(vehicle);
            document.write(proof, necessity, seconds);
            return document.text.toString();
        } catch (XMLStreamException e) {
            throw new IllegalStateException(
                    "XML refused for " + proof.verdicts().size() + " promises", e);
        }
    }

    private void write(Proof proof, Necessity necessity, double seconds) throws XMLStreamException {
        int tests = proof.verdicts().size()
                + 2
                + (necessity == null ? 0 : necessity.rows().size());
        int failures = proof.broken().size()
                + (proof.complete() ? 0 : 1)
                + (proof.unreached().isEmpty() ? 0 : 1)
                + (necessity == null ? 0 : necessity.findings().size());
        xml.writeStartDocument("UTF-8", "1.0");
        xml.writeCharacters("\n");
        xml.writeStartElement("testsuites");
        xml.writeAttribute("name", "sprag prove");
        xml.writeCharacters("\n");
        xml.writeStartElement("testsuite");
        xml.writeAttribute("name", "prove." + vehicle);
        xml.writeAttribute("tests", String.valueOf(tests));
        xml.writeAttribute("failures", String.valueOf(failures));
        xml.writeAttribute("errors", "0");
        xml.writeAttribute("skipped", "0");
        xml.writeAttribute("time", String.format(Locale.ROOT, "%.3f", seconds));
        testCase("every reachable state was visited", proof.complete() ? "" : "a limit was met");
        testCase(
                "everything that is written can happen",
                proof.unreached().isEmpty() ? "" : proof.unreached().toString());
        for (Proof.Verdict verdict : proof.verdicts()) {
            testCase(verdict.hazard() + " " + verdict.id(), verdict.holds() ? "" : broken(verdict));
        }
        if (necessity != null) {
            for (Necessity.Row row : necessity.rows()) {
                testCase("needed: " + row.what(), row.finding() ? "taking it out breaks no promise" : "");
            }
        }
        xml.writeCharacters("\n");
        xml.writeEndElement();
        xml.writeCharacters("\n");
        xml.writeEndElement();
        xml.writeCharacters("\n");
        xml.writeEndDocument();
        xml.flush();
    }

    private static String broken(Proof.Verdict verdict) {
        Counterexample story = verdict.story().orElseThrow();
        StringBuilder told = new StringBuilder(verdict.explanation());
        for (Counterexample.Chapter chapter : story.chapters()) {
            told.append("; ").append(ProofWords.ticks(chapter)).append(": ");
            told.append(ProofWords.facts(chapter.changed())).append(" -> ").append(ProofWords.deed(chapter.shown()));
        }
        return told.toString();
    }

    private void testCase(String name, String wrong) throws XMLStreamException {
        xml.writeCharacters("\n");
        xml.writeStartElement("testcase");
        xml.writeAttribute("classname", "prove." + vehicle);
        xml.writeAttribute("name", name);
        if (!wrong.isEmpty()) {
            xml.writeEmptyElement("failure");
            xml.writeAttribute("message", wrong);
        }
        xml.writeEndElement();
    }
}
