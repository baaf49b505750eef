package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.design.LayerImage;
import foilproof.design.RasterGrid;
import foilproof.motion.Segments;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Wanted copper that is gone (E7): copper of the layer image that a cutter took over more than a limit's width, and, on
 * a blank with copper on both sides, copper work so deep that it takes the far foil too.
 */
final class SeveredCopper implements Check {
    private static final int MOST_FOLDED = 40;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.SEVERED_COPPER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E7", "D7");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (CopperFacts copper : x.copper()) {
            LayerImage layer = x.design().layerUp(copper.side());
            if (layer != null && !copper.windows().isEmpty()) {
                gouges(x, copper, layer, out);
            } else if (!copper.windows().isEmpty()) {
                out.notChecked("copper cut away that was wanted, on side " + copper.side(), "no layer image is given");
            }
        }
        if (x.job().blank().bothSides()) {
            farFoil(x, out);
        }
    }

    private static void gouges(Examination x, CopperFacts copper, LayerImage layer, FindingCollector out) {
        // a point is lost where it and the points half the limit away on all sides are wanted and gone
        double step = x.limit(LimitKey.GOUGE_WIDTH) / 2;
        int columns = (int) Math.floor(x.job().blank().widthMm() / step);
        int rows = (int) Math.floor(x.job().blank().heightMm() / step);
        BitSet wanted = layer.mapped(x.design().blankFromDesign(copper.side()))
                .rasterise(new RasterGrid(0, 0, step, columns, rows));
        BitSet gone = new BitSet(columns * rows);
        for (int i = wanted.nextSetBit(0); i >= 0; i = wanted.nextSetBit(i + 1)) {
            double px = (i % columns + 0.5) * step;
            double py = (i / columns + 0.5) * step;
            if (copper.map().pieceAt(px, py) < 0 && !inHole(x, copper.side(), px, py)) {
                gone.set(i);
            }
        }
        BitSet core = new BitSet(columns * rows);
        for (int i = gone.nextSetBit(0); i >= 0; i = gone.nextSetBit(i + 1)) {
            int c = i % columns;
            int r = i / columns;
            if (c > 0
                    && r > 0
                    && c < columns - 1
                    && r < rows - 1
                    && gone.get(i - 1)
                    && gone.get(i + 1)
                    && gone.get(i - columns)
                    && gone.get(i + columns)) {
                core.set(i);
            }
        }
        List<Finding> all = new ArrayList<>();
        while (!core.isEmpty() && all.size() <= MOST_FOLDED) {
            all.add(cluster(x, copper, core, columns, step));
        }
        if (!all.isEmpty()) {
            all.sort((a, b) -> Double.compare(
                    b.measured() == null ? 0 : b.measured().value(),
                    a.measured() == null ? 0 : a.measured().value()));
            out.add(all.get(0).withConsequences(all.subList(1, all.size())));
        }
    }

    /** Takes one connected patch of lost points out of {@code core}. */
    private static Finding cluster(Examination x, CopperFacts copper, BitSet core, int columns, double step) {
        ArrayDeque<Integer> open = new ArrayDeque<>();
        int start = core.nextSetBit(0);
        open.add(start);
        core.clear(start);
        int count = 0;
        double[] box = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        while (!open.isEmpty()) {
            int i = open.poll();
            count++;
            double px = (i % columns + 0.5) * step;
            double py = (i / columns + 0.5) * step;
            box[0] = Math.min(box[0], px - step);
            box[1] = Math.min(box[1], py - step);
            box[2] = Math.max(box[2], px + step);
            box[3] = Math.max(box[3], py + step);
            for (int d : new int[] {-1, 1, -columns, columns}) {
                if (i + d >= 0 && core.get(i + d)) {
                    core.clear(i + d);
                    open.add(i + d);
                }
            }
        }
        double px = (start % columns + 0.5) * step;
        double py = (start / columns + 0.5) * step;
        double area = count * step * step;
        int entry = entryMark(x, copper.side(), box, step);
        if (entry >= 0) {
            return x.at(Finding.of(Kinds.SEVERED_COPPER, Severity.FIX, Certainty.GEOMETRY), entry)
                    .box(box[0], box[1], box[2], box[3])
                    .atMost(
                            Measured.mm("wanted copper lost", Math.max(box[2] - box[0], box[3] - box[1]), step),
                            x.limit(LimitKey.PLUNGE_MARK))
                    .says("The cutter enters in copper that the layer image wants, and leaves a mark of "
                            + Words.number(box[2] - box[0], 2) + " x " + Words.number(box[3] - box[1], 2)
                            + " mm in it.")
                    .doThis("Enter in waste copper or on the groove itself.")
                    .build();
        }
        Finding.Builder b = Finding.of(Kinds.SEVERED_COPPER, Severity.WATCH, Certainty.GEOMETRY)
                .side(copper.side())
                .at(px, py)
                .box(box[0], box[1], box[2], box[3])
                .measured(new Measured("wanted copper lost", area, "mm2", Math.max(step * step, 0.2 * area)))
                .says("Copper that the layer image wants is cut away here, more than "
                        + Words.plainMm(x.limit(LimitKey.GOUGE_WIDTH)) + " wide over an area of "
                        + Words.number(box[2] - box[0], 2) + " x " + Words.number(box[3] - box[1], 2) + " mm.")
                .doThis("Check this line, the work zero and that programs and layer image are of one revision.");
        copper.nearestLine(x, b, px, py);
        return b.build();
    }

    /** The straight plunge of copper work whose cutter alone made a patch of lost copper (D7), or -1. */
    private static int entryMark(Examination x, int side, double[] box, double step) {
        Segments s = x.plan().segments();
        for (RunFacts run : x.runs()) {
            if (run.side().number() != side || run.tool() == null) {
                continue;
            }
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                Work work = x.workOf(i);
                if (work == null || !work.copper() || !s.isPlunge(i) || !x.cutsFoil(i)) {
                    continue;
                }
                double low = -run.blankFromRunMm(s.lowestMm(i)) - x.foilMm();
                double reach = run.knownTool().cutRadiusAtHeightMm(Math.max(0, low)) + step;
                double px = s.x1Mm(i);
                double py = s.y1Mm(i);
                if (box[0] >= px - reach && box[2] <= px + reach && box[1] >= py - reach && box[3] <= py + reach) {
                    return i;
                }
            }
        }
        return -1;
    }

    private static boolean inHole(Examination x, int side, double xMm, double yMm) {
        for (Hole hole : x.holes()) {
            boolean own = hole.side() == side;
            // a mark that hardly passes the foil is no hole
            boolean deep = hole.meantThrough(x.thicknessMm());
            if (deep && (own || hole.through()) && x.run(hole.run()).tool() != null) {
                double px = x.stock().xOnSideMm(hole.side(), side, hole.xMm());
                double py = x.stock().yOnSideMm(hole.side(), side, hole.yMm());
                if (StrictMath.hypot(px - xMm, py - yMm) <= Rings.radiusMm(x, hole, own) + 0.03) {
                    return true;
                }
            }
        }
        return false;
    }

    private static void farFoil(Examination x, FindingCollector out) {
        Segments s = x.plan().segments();
        double glueMm = -x.thicknessMm() + x.foilMm();
        for (RunFacts run : x.runs()) {
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                Work work = x.workOf(i);
                double low = run.blankFromRunMm(s.lowestMm(i));
                if (work != null && work.copper() && x.removes(i) && low <= glueMm + 1e-9 && x.overBlank(i)) {
                    out.add(x.at(Finding.of(Kinds.SEVERED_COPPER, Severity.FIX, Certainty.GEOMETRY), i)
                            .atLeast(Measured.mm("height above the far foil", low - glueMm, 0.001), 0)
                            .says("Copper work goes so deep that it takes the copper of the far side too.")
                            .doThis("Check the depth and the Z zero of this program.")
                            .build());
                    break;
                }
            }
        }
    }
}
