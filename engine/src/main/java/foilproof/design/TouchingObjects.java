package foilproof.design;

import java.util.Arrays;

/**
 * Objects of a layer image that only touch: a reader may move points by half a micrometre either way, so objects that
 * overlap by less than {@value #FIRM_MM} mm, or miss each other by less, are joined by one reader and apart for the next
 * (Gerber Layer Format 2021.02, 4.14.2; check value F15). A word is said only where nothing else joins the two.
 *
 * <p>Two objects overlap firmly where a disc of that diameter fits into both; they touch where such a disc meets both and
 * none fits. Discs are tried in the middle of what the two share, or of the gap between them, along scan lines at every
 * height where an outline begins or bends, and at the height of the widest share, which is sought by thirds.
 */
final class TouchingObjects {
    /** Overlaps from this on hold, gaps from this on part, mm. */
    static final double FIRM_MM = 0.001;

    /** Pairs looked at closely; a sound board has a few hundred that do not plainly overlap. */
    private static final int MOST_PAIRS = 100_000;

    private static final int LINES = 17;
    private static final int RING = 16;
    private static final double[] RING_X = new double[RING];
    private static final double[] RING_Y = new double[RING];

    static {
        for (int k = 0; k < RING; k++) {
            RING_X[k] = 0.5 * FIRM_MM * StrictMath.cos(2 * StrictMath.PI * k / RING);
            RING_Y[k] = 0.5 * FIRM_MM * StrictMath.sin(2 * StrictMath.PI * k / RING);
        }
    }

    private final LayerImage image;
    private final int[] parent;
    private int[] touching = new int[16];
    private int touches;
    private int pairs;
    private final Spans spansA = new Spans();
    private final Spans spansB = new Spans();

    private TouchingObjects(LayerImage image) {
        this.image = image;
        parent = new int[image.size()];
        for (int i = 0; i < parent.length; i++) {
            parent[i] = i;
        }
    }

    /** Says a word of every object that only touches another. */
    static void tell(LayerImage image, TextPlaces places) {
        TouchingObjects t = new TouchingObjects(image);
        t.look();
        int told = 0;
        for (int k = 0; k < t.touches; k += 2) {
            int a = t.touching[k];
            int b = t.touching[k + 1];
            if (t.root(a) == t.root(b)) {
                continue;
            }
            t.parent[Math.max(t.root(a), t.root(b))] = Math.min(t.root(a), t.root(b));
            told++;
            places.warnLine(
                    image.lineOf(b),
                    "layer-touch",
                    "This object and that of line " + image.lineOf(a)
                            + " only touch: they overlap, or miss each other, by less than 1 um, so one reader joins them and"
                            + " the next does not.",
                    "Draw them to overlap, or apart.");
            if (told > 20) {
                break;
            }
        }
        if (t.pairs > MOST_PAIRS) {
            places.warnFile(
                    "layer-touch",
                    "Which objects only touch was not looked for any further after " + MOST_PAIRS + " pairs.");
        }
    }

    private void look() {
        BoxIndex grid = image.index();
        int[] large = grid.large();
        for (int i = 0; i < image.size() && pairs <= MOST_PAIRS; i++) {
            Bounds box = image.boundsOf(i);
            if (!image.isDark(i) || box.isEmpty()) {
                continue;
            }
            for (int other : large) {
                if (other < i || Arrays.binarySearch(large, i) < 0) {
                    pair(other, i);
                }
            }
            if (Arrays.binarySearch(large, i) >= 0) {
                continue;
            }
            int c0 = grid.columnOf(box.minXMm() - FIRM_MM);
            int c1 = grid.columnOf(box.maxXMm() + FIRM_MM);
            int r0 = grid.rowOf(box.minYMm() - FIRM_MM);
            int r1 = grid.rowOf(box.maxYMm() + FIRM_MM);
            for (int r = r0; r <= r1; r++) {
                for (int c = c0; c <= c1; c++) {
                    int cell = r * grid.columns() + c;
                    for (int p = grid.from(cell); p < grid.to(cell) && grid.item(p) < i; p++) {
                        int other = grid.item(p);
                        Bounds b = image.boundsOf(other);
                        // a pair is met in every cell that both boxes cover: it counts in the first
                        if (r == Math.max(r0, grid.rowOf(b.minYMm())) && c == Math.max(c0, grid.columnOf(b.minXMm()))) {
                            pair(other, i);
                        }
                    }
                }
            }
        }
    }

    private void pair(int a, int b) {
        if (a == b || !image.isDark(a) || root(a) == root(b) || pairs > MOST_PAIRS) {
            return;
        }
        Bounds p = image.boundsOf(a);
        Bounds q = image.boundsOf(b);
        double x0 = Math.max(p.minXMm(), q.minXMm());
        double x1 = Math.min(p.maxXMm(), q.maxXMm());
        double y0 = Math.max(p.minYMm(), q.minYMm());
        double y1 = Math.min(p.maxYMm(), q.maxYMm());
        if (x1 - x0 < -FIRM_MM || y1 - y0 < -FIRM_MM) {
            return;
        }
        if (fits(a, b, 0.5 * (x0 + x1), 0.5 * (y0 + y1))
                || fits(a, b, image.dxOf(a), image.dyOf(a))
                || fits(a, b, image.dxOf(b), image.dyOf(b))) {
            join(a, b);
            return;
        }
        pairs++;
        closely(a, b, y0, y1);
    }

