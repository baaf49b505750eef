package foilproof.app.ui;

import foilproof.bench.Job;
import foilproof.copper.NarrowGap;
import foilproof.dryrun.DryRunResult;
import foilproof.findings.CopperFacts;
import foilproof.report.ResultDocument;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** A what-if in words: what it rests on, and what it changes against the job, always as a difference. */
final class WhatIfWords {
    private WhatIfWords() {}

    /** What differs from the job, each with its number and sign; empty where nothing does. */
    static String basedOn(BenchModel.WhatIf w, Job job) {
        List<String> all = new ArrayList<>();
        new TreeMap<>(w.zErrorMm())
                .forEach((run, mm) -> all.add(String.format(
                        Locale.ROOT, "run %d %.3f mm %s", run + 1, Math.abs(mm), mm > 0 ? "deeper" : "higher")));
        w.absent().stream().sorted().forEach(run -> all.add("run " + (run + 1) + " left out of the picture"));
        if (w.bowMm() != 0) {
            all.add(String.format(
                    Locale.ROOT, "middle %.3f mm %s", Math.abs(w.bowMm()), w.bowMm() > 0 ? "low" : "high"));
        }
        if (!Double.isNaN(w.foilMm())) {
            all.add(String.format(Locale.ROOT, "foil %.1f um", w.foilMm() * 1000));
        }
        if (w.thicknessChangeMm() != 0) {
            all.add(String.format(
                    Locale.ROOT, "blank %.3f mm thick", job.blank().thicknessMm() + w.thicknessChangeMm()));
        }
        swept(w.swept(), all);
        return String.join("; ", all);
    }

    private static void swept(BenchModel.Swept s, List<String> all) {
        if (s.shape() != BenchModel.Shape.FLAT) {
            all.add(String.format(Locale.ROOT, "%s %.3f mm", s.shape().words(), s.shapeMm()));
        }
        if (!s.pointsMm().isEmpty()) {
            all.add("foil top as dragged");
        }
        if (s.tiltXMm() != 0) {
            all.add(String.format(Locale.ROOT, "right edge %+.3f mm", s.tiltXMm()));
        }
        if (s.tiltYMm() != 0) {
            all.add(String.format(Locale.ROOT, "far edge %+.3f mm", s.tiltYMm()));
        }
        if (!Double.isNaN(s.backlashXMm())) {
            all.add(String.format(Locale.ROOT, "backlash X %.3f mm", s.backlashXMm()));
        }
        if (!Double.isNaN(s.backlashYMm())) {
            all.add(String.format(Locale.ROOT, "backlash Y %.3f mm", s.backlashYMm()));
        }
        new TreeMap<>(s.runoutMm())
                .forEach((tool, mm) -> all.add(String.format(Locale.ROOT, "runout of \"%s\" %.3f mm", tool, mm)));
        new TreeMap<>(s.tipMm())
                .forEach((tool, mm) -> all.add(String.format(Locale.ROOT, "tip of \"%s\" %.3f mm flat", tool, mm)));
        new TreeMap<>(s.inCollet()).forEach((t, tool) -> all.add("\"" + tool + "\" in the collet for T" + t));
        work(s.work(), all);
    }

    private static void work(BenchModel.Work w, List<String> all) {
        if (w.feedShare() != 1) {
            all.add(String.format(Locale.ROOT, "feeds times %.2f", w.feedShare()));
        }
        if (w.speedShare() != 1) {
            all.add(String.format(Locale.ROOT, "spindle speeds times %.2f", w.speedShare()));
        }
        if (w.zeroXMm() != 0 || w.zeroYMm() != 0) {
            all.add(String.format(Locale.ROOT, "job moved by X %+.2f Y %+.2f mm", w.zeroXMm(), w.zeroYMm()));
        }
        if (w.turnRad() != 0) {
            all.add(String.format(Locale.ROOT, "job turned by %+.1f deg", Math.toDegrees(w.turnRad())));
        }
        if (!w.order().isEmpty()) {
            all.add("programs in another order");
        }
    }

    /** What the what-if changes in the finished board, base -> what-if, line by line. */
    static String changes(DryRunResult base, @Nullable DryRunResult now) {
        if (now == null) {
            return "Checking what it changes ...";
        }
        StringBuilder s = new StringBuilder();
        line(s, "narrowest gap", gap(base), gap(now), "mm", 3);
        line(s, "narrowest net", net(base), net(now), "mm", 3);
        line(s, "foil left in grooves", foilLeft(base), foilLeft(now), "mm2", 2);
        line(s, "copper", copper(base), copper(now), "mm2", 1);
        line(s, "least margin of Z", margin(base), margin(now), "mm", 3);
        line(
                s,
                "time",
                OptionalDouble.of(base.document().time().totalS()),
                OptionalDouble.of(now.document().time().totalS()),
                "s",
                0);
        return s.length() == 0
                ? "No size changes that is told here; findings stand at the left."
                : s.toString().strip();
    }

    private static void line(
            StringBuilder s, String what, OptionalDouble was, OptionalDouble is, String unit, int decimals) {
        String a = number(was, decimals);
        String b = number(is, decimals);
        if (!a.equals(b)) {
            s.append(what)
                    .append(": ")
                    .append(a)
                    .append(" -> ")
                    .append(b)
                    .append(' ')
                    .append(unit)
                    .append('\n');
        }
    }

    private static String number(OptionalDouble v, int decimals) {
        // A plain 0, never -0.
        return v.isEmpty()
                ? "none told"
                : String.format(Locale.ROOT, "%." + decimals + "f", v.getAsDouble())
                        .replaceAll("^-(0\\.?0*)$", "$1");
    }

    private static OptionalDouble gap(DryRunResult r) {
        OptionalDouble least = OptionalDouble.empty();
        for (CopperFacts c : r.examination().copper()) {
            for (NarrowGap g : c.gaps()) {
                least = OptionalDouble.of(Math.min(least.orElse(Double.POSITIVE_INFINITY), g.bottomMm()));
            }
        }
        return least;
    }

    private static OptionalDouble net(DryRunResult r) {
        return r.document().nets().stream()
                .map(ResultDocument.NetFacts::narrowestMm)
                .filter(java.util.Objects::nonNull)
                .mapToDouble(Double::doubleValue)
                .min();
    }

    private static OptionalDouble foilLeft(DryRunResult r) {
        return OptionalDouble.of(r.document().sides().stream()
                .mapToDouble(ResultDocument.SideFacts::foilLeftMm2)
                .sum());
    }

    private static OptionalDouble copper(DryRunResult r) {
        return OptionalDouble.of(r.document().sides().stream()
                .mapToDouble(ResultDocument.SideFacts::copperMm2)
                .sum());
    }

    private static OptionalDouble margin(DryRunResult r) {
        return r.document().zWindows().stream()
                .map(ResultDocument.ZWindow::marginMm)
                .filter(java.util.Objects::nonNull)
                .mapToDouble(Double::doubleValue)
                .min();
    }
}
