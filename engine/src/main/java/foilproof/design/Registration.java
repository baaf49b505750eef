package foilproof.design;

import foilproof.stock.Parallel;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * Whether the milled copper lies where the design says. Points just inside and just outside the drawn copper's edges are
 * asked on the milled board: inside there must be copper, outside it must be cleared. The score of a hypothesis is the
 * share of inside points with copper plus the share of outside points without, less 1: 1 for a perfect fit, about 0 for
 * a board that has nothing to do with the design. All eight ways to lay a rectangle are tried, each with its best shift.
 *
 * @param matches every hypothesis with its best shift, best score first
 * @param declared the match as declared, with its best shift
 * @param scoreInPlace score as declared, without any shift
 * @param verdict what follows
 */
public record Registration(List<Match> matches, Match declared, double scoreInPlace, Verdict verdict) {
    /** Copies the list. */
    public Registration {
        matches = List.copyOf(matches);
    }

    /** A lead in score below this is none: two hypotheses fit alike (needs.md B9). */
    public static final double LEAD = 0.05;
    /** Below this no hypothesis fits. */
    public static final double FITS_FROM = 0.35;

    /** Stands for a blank whose size does not matter, mm. */
    private static final Bounds EVERYWHERE = new Bounds(-1e6, -1e6, 1e6, 1e6);

    private static final double EDGE_MM = 0.05;
    private static final double RASTER_MM = 0.05;
    private static final double COARSE_STEP_MM = 0.08;
    private static final int COARSE_POINTS = 500;
    private static final int FINE_POINTS = 4000;
    private static final int CENTRE_POINTS = 2000;
    private static final double CENTRE_STEP_MM = 0.01;
    /** Every so many points it is asked whether the rest still counts. */
    private static final int LOOK_EVERY = 16;
    /** A score that every score is above. */
    private static final double NEVER = Double.NEGATIVE_INFINITY;

    /** A way that the design may lie, seen in the blank's frame of the side, about the middle of the drawn copper. */
    public enum Way {
        /** As the job declares. */
        AS_DECLARED("as declared", PlaneMap.IDENTITY),
        /** X mirrored. */
        MIRRORED_X("mirrored in X", PlaneMap.mirrorX(0)),
        /** Y mirrored. */
        MIRRORED_Y("mirrored in Y", PlaneMap.mirrorY(0)),
        /** Turned by a quarter, counter-clockwise. */
        TURNED_90("turned by 90 degrees", PlaneMap.quarterTurns(1)),
        /** Turned by half a turn. */
        TURNED_180("turned by 180 degrees", PlaneMap.quarterTurns(2)),
        /** Turned by three quarters, counter-clockwise. */
        TURNED_270("turned by 270 degrees", PlaneMap.quarterTurns(3)),
        /** Mirrored in X, then turned by a quarter. */
        MIRRORED_TURNED_90(
                "mirrored and turned by 90 degrees", PlaneMap.mirrorX(0).then(PlaneMap.quarterTurns(1))),
        /** Mirrored in X, then turned by three quarters. */
        MIRRORED_TURNED_270(
                "mirrored and turned by 270 degrees", PlaneMap.mirrorX(0).then(PlaneMap.quarterTurns(3)));

        private final String words;
        private final PlaneMap map;

        Way(String words, PlaneMap map) {
            this.words = words;
            this.map = map;
        }

        /** In words. */
        public String words() {
            return words;
        }
    }

    /** What follows from the scores. */
    public enum Verdict {
        /** The board lies as declared; see the shift. */
        AS_DECLARED,
        /** Another way fits clearly better: {@link Registration#best()}. */
        OTHERWISE,
        /** Two ways fit alike: the art is symmetric, and nothing can be told from it. */
        CANNOT_TELL,
        /** No way fits: another board, another revision, or nothing milled. */
        NO_MATCH
    }

    /**
     * A hypothesis and its best shift.
     *
     * @param way how the design would lie
     * @param score 1 perfect, about 0 unrelated
     * @param dxMm shift of the milled board against the design, X in the blank's frame of the side, mm
     * @param dyMm the same for Y
     */
    public record Match(Way way, double score, double dxMm, double dyMm) {
        /** Length of the shift, mm. */
        public double shiftMm() {
            return StrictMath.hypot(dxMm, dyMm);
        }

        @Override
        public String toString() {
            return String.format(Locale.ROOT, "%s, score %.3f, shift (%.3f, %.3f) mm", way.words(), score, dxMm, dyMm);
        }
    }

    /** The best match. */
    public Match best() {
        return matches.get(0);
    }

    /** How far the best score is ahead of the best of the other ways. */
    public double lead() {
        return matches.get(0).score() - matches.get(1).score();
    }

