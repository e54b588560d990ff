package sprag.bench.panel.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;

/**
 * A link for other people's pages.
 *
 * @param words what it allows
 */
public record Invitation(String words, String url) {
    /** All of them with their QR codes, as the teacher's page reads them. */
    static String write(List<Invitation> invitations) {
        ObjectMapper json = new ObjectMapper();
        ObjectNode message = json.createObjectNode().put("t", "invitations");
        ArrayNode all = message.putArray("invitations");
        for (Invitation each : invitations) {
            ObjectNode node = all.addObject().put("words", each.words()).put("url", each.url());
            ArrayNode rows = node.putArray("qr");
            QrCode.rows(each.url()).forEach(rows::add);
        }
        try {
            return json.writeValueAsString(message);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("links could not be written: " + invitations.size(), e);
        }
    }
}
