package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import sprag.bench.Sprag;
import sprag.bench.loop.record.Recordings;
import sprag.bench.page.Chromium;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.session.Subject;
import sprag.bench.panel.web.Panel;
import sprag.bench.panel.web.PanelServer;
import sprag.bench.site.Site;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Clock;

/** Every page that the program writes or serves, examined by axe-core with all of its rules: it must find nothing. */
@Tag("manual")
@ResourceLock("chromium")
class AccessibilityTest {
    private static final String EXAMINE = """
        const done = arguments[arguments.length - 1];
        axe.run(document, {resultTypes: ['violations']}).then(
          found => done(found.violations.map(v => v.id + ' x ' + v.nodes.length + ': '
            + v.nodes.slice(0, 2).map(n => n.html.slice(0, 160) + ' | '
              + n.failureSummary.replace(/\\s+/g, ' ').slice(0, 260)).join(' || '))),
          error => done(['axe-core failed: ' + error]));
        """;

    @TempDir
    static Path folder;

    private static ChromeDriver browser;
    private static String axe;

    @BeforeAll
    static void startBrowser() throws IOException {
        browser = Chromium.start(new ChromeOptions(), folder.resolve("browser"), "no page was examined");
        try (InputStream script = AccessibilityTest.class.getResourceAsStream("/axe.min.js")) {
            axe = new String(Objects.requireNonNull(script, "axe.min.js").readAllBytes(), StandardCharsets.UTF_8);
        }
        browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(300));
    }

    @AfterAll
    static void stopBrowser() {
        if (browser != null) {
            browser.quit();
        }
    }

    /** What is found at each width, in the light and in the dark. */
    private static List<String> findings(String where) {
        List<String> found = new ArrayList<>();
        for (int width : new int[] {1280, 400}) {
            browser.executeCdpCommand(
                    "Emulation.setDeviceMetricsOverride",
                    Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
            for (String scheme : List.of("light", "dark")) {
                browser.executeCdpCommand(
                        "Emulation.setEmulatedMedia",
                        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
                ((List<?>) Objects.requireNonNull(browser.executeAsyncScript(EXAMINE)))
                        .forEach(each -> found.add(where + ", " + scheme + " at " + width + " px: " + each));
            }
        }
        return found;
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "run parcel-van drive-and-stop",
                "check parcel-van",
                "live yard-cart",
                "draw yard-cart",
                "book yard-cart",
                "prove yard-cart --max-states 2000",
                "campaign yard-cart --only cruising",
                "margin yard-cart --cars 20",
                "commission yard-cart --rehearse"
            })
    void pagesOfACommand_examined_nothingFound(String command) throws IOException {
        Path out = folder.resolve(command.replaceAll("\\W+", "-"));
        List<String> words = new ArrayList<>(List.of(command.split(" ")));
        words.addAll(List.of("--out", out.toString()));
        StringWriter said = new StringWriter();
        Sprag.commandLine()
                .setOut(new PrintWriter(said))
                .setErr(new PrintWriter(said))
                .execute(words.toArray(new String[0]));
        assertEquals(List.of(), examineAll(out), said::toString);
    }

    @Test
    void documentsAsASite_examined_nothingFound() throws IOException {
        Path out = folder.resolve("site");
        Site.main(Catalogue.installed().home().toString(), out.toString());
        assertEquals(List.of(), examineAll(out));
    }

    private static List<String> examineAll(Path out) throws IOException {
        List<Path> pages;
        try (Stream<Path> files = Files.walk(out)) {
            pages = files.filter(file -> file.toString().endsWith(".html"))
                    .sorted()
                    .toList();
        }
        assertTrue(!pages.isEmpty(), "no page in " + out);
        List<String> found = new ArrayList<>();
        for (Path page : pages) {
            browser.get(page.toUri().toString());
            browser.executeScript(axe);
            found.addAll(findings(page.getFileName().toString()));
        }
        return found;
    }

    @Test
    void panel_everyTab_nothingFound() throws Exception {
        Panel panel = new Panel(
                new Subject(VehicleReader.read(Catalogue.installed().vehicle("parcel-van")), null, null),
                Clock.real(),
                List.of(),
                new ControlLease(),
                Recordings.none());
        Thread bench = new Thread(panel.thread());
        try (PanelServer server = new PanelServer(panel, "127.0.0.1", 0)) {
            bench.start();
            browser.get(server.link());
            browser.executeCdpCommand("Runtime.evaluate", Map.of("expression", axe));
            List<String> found = new ArrayList<>();
            for (String tab : List.of("charts", "interlocks", "faults", "signals", "scenarios")) {
                browser.executeScript("document.getElementById('tab-" + tab + "').click()");
                found.addAll(findings("tab " + tab));
            }
            browser.executeScript("document.getElementById('tab-charts').click();"
                    + " document.querySelector('[data-lever=key][data-to=\"1\"]').click()");
            browser.executeAsyncScript("const done = arguments[0]; const look = () =>"
                    + " document.querySelector('.event') ? done() : setTimeout(look, 50); look();");
            browser.executeScript("document.querySelector('.event').click()");
            found.addAll(findings("a moment of the past"));
            browser.executeScript("document.getElementById('project').click()");
            found.addAll(findings("projected, in the past"));
            browser.executeScript("document.getElementById('then-now').click()");
            found.addAll(findings("projected"));
            browser.executeScript(
                    "document.getElementById('project').click(); document.getElementById('class').click()");
            found.addAll(findings("class"));
            assertEquals(List.of(), found);
        } finally {
            browser.get("about:blank");
            panel.thread().stop();
            bench.join();
        }
    }
}