    /**
     * Compares.
     *
     * @param layer the drawn copper, already in the blank's frame of the side as declared ({@link LayerImage#mapped})
     * @param milled the milled copper in the same frame
     * @param widthMm the blank along X, mm
     * @param heightMm the blank along Y, mm
     * @param reachMm how far to look for a shift, mm; a few mm
     */
    public static Registration compare(
            LayerImage layer, CopperProbe milled, double widthMm, double heightMm, double reachMm) {
        return compare(layer, milled, widthMm, heightMm, reachMm, Double.NaN, Double.NaN, 1);
    }

    /**
     * Compares, with the middle of the copper work known: outlines and bores beside it would draw the middle of all that
     * is cut away from it.
     *
     * @param layer the drawn copper, already in the blank's frame of the side as declared
     * @param milled the milled copper in the same frame
     * @param widthMm the blank along X, mm
     * @param heightMm the blank along Y, mm
     * @param reachMm how far to look for a shift, mm
     * @param middleXMm middle of the copper work, mm; NaN where not known
     * @param middleYMm middle of the copper work, mm; NaN where not known
     * @param threads threads to use; the probe is asked from all of them
     */
    public static Registration compare(
            LayerImage layer,
            CopperProbe milled,
            double widthMm,
            double heightMm,
            double reachMm,
            double middleXMm,
            double middleYMm,
            int threads) {
        Points points = Points.of(layer, new Bounds(0, 0, widthMm, heightMm));
        if (points.inX.length == 0 || points.outX.length == 0) {
            Match none = new Match(Way.AS_DECLARED, 0, 0, 0);
            return new Registration(List.of(none, none), none, 0, Verdict.NO_MATCH);
        }
        Board board = new Board(milled, widthMm, heightMm);
        Bounds box = layer.bounds();
        double cx = 0.5 * (box.minXMm() + box.maxXMm());
        double cy = 0.5 * (box.minYMm() + box.maxYMm());
        double boardX = Double.isNaN(middleXMm) ? board.cutCentreX(cx) : middleXMm;
        double boardY = Double.isNaN(middleYMm) ? board.cutCentreY(cy) : middleYMm;
        Way[] ways = Way.values();
        Match[] found = new Match[ways.length];
        Parallel.run(ways.length, threads, () -> k -> {
            Way way = ways[k];
            PlaneMap map = PlaneMap.shift(-cx, -cy).then(way.map).then(PlaneMap.shift(cx, cy));
            Points turned = points.mapped(map);
            Match here = search(way, turned, board, milled, 0, 0, reachMm);
            if (StrictMath.hypot(boardX - cx, boardY - cy) > 0.5 * reachMm) {
                Match there = search(way, turned, board, milled, boardX - cx, boardY - cy, reachMm);
                here = there.score() > here.score() + 0.01 ? there : here;
            }
            found[k] = here;
        });
        Match declared = found[Way.AS_DECLARED.ordinal()];
        List<Match> matches = new ArrayList<>(List.of(found));
        matches.sort(Comparator.comparingDouble((Match m) -> -m.score()).thenComparing(Match::way));
        double inPlace = points.score(milled, 0, 0, FINE_POINTS, NEVER);
        return new Registration(matches, declared, inPlace, verdict(matches, declared));
    }

    /**
     * The score as declared, without any search: quick. A board that scores well in place needs no comparison with
     * other ways: nothing would follow from one.
     *
     * @param layer the drawn copper in the blank's frame of the side
     * @param milled the milled copper in the same frame
     */
    public static double scoreInPlace(LayerImage layer, CopperProbe milled) {
        Points points = Points.of(layer, EVERYWHERE);
        return points.inX.length == 0 || points.outX.length == 0 ? 0 : points.score(milled, 0, 0, FINE_POINTS, NEVER);
    }

    /**
     * The shift as declared, looked for near 0 only: quick. Good to about 0.02 mm where the score in place is high.
     *
     * @param layer the drawn copper in the blank's frame of the side
     * @param milled the milled copper in the same frame
     */
    public static Match shiftInPlace(LayerImage layer, CopperProbe milled) {
        Points points = Points.of(layer, EVERYWHERE);
        if (points.inX.length == 0 || points.outX.length == 0) {
            return new Match(Way.AS_DECLARED, 0, 0, 0);
        }
        double score = points.score(milled, 0, 0, CENTRE_POINTS, NEVER);
        return centred(Way.AS_DECLARED, points, milled, 0, 0, score);
    }

    private static Verdict verdict(List<Match> matches, Match declared) {
        Match best = matches.get(0);
        if (best.score() < FITS_FROM) {
            return Verdict.NO_MATCH;
        }
        if (best.score() - matches.get(1).score() < LEAD) {
            return Verdict.CANNOT_TELL;
        }
        return best.way() == declared.way() ? Verdict.AS_DECLARED : Verdict.OTHERWISE;
    }

