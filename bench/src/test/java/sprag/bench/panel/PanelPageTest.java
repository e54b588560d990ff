package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.WindowType;
import org.openqa.selenium.interactions.Actions;
import sprag.bench.car.Lever;
import sprag.bench.panel.bench.FrameLayout.Section;
import sprag.bench.panel.bench.Order;
import sprag.supervisor.vocabulary.Signal;

/** The page in a real browser without a screen, by clicks and by keyboard. The bench behind it runs in real time. */
@Tag("realtime")
@ResourceLock("chromium")
final class PanelPageTest extends PanelInABrowser {
    /** Pairs of labels in the diagram whose boxes share more than an edge. */
    private static final String OVERLAPS = """
        const all = [...document.querySelectorAll('#diagram text')].filter(t => t.textContent.trim());
        const box = all.map(t => t.getBoundingClientRect());
        const pairs = [];
        for (let i = 0; i < all.length; i++) for (let j = 0; j < i; j++) {
          const wide = Math.min(box[i].right, box[j].right) - Math.max(box[i].left, box[j].left);
          const high = Math.min(box[i].bottom, box[j].bottom) - Math.max(box[i].top, box[j].top);
          if (wide > 1 && high > 3) pairs.push(all[j].textContent + ' on ' + all[i].textContent);
        }
        return pairs.join(', ');
        """;

    /** Labels of the diagram that lie on a conductor. */
    private static final String ON_A_WIRE = """
        const hit = new Set();
        for (const path of document.querySelectorAll('#diagram .wire')) {
          const m = path.getScreenCTM(), length = path.getTotalLength();
          for (let at = 0; at <= length; at += 2) {
            const p = path.getPointAtLength(at).matrixTransform(m);
            for (const text of document.querySelectorAll('#diagram .label')) {
              const r = text.getBoundingClientRect();
              if (text.textContent.trim() && p.x > r.left + 1 && p.x < r.right - 1 && p.y > r.top + 4 && p.y < r.bottom - 4) hit.add(text.textContent);
            }
          }
        }
        return [...hit].join(', ');
        """;

    @Test
    void chart_oneDrag_zoomsOnceToWhatWasDragged_andANewCarIsFollowed() throws InterruptedException {
        browser.executeScript(
                "const s = document.getElementById('speed'); s.value = '20';" + "s.dispatchEvent(new Event('change'))");
        await("half a minute is shown", () -> number("parseFloat(document.getElementById('clock').textContent)") > 31);
        click("#pause");
        await("paused", () -> text("#pause").equals("Go on"));
        double[] before = {-1};
        await("the chart stands", () -> {
            double now = number("document.getElementById('charts').dataset.toS");
            boolean same = now == before[0];
            before[0] = now;
            return same;
        });
        double fromS = number("document.getElementById('charts').dataset.fromS");
        double toS = number("document.getElementById('charts').dataset.toS");
        WebElement strip = browser.findElement(By.cssSelector("#charts .u-over"));
        browser.executeScript("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", strip);
        int width = strip.getSize().getWidth();
        // Events of its own making: a driver's pointer may land on what lies over the strip on a small screen.
        browser.executeScript("""
            const strip = arguments[0], box = strip.getBoundingClientRect();
            const send = (target, type, share) => target.dispatchEvent(new MouseEvent(type, {
              bubbles: true, button: 0, movementX: 5, clientY: box.top + box.height / 2,
              clientX: box.left + box.width * share}));
            send(strip, 'mouseenter', 0.25);
            send(strip, 'mousemove', 0.25);
            send(strip, 'mousedown', 0.25);
            send(strip, 'mousemove', 0.4);
            send(strip, 'mousemove', 0.5);
            send(document, 'mouseup', 0.5);
            """, strip);
        await("it holds still", () -> text("#chart-pause").equals("Follow"));
        double oneS = (toS - fromS) / width * 3;
        assertEquals(fromS + (toS - fromS) / 4, number("document.getElementById('charts').dataset.fromS"), oneS);
        assertEquals(fromS + (toS - fromS) / 2, number("document.getElementById('charts').dataset.toS"), oneS);
        click("#tab-scenarios");
        click("#afresh");
        await("a new car is followed", () -> text("#chart-pause").equals("Hold still"));
    }

