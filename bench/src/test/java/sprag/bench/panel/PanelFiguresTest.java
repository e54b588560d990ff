package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.TestReporter;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import sprag.bench.loop.record.Recordings;
import sprag.bench.page.Chromium;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.session.Subject;
import sprag.bench.panel.web.Panel;
import sprag.bench.panel.web.PanelServer;
import sprag.hal.Clock;

/** Measures what the panel's page costs, for the table in docs/panel.md. Frames a second depend on the machine: by hand only. */
@Tag("manual")
@ResourceLock("chromium")
class PanelFiguresTest {
    private static final long NEVER_SILENT_MS = 86_400_000;
    private static final double MOST_SHIFT = 0.1;
    private static final int WATCHDOG_S = 300;
    /** Counts what comes over the live wire and how much of the page jumps unasked, from the first moment on. */
    private static final String COUNTS = """
        window.seen = {hello: 0, frames: 0, shift: 0, moved: []};
        const Plain = window.WebSocket;
        window.WebSocket = class extends Plain {
          constructor(...words) {
            super(...words);
            this.addEventListener('message', event => {
              if (typeof event.data === 'string') {
                if (!seen.hello) seen.hello = new TextEncoder().encode(event.data).length;
              } else {
                seen.frames++;
              }
            });
          }
        };
        new PerformanceObserver(list => {
          for (const entry of list.getEntries()) {
            if (entry.hadRecentInput) continue;
            seen.shift += entry.value;
            seen.moved.push(entry.value.toFixed(3) + ' ' + entry.sources.map(s => s.node?.id || s.node?.className || s.node?.nodeName));
          }
        }).observe({type: 'layout-shift', buffered: true});
        """;
    /** Counts for ten seconds. */
    private static final String COUNTED = """
        const done = arguments[0];
        const wait = ms => new Promise(go => setTimeout(go, ms));
        (async () => {
          const began = performance.now(), frames = seen.frames;
          let painted = 0;
          const paint = () => { painted++; requestAnimationFrame(paint); };
          requestAnimationFrame(paint);
          await wait(10000);
          const s = (performance.now() - began) / 1000;
          const files = performance.getEntries().filter(e => 'transferSize' in e);
          done(JSON.stringify({
            files: files.reduce((sum, e) => sum + e.encodedBodySize, 0),
            plain: files.reduce((sum, e) => sum + e.decodedBodySize, 0),
            hello: seen.hello, shift: seen.shift, moved: seen.moved.slice(0, 5), frames: (seen.frames - frames) / s, painted: painted / s}));
        })();
        """;

    @TempDir
    Path profile;

    @ParameterizedTest
    @CsvSource({"1920,1080", "1280,800", "400,800", "800,400"})
    void page_isMeasured(int width, int height, TestReporter report) throws Exception {
        Panel panel = new Panel(
                new Subject(PanelBench.vehicle("parcel-van"), null, null),
                Clock.real(),
                List.of(),
                new ControlLease(NEVER_SILENT_MS),
                Recordings.none());
        ChromeDriver browser = Chromium.start(new ChromeOptions(), profile, "nothing was measured");
        Thread bench = new Thread(panel.thread());
        try (PanelServer server = new PanelServer(panel, "127.0.0.1", 0)) {
            bench.start();
            browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(WATCHDOG_S));
            browser.executeCdpCommand("Page.addScriptToEvaluateOnNewDocument", Map.of("source", COUNTS));
            browser.executeCdpCommand(
                    "Emulation.setDeviceMetricsOverride",
                    Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", width < 900));
            browser.get(server.link());
            PanelInABrowser.await(
                    "the page is whole",
                    () -> browser.findElement(By.id("tab-charts")).isDisplayed());
            for (String tab : List.of("interlocks", "faults", "signals", "scenarios", "charts")) {
                browser.findElement(By.id("tab-" + tab)).sendKeys(Keys.ENTER); // a key is never covered
            }
            String found = String.valueOf(browser.executeAsyncScript(COUNTED));
            double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
            report.publishEntry(width + " x " + height, found + String.format(Locale.ROOT, " load %.1f", load));
            double shift = Double.parseDouble(found.replaceAll(".*\"shift\":([-0-9.e]+).*", "$1"));
            assertTrue(shift < MOST_SHIFT, found);
        } finally {
            browser.quit();
            panel.thread().stop();
            bench.join();
        }
    }
}