    private static Match search(
            Way way, Points p, Board board, CopperProbe milled, double startX, double startY, double reach) {
        int n = (int) Math.ceil(reach / COARSE_STEP_MM);
        double best = Double.NEGATIVE_INFINITY;
        double dx = startX;
        double dy = startY;
        for (int ring = 0; ring <= n; ring++) {
            for (int i = -ring; i <= ring; i++) {
                for (int j = -ring; j <= ring; j++) {
                    if (Math.max(Math.abs(i), Math.abs(j)) != ring) {
                        continue;
                    }
                    double score = p.score(
                            board,
                            startX + i * COARSE_STEP_MM,
                            startY + j * COARSE_STEP_MM,
                            COARSE_POINTS,
                            best + 1e-9);
                    if (score > best + 1e-9) {
                        best = score;
                        dx = startX + i * COARSE_STEP_MM;
                        dy = startY + j * COARSE_STEP_MM;
                    }
                }
            }
        }
        best = p.score(milled, dx, dy, FINE_POINTS, NEVER);
        for (double step = COARSE_STEP_MM / 2; step > 0.002; step /= 2) {
            boolean moved = true;
            for (int k = 0; k < 4 && moved; k++) {
                moved = false;
                double atX = dx;
                double atY = dy;
                for (int i = -1; i <= 1; i++) {
                    for (int j = -1; j <= 1; j++) {
                        double score = p.score(milled, atX + i * step, atY + j * step, FINE_POINTS, best + 1e-12);
                        if (score > best + 1e-12) {
                            best = score;
                            dx = atX + i * step;
                            dy = atY + j * step;
                            moved = true;
                        }
                    }
                }
            }
        }
        return centred(way, p, milled, dx, dy, best);
    }

    /** Moves a shift to the middle of the stretch over which the score stays: grooves are wider than the points. */
    private static Match centred(Way way, Points p, CopperProbe milled, double startX, double startY, double score) {
        double dx = startX;
        double dy = startY;
        for (int k = 0; k < 2; k++) {
            double atY = dy;
            dx += middle(p, milled, dx, dy, 1, 0, score);
            dy += middle(p, milled, dx, atY, 0, 1, score);
        }
        return new Match(way, score, dx, dy);
    }

    private static double middle(
            Points p, CopperProbe milled, double dx, double dy, int alongX, int alongY, double score) {
        double[] end = new double[2];
        for (int s = 0; s < 2; s++) {
            double way = s == 0 ? -CENTRE_STEP_MM : CENTRE_STEP_MM;
            int k = 1;
            double least = score - 0.04;
            while (k < 60
                    && p.score(milled, dx + k * way * alongX, dy + k * way * alongY, CENTRE_POINTS, least) > least) {
                k++;
            }
            end[s] = (k - 0.5) * way;
        }
        return 0.5 * (end[0] + end[1]);
    }

    /**
     * Points of the drawn copper 0.05 to 0.15 mm inside its edges (walls may stand that far in: runout, depth of a V),
     * and points up to 0.05 mm outside, where the bare ground parts two pieces. What would lie off the blank says nothing.
     */
    private record Points(double[] inX, double[] inY, double[] outX, double[] outY, Bounds blank) {
        static Points of(LayerImage layer, Bounds blank) {
            Bounds box = layer.bounds().grown(4 * EDGE_MM);
            if (box.isEmpty()) {
                return new Points(new double[0], new double[0], new double[0], new double[0], blank);
            }
            double cell = Math.max(EDGE_MM, Math.sqrt(box.widthMm() * box.heightMm() / 1.6e7));
            RasterGrid grid = RasterGrid.over(box, cell);
            BitSet copper = layer.rasterise(grid);
            BitSet ground = DividingGround.of(grid, copper);
            List<double[]> in = new ArrayList<>();
            List<double[]> edge = new ArrayList<>();
            List<double[]> out = new ArrayList<>();
            for (int r = 2; r + 2 < grid.rows(); r++) {
                for (int c = 2; c + 2 < grid.columns(); c++) {
                    boolean here = copper.get(grid.index(c, r));
                    double[] p = {grid.centreXMm(c), grid.centreYMm(r)};
                    if (!here) {
                        if (ground.get(grid.index(c, r)) && touches(copper, grid, c, r, 1)) {
                            out.add(p);
                        }
                    } else if (touches(ground, grid, c, r, 1)) {
                        edge.add(p);
                    } else if (touches(ground, grid, c, r, 2)) {
                        in.add(p);
                    }
                }
            }
            in = in.size() < 50 ? edge : in;
            return new Points(column(in, 0), column(in, 1), column(out, 0), column(out, 1), blank);
        }

