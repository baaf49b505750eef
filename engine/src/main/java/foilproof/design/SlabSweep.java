package foilproof.design;

import java.util.Arrays;

/**
 * The exact copper of a set of overlapping objects, cut into horizontal slabs within which nothing begins, ends
 * or meets. In a slab the copper is a fixed number of strips; strips of neighbouring slabs that overlap belong
 * to one piece.
 *
 * <p>Slabs begin at every height where an outline begins, ends or bends. Where the objects that bound the strips
 * change within a slab, two outlines cross: the height is found by halving and the slab is cut there, so that every
 * strip is bounded by one smooth curve at either end. A slab with straight walls is a row of trapeziums; another is
 * integrated by the Gauss-Kronrod pair of 7 and 15 nodes in u with y = m + h sin(pi u / 2), which turns the
 * square-root ends of circles into analytic ones.
 */
final class SlabSweep implements PieceSet {
    /** The two quadratures may differ by this much per mm2 or mm; the finer one is far better than that. */
    private static final double TOLERANCE = 1e-8;
    /** A slab this thin is taken as it is, mm: below what a layer image can place (its points have 1e-6 mm). */
    private static final double THINNEST_MM = 1e-7;
    /** Strips that change hands this near a slab's bottom or top do so by rounding, mm. */
    private static final double BY_TURNS_MM = 1e-8;
    /** Strips joined by less than this are apart: rounding, mm. */
    private static final double TOUCH_MM = 1e-9;
    /**
     * Objects crossed by all scan lines together before the exact sweep is given up: about half a second. Slabs are then
     * cut evenly, and {@link #exact} is false.
     */
    private static final long MOST_WORK = 3_000_000;

    /** Objects crossed by all scan lines together of an even sweep. */
    private static final double EVEN_WORK = 1e7;
    /** Finest even slab, mm. */
    private static final double EVEN_MM = 0.005;

    private static final int FEWEST_SLABS = 200;

    // Gauss-Kronrod 7/15 (Kronrod 1965; values as tabulated in QUADPACK, Piessens et al. 1983)
    private static final double[] NODES = {
        0.991455371120812639206854697526329, 0.949107912342758524526189684047851,
        0.864864423359769072789712788640926, 0.741531185599394439863864773280788,
        0.586087235467691130294144691693013, 0.405845151377397166906606412076961,
        0.207784955007898467600689403773245, 0.0
    };
    private static final double[] KRONROD = {
        0.022935322010529224963732008058970, 0.063092092629978553290700663189204,
        0.104790010322250183839876322541518, 0.140653259715525918745189590510238,
        0.169004726639267902826583426598550, 0.190350578064785409913256402421014,
        0.204432940075298892414161999234649, 0.209482141084727828012999174891714
    };
    private static final double[] GAUSS = {
        0, 0.129484966168869693270611432679082,
        0, 0.279705391489276667901467771423780,
        0, 0.381830050505118944950369775488975,
        0, 0.417959183673469387755102040816327
    };

    private final Figure[] figures;
    private final double[] dx;
    private final double[] dy;
    private final boolean[] dark;
    private final Spans acc = new Spans();
    private final Spans run = new Spans();
    private int[] active = new int[64];
    private int activeCount;

    private double[] slabTop = new double[64];
    private double[] slabBottom = new double[64];
    private int[] slabFirst = new int[65];
    private int slabs;
    private int[] strip = new int[256];
    private double[] stripArea = new double[256];
    private int strips;
    private double[] lastEnds = new double[0];
    private double lastTop = Double.NEGATIVE_INFINITY;
    private boolean exact = true;
    private long work;
    private int[] tall = new int[0];
    private int[] lowByTop = new int[0];
    private double tallestLow;
    private int[] pieceOfStrip = new int[0];
    private double[] pieceAreas = new double[0];

    /** Sweeps the objects, given in polarity order. */
    SlabSweep(Figure[] figures, double[] dx, double[] dy, boolean[] dark) {
        this.figures = figures;
        this.dx = dx;
        this.dy = dy;
        this.dark = dark;
        sweep();
        label();
    }

    static SlabSweep of(Figure figure) {
        return new SlabSweep(new Figure[] {figure}, new double[1], new double[1], new boolean[] {true});
    }

