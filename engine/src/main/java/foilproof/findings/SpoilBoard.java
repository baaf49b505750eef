package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.ToolShape;
import foilproof.motion.Segments;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A copper-only cutter in the spoil board (I1), over-cut (I2), the table (I2). */
final class SpoilBoard implements Check {
    private static final double ROUNDING_MM = 1e-6;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SPOIL_BOARD_CONTACT, Kinds.SPOIL_BOARD_DEEP, Kinds.TABLE_CONTACT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("I1", "I2");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        if (x.job().spoilBoard().thicknessMm().isEmpty()) {
            out.notChecked("contact with the machine's table", "the spoil board's thickness is not given");
        }
        for (RunFacts run : x.runs()) {
            if (run.tool() != null) {
                judge(x, run, out);
            }
        }
    }

    private static void judge(Examination x, RunFacts run, FindingCollector out) {
        Segments s = x.plan().segments();
        // an unknown spoil board has no known bottom
        double boardMm = x.job().spoilBoard().thicknessMm().orElse(Double.POSITIVE_INFINITY);
        double belowMm = run.side().tapeMm() + boardMm;
        int deepest = -1;
        int firstBelow = -1;
        int firstTable = -1;
        double lowestMm = Double.POSITIVE_INFINITY;
        double underMm = -x.thicknessMm();
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            if (s.has(i, Segments.POSITION_UNKNOWN)) {
                continue;
            }
            double z = run.blankFromRunMm(s.has(i, Segments.START_UNKNOWN) ? s.z1Mm(i) : s.lowestMm(i));
            double under = -thicknessMm(x, run, i);
            if (z - under < lowestMm - underMm - ROUNDING_MM) {
                lowestMm = z;
                underMm = under;
                deepest = i;
            }
            if (z < under - ROUNDING_MM && firstBelow < 0) {
                firstBelow = i;
            }
            if (z < under - belowMm - ROUNDING_MM && firstTable < 0) {
                firstTable = i;
            }
        }
        if (deepest < 0) {
            return;
        }
        if (run.knownTool().duty().copperOnly()) {
            copperOnly(x, run, firstBelow >= 0 ? firstBelow : deepest, lowestMm, underMm, out);
        }
        double tableMm = underMm - belowMm;
        Finding deep = overCut(x, run, deepest, lowestMm, underMm);
        if (firstTable >= 0) {
            out.add(x.at(Finding.of(Kinds.TABLE_CONTACT, Severity.STOP, Certainty.GEOMETRY), firstTable)
                    .atMost(Measured.mm("depth below the table's top", tableMm - lowestMm, 0.001), 0)
                    .says("The cutter goes " + Words.mm(tableMm - lowestMm) + " below the spoil board's underside, into"
                            + " the machine's table.")
                    .doThis("Check the Z zero and the deepest Z; use a thicker spoil board.")
                    .folding(deep == null ? List.of() : List.of(deep))
                    .build());
        } else if (deep != null) {
            out.add(deep);
        }
    }

    /** Least thickness of the blank along a move, mm. */
    private static double thicknessMm(Examination x, RunFacts run, int i) {
        Segments s = x.plan().segments();
        int side = run.side().number();
        double least = x.thicknessAtMm(side, s.x1Mm(i), s.y1Mm(i));
        if (!s.has(i, Segments.START_UNKNOWN)) {
            least = Math.min(least, x.thicknessAtMm(side, s.x0Mm(i), s.y0Mm(i)));
        }
        return least;
    }

    private static void copperOnly(
            Examination x, RunFacts run, int at, double lowestMm, double underMm, FindingCollector out) {
        double above = lowestMm - underMm;
        if (above < -ROUNDING_MM) {
            out.add(x.at(Finding.of(Kinds.SPOIL_BOARD_CONTACT, Severity.STOP, Certainty.GEOMETRY), at)
                    .atMost(Measured.mm("depth below the blank's underside", -above, 0.001), 0)
                    .says("The copper-only cutter " + run.quotedName() + " goes " + Words.mm(-above)
                            + " below the blank's underside, into "
                            + (run.side().tapeMm() > 0 ? "tape and spoil board" : "the spoil board")
                            + ": its edge is gone for copper.")
                    .doThis("Cut through with another cutter, or keep this program within the foil.")
                    .build());
        } else if (above < x.limit(LimitKey.SPOIL_BOARD_MARGIN) - ROUNDING_MM) {
            out.add(x.at(Finding.of(Kinds.SPOIL_BOARD_CONTACT, Severity.WATCH, Certainty.GEOMETRY), at)
                    .atLeast(
                            Measured.mm("height above the blank's underside", above, 0.001),
                            x.limit(LimitKey.SPOIL_BOARD_MARGIN))
                    .says("The copper-only cutter " + run.quotedName() + " comes within " + Words.mm(above)
                            + " of the blank's underside.")
                    .doThis("Use another cutter for deep work.")
                    .build());
        }
    }

    private static @Nullable Finding overCut(Examination x, RunFacts run, int at, double lowestMm, double underMm) {
        // a drill's point does no harm before its full diameter is through
        double pointMm =
                run.knownTool().shape() == ToolShape.DRILL ? run.knownTool().pointLengthMm() : 0;
        double over = underMm - (lowestMm + pointMm);
        double left = run.side().tapeMm()
                + x.job().spoilBoard().thicknessMm().orElse(Double.POSITIVE_INFINITY)
                - (underMm - lowestMm);
        Severity severity = null;
        if (left < x.limit(LimitKey.SPOIL_BOARD_LEFT) - ROUNDING_MM) {
            severity = Severity.FIX;
        } else if (over > x.limit(LimitKey.OVER_CUT_WATCH) + ROUNDING_MM) {
            severity = Severity.WATCH;
        } else if (over > x.limit(LimitKey.OVER_CUT_NOTE) + ROUNDING_MM) {
            severity = Severity.NOTE;
        }
        if (severity == null) {
            return null;
        }
        Finding.Builder b = x.at(Finding.of(Kinds.SPOIL_BOARD_DEEP, severity, Certainty.GEOMETRY), at);
        b = severity == Severity.FIX
                ? b.atLeast(Measured.mm("spoil board left", left, 0.001), x.limit(LimitKey.SPOIL_BOARD_LEFT))
                : b.atMost(
                        Measured.mm("over-cut below the blank", over, 0.001),
                        x.limit(severity == Severity.WATCH ? LimitKey.OVER_CUT_WATCH : LimitKey.OVER_CUT_NOTE));
        return b.says("The cut goes " + Words.mm(over) + " below the blank"
                        + (pointMm > 0 ? " at its full diameter" : "") + "; "
                        + Words.plainMm(x.limit(LimitKey.OVER_CUT_LEAST)) + " to "
                        + Words.plainMm(x.limit(LimitKey.OVER_CUT_NOTE)) + " is enough"
                        + (severity == Severity.FIX
                                ? left > 0
                                        ? ", and only " + Words.plainMm(left) + " of the spoil board is left."
                                        : ", and nothing of the spoil board is left."
                                : "."))
                .doThis("Check the blank's thickness in the job, and raise the deepest Z.")
                .build();
    }
}
