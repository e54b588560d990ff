package sprag.bench.evidence.campaign;

import java.io.StringWriter;
import java.util.List;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import sprag.bench.evidence.campaign.FaultOutcome.Verdict;

/** A campaign in the XML that build servers show: a case a run, failed when it could hurt or came late. */
final class CampaignXml {
    private CampaignXml() {}

    static String of(String vehicle, List<FaultOutcome> outcomes) {
        StringWriter text = new StringWriter();
        try {
            XMLStreamWriter xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
            long failures = outcomes.stream().filter(CampaignXml::failed).count();
            long skipped = outcomes.stream()
                    .filter(o -> o.verdict() == Verdict.DORMANT)
                    .count();
            xml.writeStartDocument("UTF-8", "1.0");
            xml.writeStartElement("testsuite");
            xml.writeAttribute("name", "campaign." + vehicle);
            xml.writeAttribute("tests", String.valueOf(outcomes.size()));
            xml.writeAttribute("failures", String.valueOf(failures));
            xml.writeAttribute("errors", "0");
            xml.writeAttribute("skipped", String.valueOf(skipped));
            for (FaultOutcome o : outcomes) {
                one(xml, o);
            }
            xml.writeEndElement();
            xml.writeEndDocument();
            xml.flush();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("XML refused for " + outcomes.size() + " outcomes", e);
        }
        return text.toString();
    }

    private static void one(XMLStreamWriter xml, FaultOutcome o) throws XMLStreamException {
        xml.writeCharacters("\n");
        xml.writeStartElement("testcase");
        xml.writeAttribute("classname", o.vehicle() + "." + o.moment());
        xml.writeAttribute("name", o.fault());
        if (failed(o)) {
            xml.writeEmptyElement("failure");
            xml.writeAttribute(
                    "message",
                    o.verdict() + ", noticed by " + (o.interlock().isEmpty() ? "nothing" : o.interlock()) + ", margin "
                            + Math.round(o.marginMs()) + " ms, harm: " + CampaignPage.harm(o));
        } else if (o.verdict() == Verdict.DORMANT) {
            xml.writeEmptyElement("skipped");
        }
        xml.writeEndElement();
    }

    private static boolean failed(FaultOutcome o) {
        return o.isFinding();
    }
}
