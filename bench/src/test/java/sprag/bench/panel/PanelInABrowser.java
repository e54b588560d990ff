package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import sprag.bench.car.Lever;
import sprag.bench.loop.record.Recordings;
import sprag.bench.page.Chromium;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.bench.FrameLayout.Section;
import sprag.bench.panel.session.Source;
import sprag.bench.panel.session.Subject;
import sprag.bench.panel.web.Panel;
import sprag.bench.panel.web.PanelServer;
import sprag.hal.Clock;
import sprag.supervisor.vocabulary.Signal;

/** A panel whose page is open in a real browser without a screen, with the helpers of the tests that use it. The bench runs in real time. */
@Tag("realtime")
@ResourceLock("chromium")
abstract class PanelInABrowser {
    /** A watchdog against a hang. Every test waits for an event, and how long that takes decides nothing. */
    private static final long PATIENCE_S = 300;
    /** Longer than any test: silence takes no control away here. */
    private static final long NEVER_SILENT_MS = 86_400_000;

    static ChromeDriver browser;

    Panel panel;
    PanelServer server;
    Thread bench;
    /** Holds the bench up so long, once. */
    volatile long holdUpMs;

    /** The real clock, with which a wait can be made to take longer once. */
    private final class HeldUpClock implements Clock {
        private final Clock real = Clock.real();

        @Override
        public long nowNs() {
            return real.nowNs();
        }

        @Override
        public void waitUntil(long deadlineNs) {
            long longerMs = holdUpMs;
            holdUpMs = 0;
            real.waitUntil(deadlineNs + longerMs * 1_000_000);
        }
    }

    @BeforeAll
    static void startBrowser() throws IOException {
        ChromeOptions options = new ChromeOptions();
        LoggingPreferences logs = new LoggingPreferences();
        logs.enable(LogType.BROWSER, java.util.logging.Level.ALL);
        options.setCapability("goog:loggingPrefs", logs);
        browser = Chromium.start(
                options, Files.createTempDirectory("panel-page"), "the panel's page was NOT tried in a browser");
        browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(PATIENCE_S));
    }

    @AfterAll
    static void stopBrowser() {
        if (browser != null) {
            browser.quit();
        }
    }

    @BeforeEach
    void open() throws InterruptedException {
        panel = new Panel(
                new Subject(PanelBench.vehicle("parcel-van"), null, null),
                new HeldUpClock(),
                List.of(),
                new ControlLease(NEVER_SILENT_MS),
                Recordings.none());
        server = new PanelServer(panel, "127.0.0.1", 0);
        bench = new Thread(panel.thread());
        bench.start();
        size(1280, 800);
        browser.get(server.link());
        await("the page is in control", () -> text("#role").equals("You are in control"));
    }

    @AfterEach
    void close() throws InterruptedException {
        browser.executeCdpCommand("Emulation.setTouchEmulationEnabled", Map.of("enabled", false));
        browser.get("about:blank");
        panel.thread().stop();
        bench.join();
        server.close();
        List<String> complaints = browser.manage().logs().get(LogType.BROWSER).getAll().stream()
                .filter(entry -> entry.getLevel().intValue() >= java.util.logging.Level.WARNING.intValue())
                .map(LogEntry::getMessage)
                .toList();
        assertEquals(List.of(), complaints, "what the browser complained about");
    }

    static void size(int width, int height) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    }

    static String text(String css) {
        return String.valueOf(
                browser.executeScript("return document.querySelector(arguments[0])?.textContent ?? ''", css));
    }

    static void await(String what, BooleanSupplier done) throws InterruptedException {
        long endNs = System.nanoTime() + PATIENCE_S * 1_000_000_000L;
        while (!done.getAsBoolean()) {
            assertTrue(
                    System.nanoTime() < endNs,
                    () -> "within " + PATIENCE_S + " s: " + what + ". State " + text("#state-name") + ", "
                            + text("#guide-now") + " " + text("#guide-missing") + " " + text("#guide-next")
                            + " Banner: " + text("#banner"));
            Thread.sleep(20);
        }
    }

    static void click(String css) {
        WebElement element = browser.findElement(By.cssSelector(css));
        browser.executeScript("arguments[0].scrollIntoView({block: 'center'})", element);
        element.click();
    }

    static void lever(String lever, String to) {
        click("[data-lever=" + lever + "][data-to='" + to + "']");
    }

    static void awaitState(String name) throws InterruptedException {
        await("state " + name, () -> text("#state-name").equals(name));
    }

    double leverOf(Lever lever) {
        return PanelBench.number(panel.publisher().frame(), Section.LEVERS.offset() + lever.ordinal());
    }

    /** By clicks alone, from a cold car to a pressed pedal. */
    void drive() throws InterruptedException {
        lever("key", "1");
        awaitState("IGNITION");
        await("told that the brake is missing", () -> text("#guide-missing").contains("Press the brake."));
        lever("brake", "half");
        await("told that nothing is missing", () -> text("#guide-next").contains("press Start"));
        WebElement start = browser.findElement(By.cssSelector("[data-lever=start]"));
        browser.executeScript("arguments[0].scrollIntoView({block: 'center'})", start);
        new Actions(browser).clickAndHold(start).perform();
        await("start is seen", () -> !text("#state-name").equals("IGNITION"));
        new Actions(browser).release().perform();
        awaitState("DRIVE ENABLE");
        lever("direction", "1");
        await("direction taken", () -> text("#guide-now").contains("The torque request follows the pedal"));
        lever("brake", "half");
        WebElement pedal = browser.findElement(By.cssSelector("input[data-lever=pedal]"));
        pedal.sendKeys(Keys.ARROW_RIGHT.toString().repeat(40));
        await("the pedal is pressed", () -> leverOf(Lever.PEDAL) > 0.3);
    }

    boolean isForced(Signal signal) {
        double source = PanelBench.number(panel.publisher().frame(), Section.SOURCES.offset() + signal.ordinal());
        return source == Source.FORCED.ordinal();
    }

    static double number(String script) {
        return ((Number) browser.executeScript("return Number(" + script + ")")).doubleValue();
    }

    boolean eventsTell(String words) {
        return text("#events").contains(words);
    }

    static void keys(CharSequence keys) {
        new Actions(browser).sendKeys(keys).perform();
    }

    /** Presses the tabulator until the focus is where it should be. */
    static void tabTo(String css) {
        for (int i = 0; i < 150; i++) {
            if (Boolean.TRUE.equals(
                    browser.executeScript("return document.activeElement.matches(arguments[0])", css))) {
                return;
            }
            keys(Keys.TAB);
        }
        throw new AssertionError("the tabulator never comes to " + css);
    }

    static void phone(int width, int height) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", true));
        browser.executeCdpCommand("Emulation.setTouchEmulationEnabled", Map.of("enabled", true));
    }

    /** Puts a thumb on the pedal of the telephone's page, and waits until the car feels it. Returns how far down the thumb is. */
    double pressPad() throws InterruptedException {
        double x = number("(r => r.left + r.width / 2)(document.getElementById('pad').getBoundingClientRect())");
        double y = number("document.getElementById('pad').getBoundingClientRect().top") + 30;
        touch("touchStart", x, y);
        await("pressed", () -> leverOf(Lever.PEDAL) > 0.5);
        return y;
    }

    static void touch(String type, double... at) {
        List<Map<String, Double>> points = at.length == 0 ? List.of() : List.of(Map.of("x", at[0], "y", at[1]));
        browser.executeCdpCommand("Input.dispatchTouchEvent", Map.of("type", type, "touchPoints", points));
    }
}
