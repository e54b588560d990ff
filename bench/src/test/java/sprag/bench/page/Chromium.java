package sprag.bench.page;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/** A real browser without a screen. */
public final class Chromium {
    private static final Path PROGRAM = Path.of("/usr/bin/chromium");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

    private Chromium() {}

    /** Starts it; the tests are skipped where it or its driver is not installed.
     *
     * @param options more than the usual ones
     * @param profile a folder for what it remembers
     * @param untried what was then not tried, to finish a sentence
     */
    public static ChromeDriver start(ChromeOptions options, Path profile, String untried) {
        Assumptions.assumeTrue(
                Files.isExecutable(PROGRAM) && Files.isExecutable(DRIVER),
                "no Chromium with its driver in /usr/bin: " + untried);
        options.setBinary(PROGRAM.toFile());
        options.addArguments("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking");
        options.addArguments("--disable-dev-shm-usage", "--user-data-dir=" + profile);
        return new ChromeDriver(
                new ChromeDriverService.Builder()
                        .usingDriverExecutable(DRIVER.toFile())
                        .build(),
                options);
    }
}