    @Test
    void tracksApart_forcedSignalsLapse_boxShowsItAndThePedalIsAtRest() throws InterruptedException {
        WebElement pedal = browser.findElement(By.cssSelector("input[data-lever=pedal]"));
        pedal.sendKeys(Keys.ARROW_RIGHT.toString().repeat(40));
        await("the pedal is pressed", () -> leverOf(Lever.PEDAL) > 0.3);
        click("#apart");
        await("the pedal is let go", () -> leverOf(Lever.PEDAL) == 0);
        await("track A is forced", () -> isForced(Signal.PEDAL_A_V));
        await("track B is forced", () -> isForced(Signal.PEDAL_B_V));
        assertEquals(1, number("document.getElementById('apart').checked"));
        panel.thread().order(new Order.Unforce(Signal.PEDAL_A_V));
        panel.thread().order(new Order.Unforce(Signal.PEDAL_B_V));
        await("the box shows it", () -> number("document.getElementById('apart').checked") == 0);
    }

    @Test
    void keyToDrive_byClicks_carRollsAndTheBusIsShownLive() throws InterruptedException {
        drive();
        await("it rolls", () -> speed() > 2);
        assertTrue(text("#diagram").contains("bus LIVE"), text("#diagram"));
        assertTrue(browser.findElements(By.cssSelector(".wire.live")).size() > 6);
        assertEquals("ON", text("#lamp-ready b"));
    }

    private double speed() {
        return PanelBench.number(
                panel.publisher().frame(), Section.QUANTITIES.offset() + sprag.bench.car.Quantity.SPEED_KPH.ordinal());
    }

    @Test
    void driving_plugIn_pageTellsCauseAndConsequence() throws InterruptedException {
        drive();
        lever("plug", "1");
        await("rundown or beyond", () -> eventsTell("DRIVE_ENABLE \u2192 RUNDOWN"));
        await("why", () -> eventsTell("plug-present") && eventsTell("an interlock asked for a stop (plug-present)"));
        awaitState("CHARGE LOCKOUT");
    }

    @Test
    void driving_weldInjectedAndKeyOff_faultIsShownLatchedWithItsCause() throws InterruptedException {
        drive();
        click("#tab-faults");
        browser.findElement(By.id("fault-find")).sendKeys("positive contactor weld");
        click("[data-fault='positive_contactor.welded']");
        await("one fault is counted", () -> text("#broken").equals("1"));
        lever("key", "0");
        awaitState("FAULT");
        click("#tab-interlocks");
        await("latched", () -> text("#row-positive-welded .mark").contains("latched"));
        assertTrue(text("#guide-missing").contains("positive contactor"), text("#guide-missing"));
        assertTrue(text("#guide-next").contains("service reset"), text("#guide-next"));
        assertTrue(text("#diagram").contains("asked open!"), text("#diagram"));
    }

    @Test
    void pageLost_whileDriving_pedalReturnsAndTheWatcherIsTold() throws InterruptedException {
        drive();
        String first = browser.getWindowHandle();
        browser.switchTo().newWindow(WindowType.TAB);
        browser.get(server.link());
        String second = browser.getWindowHandle();
        await("the second page looks on", () -> text("#role").equals("You look on"));
        assertEquals(
                "true",
                String.valueOf(browser.executeScript("return document.querySelector('[data-lever=key]').disabled")));
        browser.switchTo().window(first).close();
        browser.switchTo().window(second);
        await("the pedal is let go", () -> leverOf(Lever.PEDAL) == 0);
        await("the watcher is told", () -> eventsTell("the page in control has gone"));
        click("#ask");
        await("it can take over", () -> text("#role").equals("You are in control"));
    }

    @Test
    void benchFallsSilent_pageSaysThatWhatItShowsIsOld() throws InterruptedException {
        panel.thread().stop();
        await("it is said", () -> text("#banner").contains("what is shown here is old"));
        assertEquals("old", String.valueOf(browser.executeScript("return document.body.className.match(/old/)?.[0]")));
    }

    @Test
    void driving_labelsOfTheDiagram_lieNeitherOnEachOtherNorOnAConductor() throws InterruptedException {
        drive();
        await("current flows", () -> text("#diagram").contains("A \u2192"));
        for (int width : new int[] {1280, 400}) {
            size(width, 800);
            await("drawn for " + width, () -> text("#diagram").contains("bus LIVE"));
            assertEquals("", String.valueOf(browser.executeScript(OVERLAPS)), "at " + width + " pixels");
            assertEquals("", String.valueOf(browser.executeScript(ON_A_WIRE)), "at " + width + " pixels");
        }
    }

