package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.NarrowGap;
import foilproof.language.LanguageNote;
import foilproof.language.NoteKind;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.List;

/** Corner blending too loose for the copper (A18), and programs that cut foil without saying a path mode. */
final class Blending implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.PATH_BLENDING);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A18");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            int first = firstInFoil(x, program);
            if (first < 0) {
                continue;
            }
            List<LanguageNote> unset = program.interpretation().notes(NoteKind.PATH_MODE_UNSET);
            if (!unset.isEmpty()) {
                out.add(x.at(Finding.of(Kinds.PATH_BLENDING, Severity.NOTE, Certainty.SET_UP), first)
                        .line(program.file(), unset.get(0).span().line())
                        .says(
                                "The program never says G61 or G64: how far the machine rounds corners off depends on what"
                                        + " the job before left behind.")
                        .doThis("Write G61, or G64 with a small P, into the first lines.")
                        .build());
            }
            double limit =
                    limitMm(x, x.run(x.plan().segments().run(first)).side().number());
            for (LanguageNote note : program.interpretation().notes(NoteKind.PATH_TOLERANCE)) {
                if (note.value() > limit + 1e-9) {
                    out.add(loose(x, program, note, limit));
                    break;
                }
            }
        }
    }

    /** The smaller of the fixed limit and a share of the narrowest gap, mm. */
    private static double limitMm(Examination x, int side) {
        double limit = x.limit(LimitKey.BLEND);
        for (NarrowGap gap : x.copper(side).gaps()) {
            if (gap.bottomMm() > 0.01) {
                limit = Math.min(limit, x.limit(LimitKey.BLEND_SHARE) * gap.bottomMm());
            }
        }
        return limit;
    }

    private static int firstInFoil(Examination x, PlannedProgram program) {
        Segments s = x.plan().segments();
        for (int i = program.firstSegment(); i < program.endSegment(); i++) {
            var work = x.workOf(i);
            if (s.isFeed(i) && work != null && work.copper() && x.cutsFoil(i)) {
                return i;
            }
        }
        return -1;
    }

    private static Finding loose(Examination x, PlannedProgram program, LanguageNote note, double limit) {
        int line = note.span().line();
        return x.at(
                        Finding.of(Kinds.PATH_BLENDING, Severity.WATCH, Certainty.SET_UP),
                        x.firstSegmentFrom(program, line))
                .line(program.file(), line)
                .atMost(Measured.mm("blending tolerance", note.value(), 0), limit)
                .says("G64 lets the machine leave the path by " + Words.mm(note.value())
                        + " at corners; for this copper at most " + Words.plainMm(limit) + " should be allowed.")
                .doThis("Write G61, or G64 P0.005.")
                .build();
    }
}