    private void sweep() {
        Figure.Ys ys = new Figure.Ys();
        int n = figures.length;
        double heights = 0;
        double lo = Double.POSITIVE_INFINITY;
        double hi = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < n; i++) {
            figures[i].criticalYs(dy[i], ys);
            heights += figures[i].box.heightMm();
            lo = Math.min(lo, figures[i].box.minYMm() + dy[i]);
            hi = Math.max(hi, figures[i].box.maxYMm() + dy[i]);
        }
        ys.sortApart(1e-9);
        Integer[] order = new Integer[n];
        for (int i = 0; i < n; i++) {
            order[i] = i;
        }
        Arrays.sort(order, (a, b) -> Double.compare(figures[a].box.minYMm() + dy[a], figures[b].box.minYMm() + dy[b]));
        int[] next = new int[n];
        for (int i = 0; i < n; i++) {
            next[i] = order[i];
        }
        shortFrom(next);
        if (!sweepOver(next, ys)) {
            exact = false;
            slabs = 0;
            strips = 0;
            lastTop = Double.NEGATIVE_INFINITY;
            double crossed = hi > lo ? heights / (hi - lo) : 0;
            int cuts = (int) Math.max(FEWEST_SLABS, Math.min((hi - lo) / EVEN_MM, EVEN_WORK / Math.max(1, crossed)));
            ys.count = 0;
            for (int i = 0; i <= cuts; i++) {
                ys.add(lo + (hi - lo) * i / cuts);
            }
            sweepOver(next, ys);
        }
    }

    /** Sweeps the slabs between the heights; false where an exact sweep was given up. */
    private boolean sweepOver(int[] next, Figure.Ys ys) {
        int entering = 0;
        activeCount = 0;
        for (int k = 0; k + 1 < ys.count; k++) {
            double a = ys.at[k];
            double b = ys.at[k + 1];
            entering = activate(next, entering, a, b);
            if (activeCount == 0) {
                continue;
            }
            if (exact) {
                slab(a, b);
                if (work > MOST_WORK) {
                    return false;
                }
            } else {
                evenSlab(a, b);
            }
        }
        return true;
    }

    /** Sets apart the tall objects, so that those at a height are found without looking at all. */
    private void shortFrom(int[] next) {
        double tallest = 0;
        for (int f : next) {
            tallest = Math.max(tallest, figures[f].box.heightMm());
        }
        double limit = 0.05 * tallest;
        int n = 0;
        int[] all = new int[next.length];
        int[] low = new int[next.length];
        int lows = 0;
        for (int f : next) {
            if (figures[f].box.heightMm() > limit) {
                all[n++] = f;
            } else {
                low[lows++] = f;
                tallestLow = Math.max(tallestLow, figures[f].box.heightMm());
            }
        }
        tall = Arrays.copyOf(all, n);
        lowByTop = Arrays.copyOf(low, lows);
    }

    private int activate(int[] next, int from, double a, double b) {
        int kept = 0;
        for (int i = 0; i < activeCount; i++) {
            int f = active[i];
            if (figures[f].box.maxYMm() + dy[f] > a) {
                active[kept++] = f;
            }
        }
        activeCount = kept;
        int k = from;
        boolean added = false;
        while (k < next.length && figures[next[k]].box.minYMm() + dy[next[k]] < b) {
            int f = next[k++];
            if (figures[f].box.maxYMm() + dy[f] > a) {
                if (activeCount == active.length) {
                    active = Arrays.copyOf(active, activeCount * 2);
                }
                active[activeCount++] = f;
                added = true;
            }
        }
        if (added) {
            Arrays.sort(active, 0, activeCount);
        }
        return k;
    }

    /** The copper's strips at a height, into {@link #acc}. */
    private void copperAt(double y) {
        copperAt(y, active, activeCount);
    }

    private void copperAt(double y, int[] which, int count) {
        acc.clear();
        work += count;
        int i = 0;
        while (i < count) {
            boolean polarity = dark[which[i]];
            run.clear();
            while (i < count && dark[which[i]] == polarity) {
                int f = which[i++];
                run.tag = f;
                figures[f].spans(y - dy[f], dx[f], run);
            }
            run.normalise();
            if (polarity) {
                acc.unite(run);
            } else {
                acc.subtract(run);
            }
        }
    }

    private void evenSlab(double a, double b) {
        copperAt(0.5 * (a + b));
        if (acc.count == 0) {
            return;
        }
        double[] areas = new double[acc.count];
        for (int i = 0; i < acc.count; i++) {
            areas[i] = (acc.at[2 * i + 1] - acc.at[2 * i]) * (b - a);
        }
        double[] ends = Arrays.copyOf(acc.at, 2 * acc.count);
        emit(a, b, areas, ends, ends);
    }

    /** Strips at one height: their ends and the objects that bound them. */
    private record Strips(double[] ends, int[] owners) {
        int count() {
            return ends.length / 2;
        }

        boolean boundedAs(Strips other) {
            return Arrays.equals(owners, other.owners);
        }
    }

    private Strips stripsAt(double y) {
        copperAt(y);
        return new Strips(Arrays.copyOf(acc.at, 2 * acc.count), Arrays.copyOf(acc.owner, 2 * acc.count));
    }

    private void slab(double from, double b) {
        double a = from;
        // a loop, not a call, for what is left above: outlines that lie on one another change hands at any height
        while (true) {
            if (b - a <= THINNEST_MM || work > MOST_WORK) {
                evenSlab(a, b);
                return;
            }
            double in = Math.min(1e-9, 1e-3 * (b - a));
            Strips bottom = stripsAt(a + in);
            Strips middle = stripsAt(0.5 * (a + b));
            Strips top = stripsAt(b - in);
            int count = bottom.count();
            if (!bottom.boundedAs(middle) || !bottom.boundedAs(top)) {
                double cut = firstChange(a + in, b - in, bottom);
                // Two outlines on one another (tracks that share an end) bound the strip by turns, as rounding has it:
                // whether one smooth curve bounds it is then asked of the ends alone.
                boolean byTurns = (cut - a <= BY_TURNS_MM || b - cut <= BY_TURNS_MM)
                        && middle.count() == count
                        && top.count() == count;
                if (!byTurns) {
                    double above = Math.max(cut, a + 0.5 * THINNEST_MM);
                    slab(a, above);
                    a = above;
                    continue;
                }
            }
            if (count == 0) {
                return;
            }
            double[] areas = new double[count];
            if (straight(bottom, middle, top, b - a, areas) || quadrature(0.5 * (a + b), 0.5 * (b - a), areas)) {
                emit(a, b, areas, bottom.ends(), top.ends());
                return;
            }
            double m = 0.5 * (a + b);
            slab(a, m);
            a = m;
        }
    }

    /** The height, above {@code from}, up to which the strips are bounded as at {@code from}. */
    private double firstChange(double from, double to, Strips as) {
        double lo = from;
        double hi = to;
        while (hi - lo > 1e-10 && 0.5 * (lo + hi) > lo && 0.5 * (lo + hi) < hi) {
            double m = 0.5 * (lo + hi);
            if (stripsAt(m).boundedAs(as)) {
                lo = m;
            } else {
                hi = m;
            }
        }
        return hi;
    }

    private static boolean straight(Strips bottom, Strips middle, Strips top, double height, double[] areas) {
        for (int k = 0; k < middle.ends().length; k++) {
            if (Math.abs(0.5 * (bottom.ends()[k] + top.ends()[k]) - middle.ends()[k]) > 1e-12) {
                return false;
            }
        }
        for (int i = 0; i < areas.length; i++) {
            areas[i] = (middle.ends()[2 * i + 1] - middle.ends()[2 * i]) * height;
        }
        return true;
    }

    private boolean quadrature(double m, double h, double[] areas) {
        int count = areas.length;
        double[] coarse = new double[count];
        double fineSum = 0;
        double coarseSum = 0;
        for (int k = 0; k < NODES.length; k++) {
            double angle = StrictMath.PI / 2 * NODES[k];
            double shift = h * StrictMath.sin(angle);
            double jacobian = StrictMath.cos(angle);
            for (int s = -1; s <= (NODES[k] == 0 ? -1 : 1); s += 2) {
                copperAt(m + s * shift);
                if (acc.count != count) {
                    return false;
                }
                fineSum += KRONROD[k] * jacobian;
                coarseSum += GAUSS[k] * jacobian;
                for (int i = 0; i < count; i++) {
                    double width = acc.at[2 * i + 1] - acc.at[2 * i];
                    areas[i] += KRONROD[k] * jacobian * width;
                    coarse[i] += GAUSS[k] * jacobian * width;
                }
            }
        }
        boolean good = true;
        for (int i = 0; i < count; i++) {
            // scaled so that a constant comes out exactly
            areas[i] *= 2 * h / fineSum;
            good &= Math.abs(areas[i] - coarse[i] * 2 * h / coarseSum) <= TOLERANCE * (areas[i] + h) + 1e-11;
        }
        if (!good) {
            Arrays.fill(areas, 0);
        }
        return good;
    }

    private void emit(double a, double b, double[] areas, double[] bottom, double[] top) {
        if (slabs == slabTop.length) {
            slabTop = Arrays.copyOf(slabTop, slabs * 2);
            slabBottom = Arrays.copyOf(slabBottom, slabs * 2);
            slabFirst = Arrays.copyOf(slabFirst, slabs * 2 + 1);
        }
        int first = strips;
        for (double area : areas) {
            if (strips == strip.length) {
                strip = Arrays.copyOf(strip, strips * 2);
                stripArea = Arrays.copyOf(stripArea, strips * 2);
            }
            strip[strips] = strips;
            stripArea[strips++] = area;
        }
        if (slabs > 0 && lastTop >= a - 1e-12) {
            int below = slabFirst[slabs - 1];
            int i = 0;
            int j = 0;
            while (2 * i < lastEnds.length && 2 * j < bottom.length) {
                double from = Math.max(lastEnds[2 * i], bottom[2 * j]);
                double to = Math.min(lastEnds[2 * i + 1], bottom[2 * j + 1]);
                if (to - from > TOUCH_MM) {
                    union(below + i, first + j);
                }
                if (lastEnds[2 * i + 1] < bottom[2 * j + 1]) {
                    i++;
                } else {
                    j++;
                }
            }
        }
        slabBottom[slabs] = a;
        slabTop[slabs] = b;
        slabFirst[slabs] = first;
        slabs++;
        slabFirst[slabs] = strips;
        lastEnds = top;
        lastTop = b;
    }

    private int root(int i) {
        int r = i;
        while (strip[r] != r) {
            strip[r] = strip[strip[r]];
            r = strip[r];
        }
        return r;
    }

    private void union(int a, int b) {
        int x = root(a);
        int y = root(b);
        if (x != y) {
            strip[Math.max(x, y)] = Math.min(x, y);
        }
    }

    private void label() {
        pieceOfStrip = new int[strips];
        int pieces = 0;
        for (int i = 0; i < strips; i++) {
            int r = root(i);
            pieceOfStrip[i] = r == i ? pieces++ : pieceOfStrip[r];
        }
        pieceAreas = new double[pieces];
        for (int i = 0; i < strips; i++) {
            pieceAreas[pieceOfStrip[i]] += stripArea[i];
        }
        strip = new int[0];
        stripArea = new double[0];
    }

    @Override
    public int pieceCount() {
        return pieceAreas.length;
    }

    @Override
    public double pieceAreaMm2(int piece) {
        return pieceAreas[piece];
    }

    /** False where the set was too large and slabs were cut evenly: areas are then good to a scan line only. */
    @Override
    public boolean exact() {
        return exact;
    }

    @Override
    public synchronized int pieceAt(double x, double y) {
        int s = Arrays.binarySearch(slabBottom, 0, slabs, y);
        s = s < 0 ? -s - 2 : s;
        if (s < 0 || y >= slabTop[s]) {
            return -1;
        }
        double at = exact ? y : 0.5 * (slabBottom[s] + slabTop[s]);
        int[] which = objectsAt(at);
        copperAt(at, which, which.length);
        int count = slabFirst[s + 1] - slabFirst[s];
        if (acc.count != count) {
            // within rounding of a crossing: the slab's own middle has the strips that were counted
            double m = 0.5 * (slabBottom[s] + slabTop[s]);
            which = objectsAt(m);
            copperAt(m, which, which.length);
        }
        for (int i = 0; i < Math.min(count, acc.count); i++) {
            if (x >= acc.at[2 * i] && x <= acc.at[2 * i + 1]) {
                return pieceOfStrip[slabFirst[s] + i];
            }
        }
        return -1;
    }

    private int[] objectsAt(double y) {
        int from = firstFrom(y - tallestLow);
        int[] which = new int[tall.length + 16];
        int n = 0;
        for (int f : tall) {
            n = take(which, n, f, y);
        }
        for (int k = from; k < lowByTop.length && bottomOf(lowByTop[k]) <= y; k++) {
            if (n == which.length) {
                which = Arrays.copyOf(which, n * 2);
            }
            n = take(which, n, lowByTop[k], y);
        }
        which = Arrays.copyOf(which, n);
        Arrays.sort(which);
        return which;
    }

    private double bottomOf(int f) {
        return figures[f].box.minYMm() + dy[f];
    }

    private int take(int[] which, int n, int f, double y) {
        if (bottomOf(f) > y || figures[f].box.maxYMm() + dy[f] <= y) {
            return n;
        }
        which[n] = f;
        return n + 1;
    }

    private int firstFrom(double y) {
        int lo = 0;
        int hi = lowByTop.length;
        while (lo < hi) {
            int m = (lo + hi) >>> 1;
            if (bottomOf(lowByTop[m]) < y) {
                lo = m + 1;
            } else {
                hi = m;
            }
        }
        return lo;
    }
}