    @Test
    void keyboardAlone_fromColdToDrive() throws InterruptedException {
        tabTo("[data-lever=key]");
        keys(Keys.ARROW_RIGHT);
        awaitState("IGNITION");
        tabTo("button[data-lever=brake]");
        keys(Keys.SPACE);
        await("nothing is missing", () -> text("#guide-next").contains("press Start"));
        tabTo("[data-lever=start]");
        new Actions(browser).keyDown(Keys.SPACE).perform();
        await("start is seen", () -> !text("#state-name").equals("IGNITION"));
        new Actions(browser).keyUp(Keys.SPACE).perform();
        awaitState("DRIVE ENABLE");
        tabTo("[data-lever=direction][tabindex='0']");
        keys(Keys.ARROW_RIGHT);
        await("direction taken", () -> text("#guide-now").contains("The torque request follows the pedal"));
        tabTo("button[data-lever=brake]");
        keys(Keys.SPACE);
        tabTo("input[data-lever=pedal]");
        for (int i = 0; i < 40; i++) {
            keys(Keys.ARROW_RIGHT);
        }
        await("it rolls", () -> speed() > 1);
        keys(Keys.ESCAPE);
        await("escape lets the pedal go", () -> leverOf(Lever.PEDAL) == 0);
    }

    @Test
    void signalForced_isShownAsForced_andLetGo() throws InterruptedException {
        click("#tab-signals");
        click("[data-force=brake_pressed]");
        await("forced", () -> text("#forced").equals("1 forced"));
        click("[data-force=brake_pressed]");
        await("let go", () -> text("#forced").isEmpty());
    }

    @Test
    void pauseAndSingleTick_byClicks() throws InterruptedException {
        click("#pause");
        await("paused", () -> text("#pause").equals("Go on"));
        String at = text("#clock");
        click("#tick");
        await("one tick", () -> !text("#clock").equals(at));
    }

    @Test
    void narrowScreen_nothingIsWiderThanThePage_andEveryControlHasAName() {
        size(400, 850);
        String wider = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";
        assertEquals(0L, browser.executeScript(wider));
        Object nameless =
                browser.executeScript("return [...document.querySelectorAll('button, input, select')].filter(e =>"
                        + " !(e.getAttribute('aria-label') || e.textContent.trim() || e.labels?.length)).map(e =>"
                        + " e.outerHTML)");
        assertEquals(List.of(), nameless);
    }

    @Test
    void chart_holdsStillAndZooms_withoutComplaint() throws InterruptedException {
        await(
                "charts are drawn",
                () -> browser.findElements(By.cssSelector("#charts canvas")).size() >= 4);
        click("#chart-pause");
        click("#chart-in");
        click("#chart-out");
        browser.findElement(By.id("charts")).sendKeys(Keys.ARROW_LEFT);
        await("the cursor reads", () -> text("#chart-read").startsWith("A "));
        click("#chart-pause");
    }

    /** Controls that a finger could miss: lower or narrower than 44 pixels. A box for a tick counts with its label. */
    private static final String TOO_SMALL = """
        return [...document.querySelectorAll('button, select, input, summary, [role=slider]')]
          .map(e => [e, (e.type === 'checkbox' && e.closest('label') || e).getBoundingClientRect()])
          .filter(([, r]) => r.width > 0 && (r.width < 44 || r.height < 44))
          .map(([e, r]) => e.outerHTML.slice(0, 80) + ' ' + r.width + ' x ' + r.height).join('; ');
        """;

    @Test
    void phone_everyControlFitsAFinger_andTheStripIsWhollyOnTheScreen() throws InterruptedException {
        lever("key", "1");
        await(
                "a line that leads to its lever",
                () -> text("#guide-missing button").contains("Press the brake."));
        for (int[] size : new int[][] {{400, 800}, {800, 400}}) {
            phone(size[0], size[1]);
            for (String tab : List.of("charts", "interlocks", "faults", "signals", "scenarios")) {
                click("#tab-" + tab);
                assertEquals("", browser.executeScript(TOO_SMALL), tab + " at " + size[0]);
            }
            String out = "return ['#strip-state', '#strip-guide', '#strip [data-lever=start]',"
                    + " '#strip [data-lever=brake]', '#pad'].filter(s => { const r ="
                    + " document.querySelector(s).getBoundingClientRect(); return r.width === 0 || r.top < 0 ||"
                    + " r.bottom > innerHeight || r.left < 0 || r.right > innerWidth; }).join()";
            assertEquals("", browser.executeScript(out), "at " + size[0]);
        }
    }

