package foilproof.findings;

import foilproof.bench.Blank;
import foilproof.bench.Job;
import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What would be found were the foil the other weight (B16). Copper at the foil bottom of a foil thicker by some amount
 * is that of the stated foil cut shallower by the same, so a job that states its foil is answered by its Z windows, with
 * a note; where the foil is not known the whole job is judged again, and what appears is a watch.
 */
final class OtherFoil {
    private OtherFoil() {}

    /** The other of the two usual foils, mm. */
    static double otherMm(Examination x) {
        return x.foilMm() < 0.5 * (Blank.HALF_OUNCE_MM + Blank.ONE_OUNCE_MM) ? Blank.ONE_OUNCE_MM : Blank.HALF_OUNCE_MM;
    }

    /** Whether the foil is said to be unknown, so that both are judged. */
    static boolean judgesBoth(Examination x) {
        return !x.job().blank().foilKnown() && x.runs().stream().anyMatch(x::cutsAnyFoil);
    }

    /** The job with the other foil. */
    static Job other(Examination x) {
        return x.job().withBlank(x.job().blank().withFoil(otherMm(x)));
    }

    /** Tells what appears with the other foil. */
    static void tell(Examination x, List<Finding> stated, List<Finding> other, FindingCollector out) {
        List<Finding> appear = new ArrayList<>();
        for (Finding f : other) {
            if (f.severity() != Severity.NOTE && stated.stream().noneMatch(g -> same(f, g))) {
                appear.add(f.withSeverity(f.severity().cappedAt(Severity.WATCH)));
            }
        }
        if (appear.isEmpty()) {
            return;
        }
        Finding first = appear.get(0);
        Finding.Builder b = Finding.of(Kinds.FOIL_WEIGHT, Severity.WATCH, Certainty.SET_UP)
                .says("The foil weight is not known. Judged with " + Words.um(x.foilMm()) + " of foil; with "
                        + Words.um(otherMm(x)) + " " + appear.size()
                        + (appear.size() == 1 ? " finding appears" : " findings appear") + ", folded below.")
                .doThis("Measure the foil: 1 A through a strip ten squares long drops 9.9 mV in half-ounce, 5.0 mV in"
                        + " one-ounce foil; a caliper cannot tell.")
                .folding(appear);
        where(b, first);
        out.add(b.build());
    }

    private static void where(Finding.Builder b, Finding f) {
        if (f.side() != null) {
            b.side(f.side());
        }
        double[] at = f.atMm();
        if (at != null) {
            b.at(at[0], at[1]);
        }
        if (f.program() != null) {
            b.line(f.program(), f.line() == null ? 0 : f.line());
        }
        if (f.tool() != null) {
            b.tool(f.tool());
        }
    }

    private static boolean same(Finding f, Finding g) {
        return f.kind().equals(g.kind()) && g.severity().atLeast(f.severity());
    }

    /** For a job that states its foil: a note where the other would break a limit of a Z window. */
    static void note(Examination x, FindingCollector out) {
        double deeper = x.foilMm() - otherMm(x);
        for (CopperFacts copper : x.copper()) {
            copper.windows().forEach((index, window) -> {
                ZLimit broken = broken(window, deeper);
                if (broken != null) {
                    Finding.Builder b = Finding.of(Kinds.FOIL_WEIGHT, Severity.NOTE, Certainty.SET_UP)
                            .side(copper.side())
                            .tool(x.run(index).toolName())
                            .says("Were the foil " + Words.um(otherMm(x)) + " instead of the stated "
                                    + Words.um(x.foilMm()) + ", "
                                    + broken.kind().words() + " would be found here.")
                            .doThis("Be sure of the foil weight: a caliper or a scale cannot tell it.");
                    if (!Double.isNaN(broken.xMm())) {
                        b.at(broken.xMm(), broken.yMm());
                    }
                    out.add(b.build());
                }
            });
        }
    }

    /** The limit that holds as stated and would not with the other foil; duty does not depend on the foil. */
    private static @Nullable ZLimit broken(ZWindow window, double deeper) {
        ZLimit from = window.limitedFrom();
        ZLimit to = window.limitedTo();
        if (from != null && from.eMm() <= 0 && from.eMm() > deeper + 1e-6) {
            return from;
        }
        boolean duty = to != null && to.kind() == ZLimit.Kind.DUTY;
        return to != null && !duty && to.eMm() >= 0 && to.eMm() < deeper - 1e-6 ? to : null;
    }
}
