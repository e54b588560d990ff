package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.openqa.selenium.WindowType;
import sprag.bench.car.Lever;

/** What docs/panel.md promises of the page besides driving: each promise taken alone, so that its loss is seen. */
@Tag("realtime")
@ResourceLock("chromium")
final class PanelPromisesTest extends PanelInABrowser {
    /** Everything that moves the car, breaks it or changes its time. */
    private static final String MOVES =
            "#levers button, #levers input, #strip button, #pause, #tick, #speed, #mend-all,"
                    + " #afresh, #fault-list button, #fault-list input, #signals button, #signals input, #signals select,"
                    + " #scenario-list button";

    private static long enabled() {
        return (Long) browser.executeScript(
                "return [...document.querySelectorAll(arguments[0])].filter(e => !e.disabled).length", MOVES);
    }

    @Test
    void pageThatLooksOn_whateverMovesTheCar_isDisabled() throws InterruptedException {
        long mine = enabled();
        assertTrue(mine > 200, () -> mine + " controls of the page in control");
        String first = browser.getWindowHandle();
        browser.switchTo().newWindow(WindowType.TAB);
        browser.get(server.link());
        await("the second page looks on", () -> text("#role").equals("You look on"));
        await("its lists are built", () -> number("document.querySelectorAll('#fault-list button').length") > 100);
        assertEquals(0, enabled());
        assertEquals("true", browser.executeScript("return document.getElementById('pad').ariaDisabled"));
        browser.close();
        browser.switchTo().window(first);
    }

    @Test
    void reducedMotion_nothingMoves_otherwiseTheCurrentDoes() {
        String running = "document.getAnimations().filter(a => a.playState === 'running').length";
        assertTrue(number(running) > 0, "a live conductor's stripes");
        try {
            prefers("prefers-reduced-motion", "reduce");
            assertEquals(0, number(running));
        } finally {
            prefers("prefers-reduced-motion", "");
        }
    }

    private static void prefers(String feature, String value) {
        browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("media", "", "features", List.of(Map.of("name", feature, "value", value))));
    }

    @Test
    void onPaper_leversAndButtonsAreLeftOut_everythingElseIsWholeAndOnWhite() throws InterruptedException {
        lever("key", "1");
        awaitState("IGNITION");
        try {
            browser.executeCdpCommand(
                    "Emulation.setEmulatedMedia",
                    Map.of(
                            "media",
                            "print",
                            "features",
                            List.of(Map.of("name", "prefers-color-scheme", "value", "dark"))));
            assertEquals(
                    "",
                    browser.executeScript("return [...document.querySelectorAll('button, input, select')]"
                            + ".filter(e => e.offsetParent && !e.matches('.when, #guide-missing button'))"
                            + ".map(e => e.id || e.textContent).join()"));
            assertEquals(
                    "rgb(255, 255, 255)",
                    browser.executeScript("return getComputedStyle(document.querySelector('.guide')).backgroundColor"));
            assertEquals(
                    "",
                    browser.executeScript("return ['.path', '.guide', '#events'].filter(s => {"
                            + " const e = document.querySelector(s); return !e.offsetParent || e.scrollHeight > e.clientHeight + 1;"
                            + " }).join()"));
        } finally {
            prefers("prefers-color-scheme", "");
        }
    }

    @Test
    void windowLosesTheFocus_pedalUnderAThumbIsLetGo() throws InterruptedException {
        phone(400, 800);
        pressPad();
        browser.executeScript("window.dispatchEvent(new Event('blur'))");
        await("let go", () -> leverOf(Lever.PEDAL) == 0);
        touch("touchEnd");
    }

    @Test
    void somethingMissing_itsLeverIsMarked_andNoOther() throws InterruptedException {
        lever("key", "1");
        await("the brake is missing", () -> text("#guide-missing").contains("Press the brake."));
        assertEquals(
                "lever-brake, brake",
                browser.executeScript("return [...document.querySelectorAll('.wanted')]"
                        + ".map(e => e.id || e.dataset.lever).join(', ')"));
    }

    @Test
    void startWithoutBrake_refusedActStandsAmongTheEvents_withItsReason() throws InterruptedException {
        lever("key", "1");
        awaitState("IGNITION");
        click("#levers [data-lever=start]");
        await("refused", () -> eventsTell("start refused"));
        assertTrue(text(".ev-refused").contains("reason Press the brake."), text(".ev-refused"));
    }

    /** The page has 21 rem less beside a lesson. */
    @Test
    void besideALesson_labelsOfTheDrawing_keepTheirSize() throws InterruptedException {
        String smallest =
                "Math.min(...[...document.querySelectorAll('#diagram text')].filter(t => t.textContent.trim())"
                        + ".map(t => parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a))";
        browser.executeScript("document.body.classList.add('with-beside')");
        for (int width : new int[] {1200, 1280, 1599, 1600, 1920}) {
            size(width, 800);
            await("drawn for " + width, () -> number("innerWidth") == width);
            assertTrue(number(smallest) >= 8, () -> number(smallest) + " px at " + width);
        }
    }

    @Test
    void benchThatIsHeldUp_timeThatIsLost_isShown() throws InterruptedException {
        holdUpMs = 3000;
        await("the time that was lost", () -> text("#late").matches("(.* )?([3-9]|\\d\\d+)\\.\\d s lost"));
    }
}
