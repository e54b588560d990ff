package sprag.bench.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.panel.web.Beside;
import sprag.bench.panel.web.Panel;
import sprag.bench.panel.web.PanelServer;
import sprag.hal.Clock;

/** A lesson beside the car, asked over a real server on the loopback address. */
class LessonBesideTest {
    @TempDir
    Path folder;

    private final HttpClient client = HttpClient.newHttpClient();

    private PanelServer serve(Beside beside) throws Exception {
        Panel panel = new Panel(new Given(Lessons.of(2)).firstCar(), null, Clock.real(), List.of());
        return new PanelServer(panel, "127.0.0.1", 0, beside);
    }

    private Beside lesson() throws Exception {
        Path kept = folder.resolve("p.toml");
        return new LessonBeside(new Given(Lessons.of(2)), Progress.of(kept, "Ada"), kept);
    }

    private HttpResponse<String> get(PanelServer server, String query, boolean withToken) throws Exception {
        URI link = URI.create(server.link());
        HttpRequest.Builder request = HttpRequest.newBuilder(
                URI.create("http://" + link.getHost() + ":" + link.getPort() + "/beside.json" + query));
        if (withToken) {
            request.header("Authorization", "Bearer " + link.getFragment());
        }
        return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private JsonNode answer(PanelServer server, int place, String typed) throws Exception {
        String query = "?place=" + place + "&typed=" + URLEncoder.encode(typed, StandardCharsets.UTF_8);
        HttpResponse<String> response = get(server, query, true);
        assertEquals(200, response.statusCode(), response.body());
        return new ObjectMapper().readTree(response.body());
    }

    private static String words(JsonNode reply) {
        return reply.get("reply").findValuesAsText("text").toString();
    }

    @Test
    void lesson_isAskedAndAnswered_asOnTheTerminal() throws Exception {
        try (PanelServer server = serve(lesson())) {
            JsonNode text = new ObjectMapper().readTree(get(server, "", true).body());
            assertEquals("The shape of a start", text.get("title").asText());
            assertFalse(text.toString().contains("explain"), "the explanation comes after the guess");
            assertFalse(text.toString().contains("{{"), text::toString);
            JsonNode guess = answer(server, 0, "c");
            assertFalse(guess.get("right").asBoolean());
            assertTrue(guess.get("explain").toString().contains("R C from the files"), guess::toString);
            assertTrue(answer(server, 0, "").get("explain").size() > 3, "who does not guess may read on");
            assertTrue(words(answer(server, 1, "25")).contains("You multiplied"));
            assertTrue(words(answer(server, 1, "hint 1")).contains("Hint 1 of 2"));
            assertTrue(words(answer(server, 1, "hint 3")).contains("no further hint"));
            JsonNode right = answer(server, 1, "2500");
            assertTrue(right.get("right").asBoolean() && words(right).contains("Right. "), right::toString);
            assertTrue(words(answer(server, 2, "skip")).contains("U / R"));
            Progress kept = Progress.of(folder.resolve("p.toml"), null);
            assertEquals(1, kept.done("shape-of-a-start"));
            assertEquals(2, kept.of("shape-of-a-start", 1).orElseThrow().hints(), "hint 3 is none");
            assertTrue(kept.of("shape-of-a-start", 2).orElseThrow().hints() > 0, "the answer was shown");
        }
    }

    @Test
    void questions_strange_getASentence() throws Exception {
        try (PanelServer server = serve(lesson())) {
            for (String typed : List.of("", "\u0000", "<script>", "hint 99999", "x".repeat(3000))) {
                JsonNode reply = answer(server, 1, typed);
                assertFalse(reply.get("right").asBoolean());
                assertTrue(words(reply).length() > 10, reply::toString);
            }
            assertTrue(words(answer(server, 99, "1")).contains("no such question"));
            assertEquals(200, get(server, "?place=-1&typed=1", true).statusCode());
        }
    }

    @Test
    void request_withoutToken_isTurnedAway() throws Exception {
        try (PanelServer server = serve(lesson())) {
            assertEquals(401, get(server, "", false).statusCode());
            assertEquals(401, get(server, "?place=1&typed=2500", false).statusCode());
        }
        assertFalse(Files.exists(folder.resolve("p.toml")));
    }

    @Test
    void panel_withoutLesson_hasNothingBeside() throws Exception {
        try (PanelServer server = serve(null)) {
            assertEquals("{}", get(server, "", true).body());
        }
    }

    @Test
    void answer_thatCannotBeKept_isMarkedAndSaysSo() throws Exception {
        Path kept = folder.resolve("no").resolve("such").resolve("p.toml");
        Beside beside = new LessonBeside(new Given(Lessons.of(2)), Progress.of(kept, "Ada"), kept);
        assertTrue(beside.answer(1, "2500").contains("The answer is not kept"));
    }
}