    @Test
    void phone_thumbOnThePad_pedalFollowsAndIsLetGo_whenLiftedAndWhenItSlidesOff() throws InterruptedException {
        phone(400, 800);
        pressPad();
        touch("touchEnd");
        await("lifted", () -> leverOf(Lever.PEDAL) == 0);
        double y = pressPad();
        touch("touchMove", 5, y);
        await("slid off", () -> leverOf(Lever.PEDAL) == 0);
        touch("touchEnd");
    }

    @Test
    void projected_lettersThatMatter_areAThirtiethOfThePicture_andCursorIsPutAtAShare() throws InterruptedException {
        size(1920, 1080);
        drive();
        browser.findElement(By.tagName("body")).sendKeys("p");
        await("one tall chart", () -> number("document.querySelectorAll('#charts canvas').length") == 1);
        for (String css : List.of("#state", "#guide-now", "#chart-read", ".event > b", "#clock")) {
            double px = number("parseFloat(getComputedStyle(document.querySelector('" + css + "')).fontSize)");
            assertTrue(px >= 1080 / 30.0, css + " has " + px);
        }
        String least = "Math.min(...[...document.querySelectorAll('#diagram text')].filter(t => t.textContent)"
                + ".map(t => parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a))";
        assertTrue(number(least) >= 18, () -> "the smallest label has " + number(least));
        String letters = "Math.min(...[...document.querySelectorAll('#strip-levers button, #pad b, #pad output')]"
                + ".map(e => parseFloat(getComputedStyle(e).fontSize)))";
        assertTrue(number(letters) >= 18, () -> "the smallest letters of a lever have " + number(letters));
        assertEquals("", String.valueOf(browser.executeScript(ON_A_WIRE)), "labels on a conductor");
        click("#chart-share");
        await("63 % of the bus", () -> text("#chart-read").matches("A [\\d.]+ s: bus 6[12]\\.\\d V.*"));
        await("the page shows that moment", () -> text("#state-name").equals("PRECHARGE"));
        click("#then-now");
        await("back to now", () -> text("#state-name").equals("DRIVE ENABLE"));
        browser.findElement(By.tagName("body")).sendKeys("p");
    }

    /** The clock of a new car begins anew: a moment of the old car must not be looked up in the new one. */
    @Test
    void newCar_eventsOfTheOldOne_stayToBeReadAndLeadNowhere() throws InterruptedException {
        lever("key", "1");
        awaitState("IGNITION");
        click("#tab-scenarios");
        click("#afresh");
        awaitState("OFF");
        await(
                "the old car's event is set apart",
                () -> eventsTell("OFF \u2192 IGNITION")
                        && number("document.querySelectorAll('.event.earlier .when:disabled').length") > 0);
        browser.executeScript("[...document.querySelectorAll('.event')].find(e =>"
                + " e.textContent.includes('OFF \u2192 IGNITION')).click()");
        assertEquals(true, browser.executeScript("return document.getElementById('then').hidden"));
        browser.navigate().refresh();
        await(
                "a page that comes later knows it too",
                () -> number("document.querySelectorAll('.event.earlier').length") > 0);
        assertEquals(
                "new car",
                browser.executeScript(
                        "return [...document.querySelectorAll('.event:not(.earlier) > b')].at(-1).textContent"));
    }

    @Test
    void lineOfWhatIsMissing_byKeyboard_leadsToItsLever() throws InterruptedException {
        lever("key", "1");
        await("the line", () -> text("#guide-missing").contains("Press the brake."));
        tabTo("#guide-missing button");
        keys(Keys.ENTER);
        await(
                "the lever has the focus",
                () -> "brake".equals(browser.executeScript("return document.activeElement.dataset.lever")));
    }

    @Test
    void eventClicked_pageGoesToItsTick_arrowStepsBack_andTheChainIsListed() throws InterruptedException {
        drive();
        lever("plug", "1");
        await("it stops", () -> eventsTell("DRIVE_ENABLE \u2192 RUNDOWN"));
        browser.executeScript("[...document.querySelectorAll('.event')].find(e =>"
                + " e.textContent.includes('DRIVE_ENABLE \u2192 RUNDOWN')).click()");
        await("the chain", () -> text("#chain").contains("plug_present on"));
        assertEquals("RUNDOWN", text("#state-name"));
        keys(Keys.ARROW_LEFT);
        await("one tick before", () -> text("#state-name").equals("DRIVE ENABLE"));
        await("the guide of then", () -> text("#guide-now").contains("follows the pedal"));
        click("#then-now");
        await("now", () -> !text("#state-name").equals("DRIVE ENABLE"));
    }
}
