package foilproof.app.ui;

import foilproof.dryrun.DryRunResult;
import foilproof.findings.Catalogue;
import foilproof.findings.Finding;
import foilproof.findings.Severity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The findings as they are listed: those of the job, and what a what-if adds and takes away. While checks still run,
 * what they found stands here already; a finding that was there before and whose kind is still to be judged stays as one
 * that is being judged, so that nothing goes and comes back.
 *
 * @param rows worst first, what the what-if adds before all others
 * @param appeared how many the what-if adds
 * @param gone how many of the job's it takes away
 * @param open how many are being judged
 */
record FindingRows(List<Row> rows, int appeared, int gone, int open) {
    /** How a finding stands to the job and its what-if. */
    enum State {
        /** Of the job, and of the what-if where there is one. */
        STANDS(""),
        /** Of the job, accepted for a reason. */
        ACCEPTED("[accepted]"),
        /** Of both, and another severity with the what-if. */
        CHANGED("[what if: another severity]"),
        /** Only of the what-if. */
        APPEARED("[what if: appeared]"),
        /** Only of the job, not of the what-if. */
        GONE("[what if: gone]"),
        /** There before, and not judged yet as things are now. */
        OPEN("[being judged]");

        private final String words;

        State(String words) {
            this.words = words;
        }

        /** In words, in brackets; "" for one that simply stands. */
        String words() {
            return words;
        }
    }

    /** A finding, its number in the job's result or -1, how it stands, and that in words, "" where it simply stands. */
    record Row(Finding finding, int index, State state, String words) {
        Row(Finding finding, int index, State state) {
            this(finding, index, state, state.words());
        }

        @Override
        public String toString() {
            // Letters typed while the list has the focus are keys of the window, not a search in the list.
            return "";
        }
    }

    FindingRows {
        rows = List.copyOf(rows);
    }

    /** The findings of a job that is still being judged, and those from before its files changed. */
    static FindingRows of(Catalogue.Partial now, @Nullable DryRunResult earlier) {
        List<Row> rows = new ArrayList<>();
        now.findings().forEach(f -> rows.add(new Row(f, -1, State.STANDS)));
        Set<String> judged = keys(now.findings());
        int open = 0;
        for (Finding f :
                earlier == null ? List.<Finding>of() : earlier.document().findings()) {
            if (now.open().contains(f.kind()) && !judged.contains(key(f))) {
                rows.add(new Row(f, -1, State.OPEN));
                open++;
            }
        }
        rows.sort(Comparator.comparing(r -> r.finding().severity()));
        return new FindingRows(rows, 0, 0, open);
    }

    /**
     * The findings of a job and of its what-if.
     *
     * @param base the job's
     * @param other the what-if's, or those of the what-if before; null where there is none
     * @param now what is found of the what-if so far, or null where nothing is being judged
     */
    static FindingRows of(DryRunResult base, @Nullable DryRunResult other, Catalogue.@Nullable Partial now) {
        List<Finding> before = other == null ? List.of() : other.document().findings();
        List<Finding> found = now == null ? before : now.findings();
        Set<String> open = now == null ? Set.of() : now.open();
        boolean asked = other != null || now != null;
        Set<String> known = keys(base.document().findings());
        Set<String> judged = keys(found);
        Map<String, Severity> severities = new HashMap<>();
        found.forEach(f -> severities.merge(key(f), f.severity(), FindingRows::worse));
        List<Row> fresh = new ArrayList<>();
        for (Finding f : found) {
            if (!known.contains(key(f))) {
                fresh.add(new Row(f, -1, State.APPEARED));
            }
        }
        int appeared = fresh.size();
        int left = 0;
        for (Finding f : before) {
            if (now != null && open.contains(f.kind()) && !known.contains(key(f)) && !judged.contains(key(f))) {
                fresh.add(new Row(f, -1, State.OPEN));
                left++;
            }
        }
        fresh.sort(Comparator.comparing(r -> r.finding().severity()));
        List<Row> rows = new ArrayList<>(fresh);
        int gone = 0;
        List<Finding> findings = base.document().findings();
        for (int i = 0; i < findings.size(); i++) {
            Finding f = findings.get(i);
            boolean stands = !asked || judged.contains(key(f));
            boolean waits = !stands && open.contains(f.kind());
            boolean accepted = base.document().approval().reasonFor(i + 1) != null;
            Severity is = asked ? severities.getOrDefault(key(f), f.severity()) : f.severity();
            if (is != f.severity()) {
                rows.add(new Row(f, i, State.CHANGED, "[what if: " + is.word() + "]"));
            } else {
                State plain = accepted ? State.ACCEPTED : State.STANDS;
                rows.add(new Row(f, i, stands ? plain : waits ? State.OPEN : State.GONE));
            }
            left += waits ? 1 : 0;
            gone += stands || waits ? 0 : 1;
        }
        return new FindingRows(rows, appeared, gone, left);
    }

    private static Severity worse(Severity a, Severity b) {
        return a.compareTo(b) <= 0 ? a : b;
    }

    /** How many of the job's findings the what-if leaves as they are. */
    long unchanged() {
        return rows.stream()
                .filter(r -> r.state() == State.STANDS || r.state() == State.ACCEPTED)
                .count();
    }

    /** How many of the job's findings have another severity with the what-if. */
    long changed() {
        return rows.stream().filter(r -> r.state() == State.CHANGED).count();
    }

    /** What tells whether two findings are of one thing: kind, side, cutter, and place to half a millimetre. */
    static String key(Finding f) {
        double[] at = f.atMm();
        String place = at == null ? "" : Math.round(at[0] * 2) + "," + Math.round(at[1] * 2);
        return f.kind() + "|" + f.side() + "|" + f.tool() + "|" + place;
    }

    /** Of all findings and of what is folded under them: what another leads now is not gone. */
    private static Set<String> keys(List<Finding> findings) {
        Set<String> keys = new HashSet<>();
        for (Finding f : findings) {
            keys.add(key(f));
            keys.addAll(keys(f.consequences()));
        }
        return keys;
    }
}
