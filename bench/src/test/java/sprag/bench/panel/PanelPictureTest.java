package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Objects;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import sprag.bench.car.Lever;
import sprag.bench.docs.Pictures;
import sprag.bench.page.Chromium;
import sprag.bench.panel.web.PanelServer;
import sprag.bench.vehicle.Catalogue;

/**
 * The picture of the high-voltage path in docs is what the panel's own script draws. Only a browser can run that script. The
 * picture holds a check sum of the script and of its rules of style, so that the build notices without a browser when either has changed.
 */
class PanelPictureTest {
    private static final String NAME = "panel-path.svg";
    private static final Pattern RULES = Pattern.compile(
            "^(?:\\.wire|\\.stripe|\\.node|\\.stroke|\\.box|\\.dot|\\.blade|\\.is-closed|\\.differs|\\.label"
                    + "|\\.blown|\\.broken|\\.plug|\\.fuse)[ .,{].*");
    /** Key, brake, Start held; the weld test is over and the bus has risen for a tenth of a second. */
    private static final int INTO_THE_START_MS = 1100;

    private static final int WATCHDOG_S = 300;
    /** Waits for the frame of the precharge, then gives the drawing. */
    private static final String DRAWN = """
        const done = arguments[0];
        const look = () => document.querySelector('#state-name').textContent === 'PRECHARGE'
          ? done(document.querySelector('#diagram svg').outerHTML) : requestAnimationFrame(look);
        look();
        """;

    @TempDir
    Path profile;

    @Test
    void picture_isMadeFromTodaysScriptAndStyle() throws Exception {
        String picture =
                Files.readString(Catalogue.installed().home().resolve("docs").resolve(NAME));
        assertTrue(
                picture.contains(madeFrom()),
                "docs/" + NAME + " is stale; on a machine with chromium: mvn test -Prealtime -Ddocs.update=true");
    }

    @Test
    @Tag("realtime")
    @ResourceLock("chromium")
    void picture_isWhatTheBrowserDraws() throws Exception {
        PanelBench panel = new PanelBench();
        panel.run(100).move(Lever.KEY, 1).move(Lever.BRAKE, 0.5).run(300);
        panel.move(Lever.START, 1).run(INTO_THE_START_MS);
        ChromeDriver browser =
                Chromium.start(new ChromeOptions(), profile, "the picture of the panel was NOT compared");
        try (PanelServer server = new PanelServer(panel.panel, "127.0.0.1", 0)) {
            browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(WATCHDOG_S));
            browser.get(server.link());
            String svg = String.valueOf(browser.executeAsyncScript(DRAWN));
            Pictures.isCurrent(NAME, alone(svg));
        } finally {
            browser.quit();
        }
    }

    private static String alone(String svg) throws Exception {
        String head =
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 780 322\" width=\"780\" height=\"322\" role=\"img\">\n"
                        + madeFrom() + "\n<style>" + style().replace("&", "&amp;") + "</style>\n"
                        + "<rect width=\"780\" height=\"322\" fill=\"var(--card)\"/>\n";
        assertTrue(svg.contains("viewBox=\"0 0 780 322\""), svg.substring(0, 200));
        return head + svg.substring(svg.indexOf('>') + 1).replace("><", ">\n<") + "\n";
    }

    /** The colours of the panel and the rules for its drawing. */
    private static String style() throws IOException {
        String all = read("panel.css");
        StringBuilder rules = new StringBuilder(all.substring(all.indexOf(":root"), all.indexOf("* { box-sizing")));
        for (String line : all.split("\n")) {
            if (RULES.matcher(line).matches()) {
                rules.append(line).append('\n');
            }
        }
        return rules.toString();
    }

    private static String madeFrom() throws Exception {
        MessageDigest digest = MessageDigest.getInstance("SHA-256");
        digest.update(read("diagram.js").getBytes(StandardCharsets.UTF_8));
        digest.update(style().getBytes(StandardCharsets.UTF_8));
        return "<!-- diagram.js and panel.css "
                + HexFormat.of().formatHex(digest.digest()).substring(0, 16) + " -->";
    }

    private static String read(String name) throws IOException {
        try (var in = Objects.requireNonNull(PanelPictureTest.class.getResourceAsStream("/panel/" + name), name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