        private static boolean touches(BitSet cells, RasterGrid grid, int c, int r, int by) {
            return cells.get(grid.index(c + by, r))
                    || cells.get(grid.index(c - by, r))
                    || cells.get(grid.index(c, r + by))
                    || cells.get(grid.index(c, r - by));
        }

        private static double[] column(List<double[]> points, int k) {
            double[] v = new double[points.size()];
            for (int i = 0; i < v.length; i++) {
                v[i] = points.get(i)[k];
            }
            return v;
        }

        Points mapped(PlaneMap map) {
            double[][] v = {inX.clone(), inY.clone(), outX.clone(), outY.clone()};
            for (int k = 0; k < 4; k += 2) {
                for (int i = 0; i < v[k].length; i++) {
                    double x = v[k][i];
                    v[k][i] = map.xMm(x, v[k + 1][i]);
                    v[k + 1][i] = map.yMm(x, v[k + 1][i]);
                }
            }
            return new Points(v[0], v[1], v[2], v[3], blank);
        }

        /**
         * The score at a shift. Where it cannot come above {@code least}, points that are left need not be asked: then
         * some number not above {@code least} is returned.
         */
        double score(CopperProbe board, double dx, double dy, int most, double least) {
            // a stride prime to common pitches spreads the points over the board
            int ins = Math.min(most, inX.length);
            int outs = Math.min(most, outX.length);
            long inStride = inX.length <= most ? 1 : inX.length / ins;
            long outStride = outX.length <= most ? 1 : outX.length / outs;
            int inHits = ins;
            int outHits = outs;
            int inOff = 0;
            int outOff = 0;
            for (int k = 0; k < ins || k < outs; k++) {
                if (k < ins) {
                    int i = (int) (k * inStride % inX.length);
                    boolean off = !blank.holds(inX[i] + dx, inY[i] + dy);
                    inOff += off ? 1 : 0;
                    inHits -= off || !board.copperAt(inX[i] + dx, inY[i] + dy) ? 1 : 0;
                }
                if (k < outs) {
                    int i = (int) (k * outStride % outX.length);
                    boolean off = !blank.holds(outX[i] + dx, outY[i] + dy);
                    outOff += off ? 1 : 0;
                    outHits -= off || board.copperAt(outX[i] + dx, outY[i] + dy) ? 1 : 0;
                }
                if (k % LOOK_EVERY == 0 && share(inHits, ins, inOff) + share(outHits, outs, outOff) - 1 <= least) {
                    break;
                }
            }
            // Points that are left count as hits until they are asked. A point less among hits and all makes a share no
            // larger, and rounding keeps order: so this is no less than the score when all are asked.
            return share(inHits, ins, inOff) + share(outHits, outs, outOff) - 1;
        }

        /** A share of hits: half of all at least must lie on the blank to say anything. */
        private static double share(int hits, int all, int off) {
            return (double) hits / Math.max(all - off, all - all / 2);
        }
    }

    /** The milled board sampled once, for the coarse search. */
    private static final class Board implements CopperProbe {
        private final RasterGrid grid;
        private final BitSet copper;
        private final Bounds cut;

        Board(CopperProbe milled, double widthMm, double heightMm) {
            double cell = Math.max(RASTER_MM, Math.sqrt(widthMm * heightMm / 1.6e7));
            grid = RasterGrid.over(new Bounds(0, 0, widthMm, heightMm), cell);
            copper = new BitSet(grid.columns() * grid.rows());
            Bounds box = Bounds.NONE;
            for (int r = 0; r < grid.rows(); r++) {
                for (int c = 0; c < grid.columns(); c++) {
                    if (milled.copperAt(grid.centreXMm(c), grid.centreYMm(r))) {
                        copper.set(grid.index(c, r));
                    } else {
                        box = box.with(grid.centreXMm(c), grid.centreYMm(r));
                    }
                }
            }
            cut = box;
        }

        double cutCentreX(double otherwise) {
            return cut.isEmpty() ? otherwise : 0.5 * (cut.minXMm() + cut.maxXMm());
        }

        double cutCentreY(double otherwise) {
            return cut.isEmpty() ? otherwise : 0.5 * (cut.minYMm() + cut.maxYMm());
        }

        @Override
        public boolean copperAt(double xMm, double yMm) {
            int c = floor((xMm - grid.x0Mm()) / grid.cellMm());
            int r = floor((yMm - grid.y0Mm()) / grid.cellMm());
            return c >= 0 && r >= 0 && c < grid.columns() && r < grid.rows() && copper.get(grid.index(c, r));
        }

        /** The library's floor takes longer than all the rest until the thorough compiler comes. */
        private static int floor(double v) {
            int i = (int) v;
            return v < i ? i - 1 : i;
        }
    }
}
