package sprag.bench.evidence.campaign;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import sprag.bench.cli.Trouble;
import sprag.bench.evidence.campaign.play.FaultOutcome;

/** The outcomes so far, in a file that grows by a line a run, so that a campaign that was stopped goes on where it was. */
final class ResultFile implements AutoCloseable {
    private static final Comparator<FaultOutcome> WORST_FIRST = Comparator.comparing(FaultOutcome::verdict)
            .thenComparingDouble(FaultOutcome::marginMs)
            .thenComparing(FaultOutcome::id);

    /** How the file is called in its folder. */
    static final String NAME = "campaign.csv";

    private final Path file;
    private final List<FaultOutcome> outcomes = new ArrayList<>();
    private final Writer out;

    /** Opens a file of outcomes, with those that it holds already.
     *
     * @param key what the campaign is; a file of another one, or of another share, is refused
     * @throws IllegalArgumentException when the file belongs to another campaign
     */
    ResultFile(Path file, CampaignKey key) {
        this.file = file;
        try {
            boolean fresh = !Files.exists(file) || Files.size(file) == 0;
            if (!fresh) {
                read(key.heading());
            }
            out = Files.newBufferedWriter(
                    file, StandardCharsets.UTF_8, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
            if (!fresh && !Files.readString(file).endsWith("\n")) {
                out.write("\n");
            }
            if (fresh) {
                out.write(key.heading() + "\n" + FaultOutcome.COLUMNS + "\n");
                out.flush();
            }
        } catch (IOException e) {
            throw new Trouble("cannot use", file, e);
        }
    }

    private void read(String heading) throws IOException {
        List<String> lines = Files.readAllLines(file);
        if (!lines.get(0).equals(heading)) {
            throw new IllegalArgumentException(file + " holds another campaign or another share (" + lines.get(0)
                    + "); this one is " + heading + ". Name another folder with --out");
        }
        outcomes.addAll(outcomes(lines));
    }

    /** The outcomes of a file; a last line that was cut off is left out. */
    static List<FaultOutcome> outcomes(List<String> lines) {
        List<FaultOutcome> read = new ArrayList<>();
        for (String line : lines.subList(Math.min(2, lines.size()), lines.size())) {
            if (line.split(",", -1).length == FaultOutcome.COLUMNS.split(",").length) {
                read.add(FaultOutcome.fromCsv(line));
            }
        }
        return read;
    }

    void add(FaultOutcome outcome) {
        outcomes.add(outcome);
        try {
            out.write(outcome.toCsv() + "\n");
            out.flush();
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }

    /** All outcomes, the worst first. */
    List<FaultOutcome> sorted() {
        return outcomes.stream().sorted(WORST_FIRST).toList();
    }

    @Override
    public void close() {
        try {
            out.close();
        } catch (IOException e) {
            throw new Trouble("cannot finish", file, e);
        }
    }
}
