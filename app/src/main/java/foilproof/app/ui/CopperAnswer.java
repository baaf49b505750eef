package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.copper.CopperMap;
import foilproof.copper.Piece;
import foilproof.dryrun.DryRunResult;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetPlace;
import foilproof.findings.CopperFacts;
import foilproof.findings.Examination;
import foilproof.report.ResultDocument;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** Answers about the finished copper of a side: which is joined, nets, holes, what lies between two places. */
final class CopperAnswer {
    private static final double STEP_MM = 0.02;
    /** Copper wider than this is an area, no trace, mm. */
    private static final double WIDEST_MM = 5;

    private static final int DIRECTIONS = 60;

    private final Examination examination;
    private final ResultDocument document;
    private final CopperFacts copper;
    private final double endS;

    private CopperAnswer(DryRunResult r, CopperFacts copper, double endS) {
        examination = r.examination();
        document = r.document();
        this.copper = copper;
        this.endS = endS;
    }

    /** For a side, under the what-if where its findings are there; null while the job is being checked. */
    static @Nullable CopperAnswer of(BenchModel model, int side) {
        DryRunResult r = model.whatIfResult() != null ? model.whatIfResult() : model.result();
        JobScene s = model.drawnScene();
        if (r == null || s == null) {
            return null;
        }
        for (CopperFacts c : r.examination().copper()) {
            if (c.side() == side) {
                return new CopperAnswer(r, c, s.endS());
            }
        }
        return null;
    }

    /** When the board that is answered for is finished, seconds since the job's start. */
    double endS() {
        return endS;
    }

    /** Index of the piece of copper at a place, -1 where there is none. */
    int pieceAt(double x, double y) {
        return copper.map().pieceAt(x, y);
    }

    /** Names of the nets whose pads lie on a piece. */
    List<String> nets(int piece) {
        TreeSet<String> names = new TreeSet<>();
        for (IntendedNets.Net net : examination.design().nets().nets()) {
            for (NetPlace place : net.places()) {
                if (examination.design().sideOf(place.face()) != copper.side()) {
                    continue;
                }
                for (double[] p : place.probes()) {
                    double[] at = examination
                            .design()
                            .onBlank(new NetPlace(
                                    place.face(), p[0], p[1], 0, 0, null, place.pin(), place.via(), place.line()));
                    if (at != null && pieceAt(at[1], at[2]) == piece) {
                        names.add(net.name());
                    }
                }
            }
        }
        return new ArrayList<>(names);
    }

    /** What the finished copper says of a place, and of what lies between it and the place asked before. */
    String words(double[] p, double @Nullable [] before) {
        StringBuilder w = new StringBuilder();
        int piece = pieceAt(p[0], p[1]);
        if (piece >= 0) {
            Piece c = copper.map().pieces().get(piece);
            w.append(String.format(
                    Locale.ROOT,
                    "Joined copper (finished board, foil bottom): %.2f mm2 +/- %.2f, X %.2f to %.2f, Y %.2f to %.2f mm%n",
                    c.areaMm2(),
                    c.areaErrorMm2(),
                    c.x0Mm(),
                    c.x1Mm(),
                    c.y0Mm(),
                    c.y1Mm()));
            double wide = widthAt(piece, p[0], p[1]);
            if (!Double.isNaN(wide)) {
                w.append("Copper through this place: ")
                        .append(AnswerPanel.length(wide))
                        .append(String.format(
                                Locale.ROOT,
                                " +/- %.3f mm at its narrowest, at the foil bottom%n",
                                Math.max(0.001, wide * (1 / Math.cos(Math.PI / DIRECTIONS / 2) - 1))));
            }
            List<String> nets = nets(piece);
            if (examination.design().nets().nets().isEmpty()) {
                w.append("Net: cannot know without a netlist or layer image\n");
            } else {
                w.append(nets.isEmpty() ? "Net: none, leftover copper\n" : "Net: " + String.join(" and ", nets) + "\n");
            }
        }
        hole(w, p);
        if (before != null) {
            between(w, before, p);
        }
        return w.toString();
    }

