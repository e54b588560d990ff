package sprag.bench.run.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import sprag.bench.page.Chromium;

/** The page of a run in a real browser without a screen. */
class ReportPageTest {
    private static final String SPEED = "svg[aria-label='Speed over time']";

    @TempDir
    static Path folder;

    private static ChromeDriver browser;

    @BeforeAll
    static void openPage() throws Exception {
        browser = Chromium.start(
                new ChromeOptions(), folder.resolve("browser"), "the page of a run was NOT tried in a browser");
        Path page = folder.resolve("report.html");
        Files.writeString(page, HtmlReport.of(ReportTest.report("OFF:0 ON:10 ON:20* ON:30* ON:40 FAULT:0")));
        browser.get(page.toUri().toString());
    }

    @AfterAll
    static void closeBrowser() {
        if (browser != null) {
            browser.quit();
        }
    }

    private static String readout() {
        WebElement box = browser.findElement(By.id("readout"));
        return box.isDisplayed() ? box.getText() : "";
    }

    @Test
    void pointer_overAPlot_showsTimeStateAndValue() {
        browser.manage().window().setSize(new Dimension(1280, 900));
        WebElement plot = browser.findElement(By.cssSelector(".wide " + SPEED));
        long left = Long.parseLong(plot.getDomAttribute("data-left"));
        long right = Long.parseLong(plot.getDomAttribute("data-right"));
        long middle = Long.parseLong(plot.getDomAttribute("width")) / 2;
        int at = (int) (left + (right - left) * 3 / 5 - middle);
        new Actions(browser).scrollToElement(plot).moveToElement(plot, at, 0).perform();
        assertTrue(readout().matches("(?s)0\\.\\d+ s\nON\nspeed: (29|30)[.0-9]* km/h"), readout());
        new Actions(browser)
                .moveToElement(browser.findElement(By.tagName("h2")))
                .perform();
        assertEquals("", readout());
    }

    @Test
    void arrowKeys_onAPlot_moveThroughTimeAndEscapeEnds() {
        browser.manage().window().setSize(new Dimension(1280, 900));
        WebElement plot = browser.findElement(By.cssSelector(".wide " + SPEED));
        browser.executeScript("arguments[0].focus()", plot);
        plot.sendKeys(Keys.ARROW_RIGHT);
        assertTrue(readout().startsWith("0.00"), readout());
        assertTrue(readout().contains("OFF"), readout());
        assertTrue(browser.findElements(By.cssSelector(".wide .cursor")).size() > 1, "all drawings show the moment");
        plot.sendKeys(Keys.ESCAPE);
        assertEquals("", readout());
    }

    @Test
    void telephone_page_doesNotScrollSideways() {
        browser.executeScript("document.body.style.width = '400px'");
        browser.manage().window().setSize(new Dimension(500, 900));
        Object wider = browser.executeScript("return [...document.querySelectorAll('body *')]"
                + ".filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)"
                + ".map(e => e.outerHTML.slice(0, 80)).join('; ')");
        browser.executeScript("document.body.style.width = ''");
        assertEquals("", wider);
    }
}
