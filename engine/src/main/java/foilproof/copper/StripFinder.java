package foilproof.copper;

import foilproof.geom.DisjointSets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Finds strips of copper and gaps that are narrower than they should be.
 *
 * <p>Steps: for samples along every contour the wall across ({@link Crossings}); samples that follow each other, or
 * face each other, are one strip; every strip is measured anew, from the cutters' shapes, at places along it, and told
 * only where these agree that it is narrow over {@link Strip#LEAST_LENGTH_MM}: what the grid alone makes is dropped.
 */
public final class StripFinder {
    private static final int SECTIONS = 17;
    /** Loose ends longer than this are not followed further, mm. */
    private static final double FARTHEST_REACH_MM = 30;

    private final CopperMap map;
    private final VertexIndex index;
    private final double widestMm;
    private final Strip.Limits limits;
    private final Crossings copper;
    private final @Nullable LineIndex lines;
    private final @Nullable List<CutLines> cuts;
    private final @Nullable Designed designed;

    /** What the design wants as copper on this side, in the blank's frame. */
    @FunctionalInterface
    public interface Designed {
        /** Whether the design has copper at a place. */
        boolean copperAt(double xMm, double yMm);
    }

    private StripFinder(
            CopperMap map, Strip.Limits limits, @Nullable List<CutLines> cuts, @Nullable Designed designed) {
        this.map = map;
        this.limits = limits;
        this.widestMm = limits.widestMm();
        this.cuts = cuts;
        this.designed = designed;
        index = map.vertices();
        copper = map.copperCrossings(widestMm);
        for (int s = 0; s < copper.vertex.length; s++) {
            if (copper.across[s] >= 0 && (index.onRoundHole(copper.vertex[s]) || index.onRoundHole(copper.across[s]))) {
                copper.across[s] = -1;
            }
        }
        lines = cuts == null
                ? null
                : new LineIndex(cuts, map.field().widthMm(), map.field().heightMm());
    }

    /**
     * Strips of copper narrower than a limit, worst first: hairs, slivers, thin ones; the narrower first in each. Rings
     * round bores and drilled holes are no strips.
     *
     * @param map copper at the foil's bottom (level 0)
     * @param widestMm widest that is told (needs.md: 0.25)
     * @param cuts centre lines of the runs of this side; null where not known: then every strip counts as leftover
     * @param designed what the design has; null where none is known: then a strip between two different grooves, or
     *     between two strands of one that is not closed, is leftover, and one that a single closed groove surrounds is
     *     not
     */
    public static List<Strip> strips(
            CopperMap map, double widestMm, @Nullable List<CutLines> cuts, @Nullable Designed designed) {
        return strips(map, Strip.Limits.DEFAULTS.withWidest(widestMm), cuts, designed);
    }

    /** As {@link #strips(CopperMap, double, List, Designed)}, with the shop's own widths and lengths. */
    public static List<Strip> strips(
            CopperMap map, Strip.Limits limits, @Nullable List<CutLines> cuts, @Nullable Designed designed) {
        return new StripFinder(map, limits, cuts, designed).find();
    }

    /** Samples that follow each other or face each other. */
    private Collection<IntList> groups() {
        int n = copper.vertex.length;
        DisjointSets sets = new DisjointSets(n);
        for (int s = 0; s < n; s++) {
            if (copper.across[s] < 0) {
                continue;
            }
            int t = s;
            double gap = 0;
            // A sample or two may miss at a kink; more is an end.
            for (int k = 0; k < 3; k++) {
                gap += copper.lengthMm[t];
                t = nextOnLoop(t);
                if (copper.across[t] >= 0) {
                    sets.union(s, t);
                    break;
                }
                if (gap > 0.09) {
                    break;
                }
            }
            int facing = copper.sampleNear(copper.across[s]);
            if (facing >= 0 && copper.across[facing] >= 0) {
                sets.union(s, facing);
            }
        }
        Map<Integer, IntList> groups = new LinkedHashMap<>();
        for (int s = 0; s < n; s++) {
            if (copper.across[s] >= 0) {
                groups.computeIfAbsent(sets.find(s), r -> new IntList(16)).add(s);
            }
        }
        return groups.values();
    }

    private List<Strip> find() {
        List<Strip> strips = new ArrayList<>();
        for (IntList group : groups()) {
            Strip strip = measure(group);
            if (strip != null) {
                strips.add(strip);
            }
        }
        strips.sort(Comparator.comparing(Strip::grade)
                .thenComparingDouble(Strip::baseMm)
                .thenComparingDouble(Strip::xMm)
                .thenComparingDouble(Strip::yMm));
        return strips;
    }

    /**
     * The Z error from which a run leaves wanted copper narrower than a width: the least over all strips that are not
     * leftover.
     *
     * @param map copper at the foil's bottom at the set-up, or at a Z error (its level) from which on it is cleared
     * @param field e* of the run
     * @param thresholdMm the width (needs.md E8: 0.25 watch, 0.15 fix)
     * @param highestMm errors above this are not in question
     * @return null where no strip gets that narrow below {@code highestMm}
     */
    public static @Nullable ZLimit widthLimit(
            CopperMap map,
            ToolRunField field,
            double thresholdMm,
            double highestMm,
            List<CutLines> cuts,
            @Nullable Designed designed) {
        return widthLimits(map, field, new double[] {thresholdMm}, new double[] {highestMm}, cuts, designed)[0];
    }

    /** As {@link #widthLimit}, for several widths at once. */
    static @Nullable ZLimit[] widthLimits(
            CopperMap map,
            ToolRunField field,
            double[] thresholdMm,
            double[] highestMm,
            List<CutLines> cuts,
            @Nullable Designed designed) {
        // A wall moves sideways by 1 / slope of the error: strips wider than this cannot get so narrow.
        double widest = 0;
        for (int k = 0; k < thresholdMm.length; k++) {
            double room = Math.max(0, highestMm[k] - map.levelMm());
            widest = Math.max(widest, thresholdMm[k] + 2 * room / field.flattestSlope() + 1e-4);
        }
        StripFinder finder = new StripFinder(map, Strip.Limits.DEFAULTS.withWidest(widest), cuts, designed);
        List<Integer> samples = new ArrayList<>();
        for (IntList group : finder.groups()) {
            if (finder.gridLength(group) < Strip.LEAST_LENGTH_MM) {
                continue;
            }
            int narrowest = group.data[0];
            double[] widths = new double[group.size];
            for (int k = 0; k < group.size; k++) {
                widths[k] = finder.copper.widthMm[group.data[k]];
                narrowest = widths[k] < finder.copper.widthMm[narrowest] ? group.data[k] : narrowest;
            }
            if (!finder.isLeftover(narrowest, median(widths))) {
                for (int k = 0; k < group.size; k++) {
                    samples.add(group.data[k]);
                }
            }
        }
        samples.sort(Comparator.comparingDouble((Integer s) -> finder.copper.widthMm[s])
                .thenComparingInt(Integer::intValue));
        @Nullable ZLimit[] limits = new ZLimit[thresholdMm.length];
        for (int k = 0; k < limits.length; k++) {
            limits[k] = finder.leastError(samples, field, thresholdMm[k], highestMm[k]);
        }
        return limits;
    }

    private boolean isLeftover(int sample, double usual) {
        int p = copper.vertex[sample];
        double half = 0.5 * copper.widthMm[sample];
        double[] at = {
            0, 0, index.contours.x[p] + half * index.normalX[p], index.contours.y[p] + half * index.normalY[p]
        };
        boolean[] leftover = new boolean[1];
        judge(sample, at, usual, leftover, new int[4]);
        return leftover[0];
    }

    private @Nullable ZLimit leastError(
            List<Integer> samples, ToolRunField field, double thresholdMm, double highestMm) {
        ErrorSection section = new ErrorSection(field);
        ZLimit least = null;
        int asked = 0;
        for (int s : samples) {
            double best = least == null ? highestMm : least.eMm();
            double bound = map.levelMm() + 0.5 * (copper.widthMm[s] - thresholdMm) * field.flattestSlope();
            // Both walls of this run move at most so fast; the rest of the samples are wider still.
            if ((bound >= best - 1e-4 && copper.widthMm[s] > thresholdMm) || asked++ > 400) {
                break;
            }
            int p = copper.vertex[s];
            double half = 0.5 * copper.widthMm[s];
            double x = index.contours.x[p] + half * index.normalX[p];
            double y = index.contours.y[p] + half * index.normalY[p];
            double e = section.errorAtWidth(x, y, index.normalX[p], index.normalY[p], half + 0.05, thresholdMm, best);
            if (e < best) {
                least = ZLimit.at(ZLimit.Kind.WIDTH, e, 0.002 * Math.min(10, field.flattestSlope()), x, y);
            }
        }
        return least;
    }

    private int nextOnLoop(int sample) {
        int loop = index.loopOf[copper.vertex[sample]];
        if (sample + 1 < copper.vertex.length && index.loopOf[copper.vertex[sample + 1]] == loop) {
            return sample + 1;
        }
        return copper.sampleNear(index.contours.loopStart[loop]);
    }

    private double gridLength(IntList group) {
        double length = 0;
        for (int k = 0; k < group.size; k++) {
            int s = group.data[k];
            int facing = copper.sampleNear(copper.across[s]);
            boolean both = facing >= 0 && copper.across[facing] >= 0;
            length += copper.lengthMm[s] * (both ? 0.5 : 1);
        }
        return length;
    }

    private @Nullable Strip measure(IntList group) {
        double length = gridLength(group);
        if (length < limits.lengthMm()) {
            return null;
        }
        Integer[] byWidth = new Integer[group.size];
        for (int k = 0; k < byWidth.length; k++) {
            byWidth[k] = group.data[k];
        }
        Arrays.sort(byWidth, Comparator.comparingDouble(s -> copper.widthMm[s]));
        SectionMeter meter = new SectionMeter(map.field());
        double[] base = new double[SECTIONS];
        double[] top = new double[SECTIONS];
        double[] at = {Double.POSITIVE_INFINITY, 0, 0, 0};
        int narrowest = byWidth[0];
        for (int k = 0; k < SECTIONS; k++) {
            // Evenly over the widths from the narrowest on: each section stands for an equal share of the length.
            int s = byWidth[(int) ((long) k * (byWidth.length - 1) / (SECTIONS - 1))];
            base[k] = section(meter, s, 0);
            double mx = meter.middleXMm;
            double my = meter.middleYMm;
            top[k] = base[k] > 0 ? section(meter, s, map.field().foilMm() - 1e-6) : 0;
            if (base[k] > 0 && base[k] < at[0]) {
                at = new double[] {base[k], top[k], mx, my};
                narrowest = s;
            }
        }
        if (Double.isInfinite(at[0])) {
            return null;
        }
        double hair = length * share(base, limits.hairMm());
        double sliver = length * share(base, limits.sliverMm());
        double told = length * share(base, widestMm);
        double knife = 0;
        for (int k = 0; k < SECTIONS; k++) {
            knife += top[k] < limits.knifeTopMm() && base[k] > limits.knifeBaseMm() && base[k] < widestMm
                    ? length / SECTIONS
                    : 0;
        }
        if (told < limits.lengthMm()) {
            return null;
        }
        return finish(group, length, new double[] {hair, sliver, knife}, at, median(base), narrowest);
    }

    private static double median(double[] widths) {
        double[] sorted = widths.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    /** Share of the length over which the base is copper and narrower than a limit; widths lie even along it. */
    private static double share(double[] widths, double below) {
        double sum = 0;
        for (int k = 0; k + 1 < widths.length; k++) {
            double low = Math.min(widths[k], widths[k + 1]);
            double high = Math.max(widths[k], widths[k + 1]);
            double limit = below - 1e-6;
            if (low <= 0) {
                // The crest runs out somewhere between: half of it counts.
                sum += high > 0 && high < limit ? 0.5 : 0;
            } else if (high < limit) {
                sum += 1;
            } else if (low < limit) {
                sum += (limit - low) / (high - low);
            }
        }
        return sum / (widths.length - 1);
    }

    private double section(SectionMeter meter, int sample, double level) {
        int p = copper.vertex[sample];
        double nx = index.normalX[p];
        double ny = index.normalY[p];
        double half = 0.5 * copper.widthMm[sample];
        double x = index.contours.x[p] + half * nx;
        double y = index.contours.y[p] + half * ny;
        return meter.copperMm(x, y, nx, ny, half + 2 * index.contours.cellMm, level);
    }

    private Strip finish(IntList group, double length, double[] parts, double[] at, double usual, int narrowest) {
        double[] box = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (int k = 0; k < group.size; k++) {
            int v = copper.vertex[group.data[k]];
            box[0] = Math.min(box[0], index.contours.x[v]);
            box[1] = Math.min(box[1], index.contours.y[v]);
            box[2] = Math.max(box[2], index.contours.x[v]);
            box[3] = Math.max(box[3], index.contours.y[v]);
        }
        int component = index.contours.loopComponent[index.loopOf[copper.vertex[narrowest]]];
        boolean[] leftover = new boolean[1];
        int[] line = {-1, 0, -1, 0};
        judge(narrowest, at, usual, leftover, line);
        double[] reach = nearestOther(group, component, Math.min(Math.max(length, 0.5), FARTHEST_REACH_MM));
        int ends = freeEnds(group, usual);
        return new Strip(
                at[2],
                at[3],
                box[0],
                box[1],
                box[2],
                box[3],
                length,
                at[0],
                at[1],
                2 * SectionMeter.ERROR_MM,
                usual,
                parts[0],
                parts[1],
                parts[2],
                ends,
                map.pieceOf(component),
                map.areaOf(component),
                leftover[0],
                reach[0],
                (int) reach[1],
                line[0],
                line[1],
                line[2],
                line[3],
                ends > 0 ? taper(group, narrowest) : 0);
    }

    /**
     * The angle between the walls of a strip that runs out to a point; 0 for one that does not. A point begins narrower
     * than a third of the widest told and widens steadily: width over distance from the tip is a straight line.
     */
    private double taper(IntList group, int narrowest) {
        double x0 = index.contours.x[copper.vertex[narrowest]];
        double y0 = index.contours.y[copper.vertex[narrowest]];
        double w0 = copper.widthMm[narrowest];
        double sd = 0;
        double sw = 0;
        double sdd = 0;
        double sdw = 0;
        double sww = 0;
        double far = 0;
        for (int k = 0; k < group.size; k++) {
            int v = copper.vertex[group.data[k]];
            double dx = index.contours.x[v] - x0;
            double dy = index.contours.y[v] - y0;
            double d = Math.sqrt(dx * dx + dy * dy);
            double w = copper.widthMm[group.data[k]];
            sd += d;
            sw += w;
            sdd += d * d;
            sdw += d * w;
            sww += w * w;
            far = Math.max(far, w);
        }
        int n = group.size;
        double vd = n * sdd - sd * sd;
        double vw = n * sww - sw * sw;
        double cov = n * sdw - sd * sw;
        if (w0 > widestMm / 3 || far < 0.8 * widestMm || vd <= 0 || vw <= 0 || cov * cov < 0.9 * vd * vw || cov < 0) {
            return 0;
        }
        return 2 * StrictMath.atan(0.5 * cov / vd);
    }

    /** Whether the strip is leftover, and the line of the groove beside it that was cut last. */
    private void judge(int narrowest, double[] at, double usual, boolean[] leftover, int[] line) {
        boolean different = true;
        LineIndex near = lines;
        List<CutLines> all = cuts;
        if (near != null && all != null) {
            int p = copper.vertex[narrowest];
            int q = copper.across[narrowest];
            double reach = Math.max(1, 3 * usual);
            if (near.nearest(index.contours.x[p], index.contours.y[p], reach)) {
                int linesP = near.foundLines;
                int pointP = near.foundPoint;
                double alongP = near.foundAlongMm;
                line[0] = all.get(linesP).program(pointP);
                line[1] = all.get(linesP).line(pointP);
                if (near.nearest(index.contours.x[q], index.contours.y[q], reach)) {
                    CutLines cut = all.get(linesP);
                    line[2] = all.get(near.foundLines).program(near.foundPoint);
                    line[3] = all.get(near.foundLines).line(near.foundPoint);
                    boolean same = near.foundLines == linesP && cut.path(near.foundPoint) == cut.path(pointP);
                    // One closed groove round a strip isolates it: a trace. Two strands of an open path leave it over.
                    different = !same
                            || (!cut.closed(cut.path(pointP))
                                    && Math.abs(near.foundAlongMm - alongP) > 3 * Math.max(usual, 0.05));
                    boolean later = near.foundLines > linesP || near.foundLines == linesP && near.foundPoint > pointP;
                    if (later) {
                        int program = line[0];
                        int physical = line[1];
                        line[0] = line[2];
                        line[1] = line[3];
                        line[2] = program;
                        line[3] = physical;
                    }
                }
            }
        }
        leftover[0] = designed != null ? !designed.copperAt(at[2], at[3]) : different;
    }

    /**
     * Ends that nothing holds: where the contour turns round from one side of the strip to the other within a short
     * way.
     */
    private int freeEnds(IntList group, double usual) {
        boolean[] thin = new boolean[copper.vertex.length];
        for (int k = 0; k < group.size; k++) {
            thin[group.data[k]] = true;
        }
        double turn = 2.5 * usual + 8 * index.contours.cellMm + 0.09;
        int ends = 0;
        for (int k = 0; k < group.size; k++) {
            int s = group.data[k];
            int t = nextOnLoop(s);
            double gap = copper.lengthMm[s];
            while (!thin[t] && gap <= turn && t != s) {
                gap += copper.lengthMm[t];
                t = nextOnLoop(t);
            }
            if (!thin[t] || gap > turn || t == s) {
                continue;
            }
            int a = copper.vertex[s];
            int b = copper.vertex[t];
            double facing = index.normalX[a] * index.normalX[b] + index.normalY[a] * index.normalY[b];
            ends += facing < -0.5 ? 1 : 0;
        }
        return ends;
    }

    /** Distance to the nearest other piece, and which; infinite and -1 where none is within reach. */
    private double[] nearestOther(IntList group, int component, double reach) {
        double[] best = {Double.POSITIVE_INFINITY, -1};
        double near = Math.min(0.25, reach);
        for (int k = 0; k < group.size; k += 3) {
            lookRound(copper.vertex[group.data[k]], near, component, best);
        }
        // Nothing across a usual groove: a few places of the strip look further.
        int step = Math.max(1, group.size / 9);
        for (int k = 0; k < group.size && best[0] > near; k += step) {
            for (double w = Math.min(2 * near, reach); ; w = Math.min(2 * w, reach)) {
                lookRound(copper.vertex[group.data[k]], w, component, best);
                if (best[0] <= w || w >= reach) {
                    break;
                }
            }
        }
        return best;
    }

    private void lookRound(int vertex, double window, int component, double[] best) {
        double x = index.contours.x[vertex];
        double y = index.contours.y[vertex];
        double w = Math.min(window, best[0]);
        index.visit(x - w, y - w, x + w, y + w, (q, qx, qy) -> {
            double dx = qx - x;
            double dy = qy - y;
            double d = dx * dx + dy * dy;
            if (d >= best[0] * best[0] || d > w * w) {
                return;
            }
            int other = index.contours.loopComponent[index.loopOf[q]];
            if (other != component && map.pieceOf(other) >= 0) {
                best[0] = Math.sqrt(d);
                best[1] = map.pieceOf(other);
            }
        });
    }

    /**
     * Width of copper at a level on a line through a place, from the cutters' shapes.
     *
     * @param xMm a place in the copper
     * @param yMm likewise
     * @param ux direction of the line, length 1
     * @param uy likewise
     * @param reachMm how far either way a wall may lie
     * @param levelMm 0 for the foil's bottom, the foil's thickness for its top; a Z error of + e is e more
     * @return mm; 0 where the copper does not reach the level
     */
    public static double widthMm(
            MarginField field, double xMm, double yMm, double ux, double uy, double reachMm, double levelMm) {
        return new SectionMeter(field).copperMm(xMm, yMm, ux, uy, reachMm, levelMm);
    }

    /**
     * The narrowest place of each piece that has one below a limit, by piece.
     *
     * @param map copper at the foil's bottom
     * @param widestMm wider places are not sought
     */
    public static List<Narrowest> narrowest(CopperMap map, double widestMm) {
        VertexIndex index = map.vertices();
        Crossings copper = map.copperCrossings(widestMm);
        int[] least = new int[map.pieces().size()];
        Arrays.fill(least, -1);
        for (int s = 0; s < copper.vertex.length; s++) {
            int component = index.contours.loopComponent[index.loopOf[copper.vertex[s]]];
            int piece = copper.across[s] < 0 ? -1 : map.pieceOf(component);
            if (piece >= 0 && (least[piece] < 0 || copper.widthMm[s] < copper.widthMm[least[piece]])) {
                least[piece] = s;
            }
        }
        SectionMeter meter = new SectionMeter(map.field());
        List<Narrowest> found = new ArrayList<>();
        for (int piece = 0; piece < least.length; piece++) {
            int s = least[piece];
            if (s < 0) {
                continue;
            }
            int p = copper.vertex[s];
            double nx = index.normalX[p];
            double ny = index.normalY[p];
            double half = 0.5 * copper.widthMm[s];
            double x = index.contours.x[p] + half * nx;
            double y = index.contours.y[p] + half * ny;
            double width = meter.copperMm(x, y, nx, ny, half + 2 * index.contours.cellMm, 0);
            boolean agrees = Math.abs(width - copper.widthMm[s]) < 2 * index.contours.cellMm;
            found.add(new Narrowest(
                    piece,
                    x,
                    y,
                    agrees ? width : copper.widthMm[s],
                    agrees ? 2 * SectionMeter.ERROR_MM : index.contours.cellMm));
        }
        return found;
    }

    /**
     * Gaps between two different pieces that are narrower than a limit, the narrowest place of each pair, narrowest
     * pair first.
     *
     * @param map copper at the foil's bottom (level 0)
     * @param widestMm widest that is told (needs.md E3: 0.15)
     */
    public static List<NarrowGap> gaps(CopperMap map, double widestMm) {
        VertexIndex index = map.vertices();
        Crossings gap = new Crossings(index, widestMm, false);
        Contours c = index.contours;
        Map<Long, IntList> pairs = new LinkedHashMap<>();
        for (int s = 0; s < gap.vertex.length; s++) {
            if (gap.across[s] < 0) {
                continue;
            }
            int a = map.pieceOf(c.loopComponent[index.loopOf[gap.vertex[s]]]);
            int b = map.pieceOf(c.loopComponent[index.loopOf[gap.across[s]]]);
            if (a >= 0 && b >= 0 && a != b) {
                long pair = (long) Math.min(a, b) << 32 | Math.max(a, b);
                pairs.computeIfAbsent(pair, k -> new IntList(16)).add(s);
            }
        }
        List<NarrowGap> found = new ArrayList<>();
        for (Map.Entry<Long, IntList> entry : pairs.entrySet()) {
            NarrowGap narrow = measureGap(map, index, gap, entry.getKey(), entry.getValue());
            if (narrow.bottomMm() < widestMm - 1e-6) {
                found.add(narrow);
            }
        }
        found.sort(Comparator.comparingDouble(NarrowGap::bottomMm)
                .thenComparingDouble(NarrowGap::xMm)
                .thenComparingDouble(NarrowGap::yMm));
        return found;
    }

    /** Measures the narrowest samples of a pair anew, from the cutters' shapes. */
    private static NarrowGap measureGap(CopperMap map, VertexIndex index, Crossings gap, long pair, IntList samples) {
        Contours c = index.contours;
        double least = Double.POSITIVE_INFINITY;
        double length = 0;
        for (int k = 0; k < samples.size; k++) {
            least = Math.min(least, gap.widthMm[samples.data[k]]);
            length += 0.5 * gap.lengthMm[samples.data[k]];
        }
        IntList narrowest = new IntList(16);
        for (int k = 0; k < samples.size; k++) {
            if (gap.widthMm[samples.data[k]] <= least + 0.002) {
                narrowest.add(samples.data[k]);
            }
        }
        SectionMeter meter = new SectionMeter(map.field());
        double[] best = {Double.POSITIVE_INFINITY, Double.NaN, Double.NaN, Double.NaN};
        int step = Math.max(1, narrowest.size / 8);
        for (int k = step / 2; k < narrowest.size; k += step) {
            int s = narrowest.data[k];
            int p = gap.vertex[s];
            double nx = -index.normalX[p];
            double ny = -index.normalY[p];
            double half = 0.5 * gap.widthMm[s];
            double x = c.x[p] + half * nx;
            double y = c.y[p] + half * ny;
            double bottom = meter.gapMm(x, y, nx, ny, half + 0.2, 0);
            if (bottom < best[0]) {
                best = new double[] {
                    bottom,
                    finite(meter.gapMm(x, y, nx, ny, half + 0.2, map.field().foilMm() - 1e-6)),
                    x,
                    y
                };
            }
        }
        double error = 2 * SectionMeter.ERROR_MM;
        if (Double.isInfinite(best[0])) {
            // At a corner the line across may miss the other wall: then the contour's own distance stands.
            int p = gap.vertex[narrowest.data[0]];
            best = new double[] {least, Double.NaN, c.x[p], c.y[p]};
            error = c.cellMm;
        }
        return new NarrowGap(best[2], best[3], best[0], best[1], error, length, (int) (pair >>> 32), (int) pair);
    }

    private static double finite(double mm) {
        return Double.isInfinite(mm) ? Double.NaN : mm;
    }
}
