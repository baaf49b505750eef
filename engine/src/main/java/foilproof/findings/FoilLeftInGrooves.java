package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.FoilLeft;
import java.util.List;

/** Foil that stays in a groove: burnished, not cut (D1). One finding a tool run, at its worst place. */
final class FoilLeftInGrooves implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.FOIL_LEFT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("D1");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (CopperFacts copper : x.copper()) {
            copper.left().forEach((index, strips) -> {
                List<FoilLeft> told = strips.stream()
                        .filter(s -> s.lengthMm() > x.limit(LimitKey.FOIL_LEFT_LENGTH) + 1e-9)
                        .toList();
                if (!told.isEmpty()) {
                    out.add(finding(x, copper, x.run(index), told));
                }
            });
        }
    }

    private static Finding finding(Examination x, CopperFacts copper, RunFacts run, List<FoilLeft> strips) {
        FoilLeft worst = strips.get(0);
        double length = 0;
        double[] box = {worst.x0Mm(), worst.y0Mm(), worst.x1Mm(), worst.y1Mm()};
        for (FoilLeft strip : strips) {
            worst = strip.missingMm() > worst.missingMm() + 1e-9 ? strip : worst;
            length += strip.lengthMm();
            box[0] = Math.min(box[0], strip.x0Mm());
            box[1] = Math.min(box[1], strip.y0Mm());
            box[2] = Math.max(box[2], strip.x1Mm());
            box[3] = Math.max(box[3], strip.y1Mm());
        }
        double depth = x.foilMm() - worst.leftMm();
        boolean asStated = run.zErrorMm() == 0 && x.conditions().bowMm() == 0;
        String file = x.plan().programs().get(worst.program()).file();
        return Finding.of(Kinds.FOIL_LEFT, Severity.STOP, asStated ? Certainty.GEOMETRY : Certainty.SET_UP)
                .says("The groove does not clear the foil: "
                        + (worst.leftMm() > x.foilMm() + 1e-6
                                ? "the cutter passes " + Words.um(worst.leftMm() - x.foilMm()) + " above the foil"
                                : worst.leftMm() > 0
                                        ? Words.um(worst.leftMm()) + " of copper stay on its floor"
                                        : "its floor lies only " + Words.um(-worst.leftMm()) + " below the foil")
                        + " at the worst place, over " + Words.plainMm(length) + " of groove in all"
                        + (strips.size() > 1 ? " (" + strips.size() + " stretches)" : "") + ".")
                .doThis("Cut at least " + Words.plainMm(worst.missingMm())
                        + " deeper there, or flatten the blank or map its height.")
                .side(copper.side())
                .at(worst.xMm(), worst.yMm())
                .box(box[0], box[1], box[2], box[3])
                .line(file, worst.line())
                .time(x.timeAtLine(run, worst.program(), worst.line()))
                .tool(run.toolName())
                .atLeast(
                        Measured.mm("depth below the foil top", depth, 0.001),
                        x.foilMm() + x.limit(LimitKey.FOIL_CLEARED))
                .build();
    }
}
