package foilproof.app.viewer;

import foilproof.bench.Tool;
import foilproof.findings.Examiner;
import foilproof.findings.RunFacts;
import foilproof.motion.Segments;
import foilproof.motion.ToolRun;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Values by place that no height tells: which line and which moment made the floor, how wide the copper is. Maps for
 * colouring: a click asks the engine for exact answers instead.
 */
final class WorkFields implements BoardSnapshot.Fields {
    private static final int KEPT = 6;

    private final Examiner.Ground ground;
    private final Map<List<Object>, FieldMap> kept = new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<List<Object>, FieldMap> eldest) {
            return size() > KEPT;
        }
    };

    WorkFields(Examiner.Ground ground) {
        this.ground = ground;
    }

    @Override
    public synchronized @Nullable FieldMap of(BoardSnapshot board, BoardSnapshot.Conditions c, Look.Paint paint) {
        if (paint != Look.Paint.LINE && paint != Look.Paint.TIME && paint != Look.Paint.WIDTH) {
            return null;
        }
        List<Object> key = new ArrayList<>(List.of(paint, board.side(), board.timeS(), board.thicknessMm()));
        // Errors move the copper's edge; who made a floor they hardly move.
        key.add(paint == Look.Paint.WIDTH ? Arrays.toString(c.zErrorMm()) + c.bowMm() + "," + c.foilMm() : "");
        key.add(Arrays.toString(c.absent()));
        FieldMap have = kept.get(key);
        if (have == null) {
            have = paint == Look.Paint.WIDTH ? widths(board, c) : floors(board, c, paint);
            kept.put(key, have);
        }
        return have;
    }

    /** One move as it is painted. */
    private record Stroke(int segment, double lowestMm, double radiusMm, BoardSnapshot.ToolRun run) {}

    /** Paints all moves, deepest last and earliest last among equals: what is on top made the floor. */
    private FieldMap floors(BoardSnapshot board, BoardSnapshot.Conditions c, Look.Paint paint) {
        FieldMap grid = FieldMap.over(board);
        List<Stroke> strokes = strokes(board, c);
        Segments all = ground.plan().segments();
        strokes.sort(Comparator.<Stroke>comparingDouble(s -> -Math.round(s.lowestMm() * 1e4))
                .thenComparingDouble(s -> -all.startS(s.segment())));
        BufferedImage image = new BufferedImage(grid.columns(), grid.rows(), BufferedImage.TYPE_INT_ARGB);
        Graphics2D g = image.createGraphics();
        g.scale(1 / grid.cellMm(), 1 / grid.cellMm());
        for (Stroke s : strokes) {
            g.setColor(new Color(0xFF000000 | s.segment(), true));
            g.setStroke(new BasicStroke((float) (2 * s.radiusMm()), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
            g.draw(path(s, all));
        }
        g.dispose();
        int[] who = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
        float[] values = new float[who.length];
        for (int i = 0; i < who.length; i++) {
            int segment = who[i] & 0xFFFFFF;
            values[i] = who[i] >>> 24 == 0
                    ? Float.NaN
                    : paint == Look.Paint.LINE ? all.line(segment) : (float) all.endS(segment);
        }
        return grid.with(values);
    }

    private List<Stroke> strokes(BoardSnapshot board, BoardSnapshot.Conditions c) {
        Segments all = ground.plan().segments();
        List<Stroke> strokes = new ArrayList<>();
        for (int k = 0; k < board.runs().size(); k++) {
            BoardSnapshot.ToolRun shown = board.runs().get(k);
            if (shown.jobRun() < 0 || c.isAbsent(k)) {
                continue;
            }
            RunFacts facts = ground.runs().get(shown.jobRun());
            ToolRun run = facts.run();
            if (facts.tool() == null) {
                continue;
            }
            Tool tool = Objects.requireNonNull(facts.tool());
            for (int i = run.firstSegment(); i < run.endSegment(); i++) {
                double low = all.lowestMm(i) + board.runShiftMm(c, k);
                if (low < 0 && all.startS(i) < board.timeS() && i < 0xFFFFFF) {
                    double r = tool.radiusAtHeightMm(Math.min(-low, 20));
                    if (Double.isFinite(r) && r > 0) {
                        strokes.add(new Stroke(i, low, r, shown));
                    }
                }
            }
        }
        return strokes;
    }

    private static Path2D path(Stroke s, Segments all) {
        Path2D path = new Path2D.Double();
        int parts = all.isArc(s.segment()) ? 48 : 1;
        for (int i = 0; i <= parts; i++) {
            double[] p = all.pointAt(s.segment(), (double) i / parts);
            // x in the run's frame = flipX x + shiftX; the flips are their own inverse.
            double x = s.run().flipX() * (p[0] - s.run().shiftXMm());
            double y = s.run().flipY() * (p[1] - s.run().shiftYMm());
            if (i == 0) {
                path.moveTo(x, y);
            } else {
                path.lineTo(x, y);
            }
        }
        return path;
    }

    /**
     * Local thickness of the copper at the foil's underside: at each cell the diameter of the widest disc that lies in
     * copper and holds the cell (Hildebrand and Ruegsegger, J. Microscopy 185, 1997), discs drawn about the ridge of the
     * distance transform (Felzenszwalb and Huttenlocher, Theory of Computing 8, 2012). Good to about a cell.
     */
    static FieldMap widths(BoardSnapshot board, BoardSnapshot.Conditions c) {
        FieldMap grid = FieldMap.over(board);
        int w = grid.columns();
        int h = grid.rows();
        float[] far = new float[w * h];
        for (int r = 0; r < h; r++) {
            for (int x = 0; x < w; x++) {
                BoardSnapshot.Material m = board.spot(c, (x + 0.5) * grid.cellMm(), (r + 0.5) * grid.cellMm())
                        .material();
                boolean copper = m == BoardSnapshot.Material.FOIL || m == BoardSnapshot.Material.FOIL_LEFT;
                far[r * w + x] = copper ? 1e12f : 0;
            }
        }
        squaredDistances(far, w, h);
        int limit = (int) Math.ceil(Look.WIDEST_MM / 2 / grid.cellMm());
        float[] best = new float[w * h];
        for (int r = 0; r < h; r++) {
            for (int x = 0; x < w; x++) {
                double d = Math.min(limit, Math.sqrt(far[r * w + x]));
                if (d > 0 && (d >= limit ? edgeOfWide(far, w, h, x, r, limit) : ridge(far, w, h, x, r, d))) {
                    disc(best, w, h, x, r, d);
                }
                if (d >= limit) {
                    best[r * w + x] = limit;
                }
            }
        }
        for (int i = 0; i < best.length; i++) {
            best[i] = far[i] == 0
                    ? Float.NaN
                    : (float) Math.min(Look.WIDEST_MM, (2 * Math.max(1, best[i]) - 1) * grid.cellMm());
        }
        return grid.with(best);
    }

    private static float at(float[] a, int w, int h, int x, int y) {
        return x < 0 || y < 0 || x >= w || y >= h ? 0 : a[y * w + x];
    }

    /** Whether no neighbour's disc holds the disc of this cell. */
    private static boolean ridge(float[] far, int w, int h, int x, int y, double d) {
        for (int dy = -1; dy <= 1; dy++) {
            for (int dx = -1; dx <= 1; dx++) {
                double step = dx != 0 && dy != 0 ? 1.4142135623730951 : 1;
                if ((dx != 0 || dy != 0) && Math.sqrt(at(far, w, h, x + dx, y + dy)) >= d + step - 0.02) {
                    return false;
                }
            }
        }
        return true;
    }

    private static boolean edgeOfWide(float[] far, int w, int h, int x, int y, int limit) {
        float l = (float) limit * limit;
        return at(far, w, h, x - 1, y) < l
                || at(far, w, h, x + 1, y) < l
                || at(far, w, h, x, y - 1) < l
                || at(far, w, h, x, y + 1) < l;
    }

    private static void disc(float[] best, int w, int h, int x, int y, double d) {
        int reach = (int) d;
        for (int dy = -reach; dy <= reach; dy++) {
            int row = y + dy;
            if (row < 0 || row >= h) {
                continue;
            }
            int half = (int) Math.sqrt(Math.max(0, d * d - (double) dy * dy) - 1e-6);
            int to = Math.min(w - 1, x + half);
            for (int i = Math.max(0, x - half); i <= to; i++) {
                best[row * w + i] = Math.max(best[row * w + i], (float) d);
            }
        }
    }

    /** Squared distance of each cell to the nearest cell of value 0, outside counting as 0; in place. */
    static void squaredDistances(float[] f, int w, int h) {
        int n = Math.max(w, h) + 2;
        double[] line = new double[n];
        double[] out = new double[n];
        int[] v = new int[n];
        double[] z = new double[n + 1];
        for (int x = 0; x < w; x++) {
            for (int y = 0; y < h; y++) {
                line[y + 1] = f[y * w + x];
            }
            line[0] = 0;
            line[h + 1] = 0;
            lower(line, out, v, z, h + 2);
            for (int y = 0; y < h; y++) {
                f[y * w + x] = (float) out[y + 1];
            }
        }
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                line[x + 1] = f[y * w + x];
            }
            line[0] = 0;
            line[w + 1] = 0;
            lower(line, out, v, z, w + 2);
            for (int x = 0; x < w; x++) {
                f[y * w + x] = (float) out[x + 1];
            }
        }
    }

    /** Lower envelope of parabolas, the one-dimensional transform of the paper. */
    private static void lower(double[] f, double[] d, int[] v, double[] z, int n) {
        int k = 0;
        v[0] = 0;
        z[0] = Double.NEGATIVE_INFINITY;
        z[1] = Double.POSITIVE_INFINITY;
        for (int q = 1; q < n; q++) {
            double s = meets(f, q, v[k]);
            while (s <= z[k]) {
                k--;
                s = meets(f, q, v[k]);
            }
            k++;
            v[k] = q;
            z[k] = s;
            z[k + 1] = Double.POSITIVE_INFINITY;
        }
        k = 0;
        for (int q = 0; q < n; q++) {
            while (z[k + 1] < q) {
                k++;
            }
            double away = q - v[k];
            d[q] = away * away + f[v[k]];
        }
    }

    private static double meets(double[] f, int q, int p) {
        return (f[q] + (double) q * q - (f[p] + (double) p * p)) / (2.0 * q - 2.0 * p);
    }
}
