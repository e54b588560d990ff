package sprag.bench.evidence.campaign;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.cli.Trouble;
import sprag.bench.evidence.campaign.play.FaultOutcome;

/** Joins the results of all shares of one campaign. Nothing is joined when a share is missing, doubled, unfinished or foreign. */
final class ShardMerge {
    private record Share(Path file, CampaignKey key, List<FaultOutcome> outcomes) {}

    private ShardMerge() {}

    /** The campaign that a folder of results belongs to.
     *
     * @throws IllegalArgumentException when it holds none; the message is meant for people
     */
    static CampaignKey keyOf(Path folder) {
        return read(folder).key();
    }

    /** All outcomes.
     *
     * @param wanted the campaign as this program would play it
     * @param folders where the shares are
     * @throws IllegalArgumentException with everything that is wrong, one line each
     */
    static List<FaultOutcome> join(CampaignKey wanted, List<Path> folders) {
        List<String> wrong = new ArrayList<>();
        Map<Integer, Share> shares = new TreeMap<>();
        int of = read(folders.get(0)).key().of();
        for (Path folder : folders) {
            Share share = read(folder);
            CampaignKey key = share.key();
            String differs = key.differenceFrom(wanted);
            if (!differs.isEmpty()) {
                wrong.add(share.file() + " belongs to another campaign: " + differs);
            } else if (key.of() != of) {
                wrong.add(share.file() + " is a share of " + key.of() + ", not of " + of);
            } else if (shares.containsKey(key.part())) {
                wrong.add("share " + key.part() + "/" + of + " is there twice: " + share.file() + " and "
                        + shares.get(key.part()).file());
            } else {
                shares.put(key.part(), share);
                check(share, wrong);
            }
        }
        for (int part = 1; part <= of; part++) {
            if (!shares.containsKey(part)) {
                wrong.add("share " + part + "/" + of + " is missing");
            }
        }
        if (!wrong.isEmpty()) {
            throw new IllegalArgumentException(String.join(System.lineSeparator(), wrong));
        }
        return shares.values().stream().flatMap(s -> s.outcomes().stream()).toList();
    }

    private static void check(Share share, List<String> wrong) {
        long played = share.outcomes().stream().map(FaultOutcome::id).distinct().count();
        if (played != share.key().runsOfShare() || played != share.outcomes().size()) {
            wrong.add(
                    share.file() + " holds " + played + " of the " + share.key().runsOfShare() + " runs of share "
                            + share.key().part() + "/" + share.key().of() + "; play it to its end with the same --out");
        }
    }

    private static Share read(Path folder) {
        Path file = folder.resolve(ResultFile.NAME);
        if (!Files.isRegularFile(file)) {
            throw new IllegalArgumentException(
                    file + " is not there: name the folders that campaign --shard has written");
        }
        try {
            List<String> lines = Files.readAllLines(file);
            CampaignKey key =
                    lines.isEmpty() ? null : CampaignKey.parse(lines.get(0)).orElse(null);
            if (key == null) {
                throw new IllegalArgumentException(file + ":1: the line does not name a campaign");
            }
            return new Share(file, key, ResultFile.outcomes(lines));
        } catch (IOException e) {
            throw new Trouble("cannot read", file, e);
        }
    }
}