    /**
     * Width of the copper across a place, by the narrowest of many chords through it, each from wall to wall exact to
     * the path; NaN where none is shorter than {@link #WIDEST_MM}. A chord askew by half a step of direction is longer by
     * 1 / cos of it, which is the error that is told.
     */
    double widthAt(int piece, double x, double y) {
        double best = Double.NaN;
        double step = Math.max(copper.field().cellMm(), STEP_MM);
        for (int k = 0; k < DIRECTIONS; k++) {
            double ux = Math.cos(Math.PI * k / DIRECTIONS);
            double uy = Math.sin(Math.PI * k / DIRECTIONS);
            double most = Double.isNaN(best) ? WIDEST_MM : best;
            double one = reach(piece, new double[] {x, y}, ux, uy, step, most);
            double other = one >= most ? most : reach(piece, new double[] {x, y}, -ux, -uy, step, most - one);
            if (one + other < most) {
                best = one + other;
            }
        }
        return best;
    }

    /** How far copper goes from a place in a direction, mm; no further than asked. */
    private double reach(int piece, double[] p, double ux, double uy, double step, double most) {
        double edge = Math.min(
                toEdge(p[0], ux, examination.job().blank().widthMm()),
                toEdge(p[1], uy, examination.job().blank().heightMm()));
        for (double a = step; a < most + step; a += step) {
            if (a >= edge) {
                return pieceAt(p[0] + ux * (edge - step / 4), p[1] + uy * (edge - step / 4)) == piece
                        ? edge
                        : wall(p, ux, uy, Math.max(0, a - 2 * step), edge);
            }
            if (pieceAt(p[0] + ux * a, p[1] + uy * a) != piece) {
                return wall(p, ux, uy, Math.max(0, a - 2 * step), a);
            }
        }
        return most;
    }

    /** How far the blank's edge lies along one axis of a direction, mm. */
    private static double toEdge(double at, double along, double size) {
        return along > 1e-12 ? (size - at) / along : along < -1e-12 ? -at / along : Double.POSITIVE_INFINITY;
    }

    private void hole(StringBuilder w, double[] p) {
        for (ResultDocument.HoleFacts h : document.holes()) {
            double d = Math.hypot(h.atMm()[0] - p[0], h.atMm()[1] - p[1]);
            if (h.side() == copper.side() && d <= h.entryMm() / 2 + 0.5) {
                w.append("Hole: entry ").append(AnswerPanel.length(h.entryMm()));
                w.append(h.through() ? ", exit " + AnswerPanel.length(h.exitMm()) : ", not through");
                w.append(h.ringMm() == null ? "" : ", ring " + AnswerPanel.length(h.ringMm()));
                w.append(String.format(
                        Locale.ROOT, ", +/- %.3f mm%n", copper.field().cellMm() / 2));
                return;
            }
        }
    }

    private void between(StringBuilder w, double[] a, double[] b) {
        w.append("From the place before: ")
                .append(AnswerPanel.length(Math.hypot(a[0] - b[0], a[1] - b[1])))
                .append('\n');
        int from = pieceAt(a[0], a[1]);
        int to = pieceAt(b[0], b[1]);
        if (from < 0 || to < 0) {
            return;
        }
        if (from == to) {
            double neck = bridge(from, a, b);
            w.append(
                    Double.isNaN(neck)
                            ? "Both lie on the same copper\n"
                            : "Both lie on the same copper; its narrowest bridge between them: "
                                    + AnswerPanel.length(neck)
                                    + String.format(Locale.ROOT, " +/- %.3f mm%n", 2 * STEP_MM));
            return;
        }
        double[] gap = gap(from, to);
        if (gap.length > 0) {
            w.append("Narrowest gap between the two: ")
                    .append(AnswerPanel.length(gap[0]))
                    .append(String.format(
                            Locale.ROOT,
                            " +/- %.3f mm, at X %.2f Y %.2f mm, at the foil bottom%n",
                            copper.field().cellMm(),
                            gap[1],
                            gap[2]));
        }
    }