    /** Scan lines through what the two boxes share. */
    private void closely(int a, int b, double y0, double y1) {
        Figure.Ys ys = new Figure.Ys();
        Figure.Ys bends = new Figure.Ys();
        image.figureOf(a).criticalYs(image.dyOf(a), bends);
        image.figureOf(b).criticalYs(image.dyOf(b), bends);
        for (int k = 0; k < bends.count; k++) {
            double y = bends.at[k];
            if (y >= y0 - 2 * FIRM_MM && y <= y1 + 2 * FIRM_MM) {
                for (double off = -0.9; off <= 1; off += 0.2) {
                    ys.add(y + off * FIRM_MM);
                }
            }
        }
        for (int k = 0; k < LINES; k++) {
            ys.add(y0 + (y1 - y0) * (k + 0.5) / LINES);
        }
        ys.sortApart(1e-9);
        boolean touch = false;
        double best = Double.NEGATIVE_INFINITY;
        double bestY = 0;
        for (int k = 0; k < ys.count; k++) {
            double[] share = share(a, b, ys.at[k], ys.at[k]);
            if (share[0] > best) {
                best = share[0];
                bestY = ys.at[k];
            }
            for (int n = k; n < ys.count && ys.at[n] - ys.at[k] <= 1.25 * FIRM_MM; n++) {
                for (int way = 0; way < (n == k ? 1 : 2); way++) {
                    double[] s = n == k
                            ? share
                            : way == 0 ? share(a, b, ys.at[k], ys.at[n]) : share(a, b, ys.at[n], ys.at[k]);
                    double y = 0.5 * (ys.at[k] + ys.at[n]);
                    if (s[0] > -0.02 && fits(a, b, s[1], y)) {
                        join(a, b);
                        return;
                    }
                    touch |= s[0] > -0.02 && meets(a, b, s[1], y);
                }
            }
        }
        if (best > Double.NEGATIVE_INFINITY) {
            // round outlines meet between the lines: the widest share is sought by thirds
            double reach = (y1 - y0) / LINES + FIRM_MM;
            double low = bestY - reach;
            double high = bestY + reach;
            for (int k = 0; k < 60; k++) {
                double m1 = low + (high - low) / 3;
                double m2 = high - (high - low) / 3;
                if (share(a, b, m1, m1)[0] < share(a, b, m2, m2)[0]) {
                    low = m1;
                } else {
                    high = m2;
                }
            }
            double y = 0.5 * (low + high);
            double[] s = share(a, b, y, y);
            if (s[0] > -0.02 && fits(a, b, s[1], y)) {
                join(a, b);
                return;
            }
            touch |= s[0] > -0.02 && meets(a, b, s[1], y);
        }
        if (touch) {
            if (touches + 2 > touching.length) {
                touching = Arrays.copyOf(touching, touching.length * 2);
            }
            touching[touches++] = a;
            touching[touches++] = b;
        }
    }

    /** The widest share of a span of A at one height and one of B at another (a gap is below 0), and its middle. */
    private double[] share(int a, int b, double ya, double yb) {
        spansA.clear();
        spansB.clear();
        image.figureOf(a).spans(ya - image.dyOf(a), image.dxOf(a), spansA);
        image.figureOf(b).spans(yb - image.dyOf(b), image.dxOf(b), spansB);
        double best = Double.NEGATIVE_INFINITY;
        double middle = 0;
        for (int i = 0; i < spansA.count; i++) {
            for (int j = 0; j < spansB.count; j++) {
                double from = Math.max(spansA.at[2 * i], spansB.at[2 * j]);
                double to = Math.min(spansA.at[2 * i + 1], spansB.at[2 * j + 1]);
                if (to - from > best) {
                    best = to - from;
                    middle = 0.5 * (from + to);
                }
            }
        }
        return new double[] {best, middle};
    }

    /** Whether a disc of the firm diameter about a place lies in both. */
    private boolean fits(int a, int b, double x, double y) {
        for (int k = 0; k < RING; k++) {
            if (!inside(a, x + RING_X[k], y + RING_Y[k]) || !inside(b, x + RING_X[k], y + RING_Y[k])) {
                return false;
            }
        }
        return true;
    }

    /** Whether a disc of the firm diameter about a place meets both, on copper that nothing cleared. */
    private boolean meets(int a, int b, double x, double y) {
        boolean inA = false;
        boolean inB = false;
        boolean kept = false;
        for (int k = 0; k < RING; k++) {
            inA |= inside(a, x + RING_X[k], y + RING_Y[k]);
            inB |= inside(b, x + RING_X[k], y + RING_Y[k]);
            kept |= image.covers(x + RING_X[k], y + RING_Y[k]);
        }
        return inA && inB && kept;
    }

    private boolean inside(int i, double x, double y) {
        return image.figureOf(i).contains(x - image.dxOf(i), y - image.dyOf(i));
    }

    private void join(int a, int b) {
        int p = root(a);
        int q = root(b);
        parent[Math.max(p, q)] = Math.min(p, q);
    }

    private int root(int i) {
        int r = i;
        while (parent[r] != r) {
            parent[r] = parent[parent[r]];
            r = parent[r];
        }
        return r;
    }
}