    /** Narrowest gap between two pieces: its width and its middle; empty where too far apart to say. */
    double[] gap(int from, int to) {
        CopperMap map = copper.map();
        Piece a = map.pieces().get(from);
        Piece b = map.pieces().get(to);
        double cell = Math.max(STEP_MM, Math.max(a.x1Mm() - a.x0Mm(), a.y1Mm() - a.y0Mm()) / 3000);
        List<double[]> edgeA = edge(from, a, cell);
        List<double[]> edgeB = edge(to, b, cell);
        edgeB.sort((p, q) -> Double.compare(p[0], q[0]));
        double best = Double.POSITIVE_INFINITY;
        double[] pa = {};
        double[] pb = {};
        for (double[] p : edgeA) {
            int i = firstFrom(edgeB, p[0] - best);
            for (; i < edgeB.size() && edgeB.get(i)[0] <= p[0] + best; i++) {
                double d = Math.hypot(edgeB.get(i)[0] - p[0], edgeB.get(i)[1] - p[1]);
                if (d < best) {
                    best = d;
                    pa = p;
                    pb = edgeB.get(i);
                }
            }
        }
        return pa.length == 0 ? new double[0] : refined(from, to, pa, pb);
    }

    /** Slides both ends along the line between them to where the copper ends. */
    private double[] refined(int from, int to, double[] pa, double[] pb) {
        double d = Math.hypot(pb[0] - pa[0], pb[1] - pa[1]);
        double ux = (pb[0] - pa[0]) / d;
        double uy = (pb[1] - pa[1]) / d;
        double fine = copper.field().cellMm() / 4;
        double a = 0;
        while (a < d && pieceAt(pa[0] + ux * a, pa[1] + uy * a) == from) {
            a += fine;
        }
        double b = d;
        while (b > a && pieceAt(pa[0] + ux * b, pa[1] + uy * b) == to) {
            b -= fine;
        }
        a = wall(pa, ux, uy, Math.max(0, a - 4 * fine), a + 4 * fine);
        b = wall(pa, ux, uy, Math.min(d, b + 4 * fine), b - 4 * fine);
        double m = (a + b) / 2;
        return new double[] {Math.max(0, b - a), pa[0] + ux * m, pa[1] + uy * m};
    }

    /** Where copper ends between a distance in it and one beyond it, by halving, exact to the path. */
    private double wall(double[] p, double ux, double uy, double inside, double outside) {
        double in = inside;
        double out = outside;
        for (int k = 0; k < 24; k++) {
            double mid = (in + out) / 2;
            if (copper.field().exactMarginMm(p[0] + ux * mid, p[1] + uy * mid) > 0) {
                in = mid;
            } else {
                out = mid;
            }
        }
        return (in + out) / 2;
    }

    private static int firstFrom(List<double[]> sorted, double x) {
        int low = 0;
        int high = sorted.size();
        while (low < high) {
            int mid = low + high >>> 1;
            if (sorted.get(mid)[0] < x) {
                low = mid + 1;
            } else {
                high = mid;
            }
        }
        return low;
    }

    private List<double[]> edge(int piece, Piece p, double cell) {
        List<double[]> all = new ArrayList<>();
        for (double y = p.y0Mm() + cell / 2; y <= p.y1Mm(); y += cell) {
            for (double x = p.x0Mm() + cell / 2; x <= p.x1Mm(); x += cell) {
                boolean rim = pieceAt(x, y) == piece
                        && (pieceAt(x - cell, y) != piece
                                || pieceAt(x + cell, y) != piece
                                || pieceAt(x, y - cell) != piece
                                || pieceAt(x, y + cell) != piece);
                if (rim) {
                    all.add(new double[] {x, y});
                }
            }
        }
        return all;
    }

    /** The widest disc that can travel from one place to the other inside the copper, as a width; NaN where not found. */
    double bridge(int piece, double[] a, double[] b) {
        Piece p = copper.map().pieces().get(piece);
        double cell = Math.max(2 * STEP_MM, Math.max(p.x1Mm() - p.x0Mm(), p.y1Mm() - p.y0Mm()) / 1200);
        Bridge grid = new Bridge(this, piece, p, cell);
        return grid.widest(a, b);
    }
}
