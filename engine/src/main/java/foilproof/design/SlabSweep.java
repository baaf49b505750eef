package foilproof.design;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The exact copper of a set of overlapping objects, cut into horizontal slabs within which nothing begins, ends
 * or meets. In a slab the copper is a fixed number of strips; strips of neighbouring slabs that overlap belong
 * to one piece.
 *
 * <p>Slabs begin at every height where an outline begins, ends or bends. Crossings of outlines are not computed:
 * a slab is halved until its strips agree in number at every sample and two quadratures agree, so that a crossing
 * ends up in a slab of no weight. Quadrature is Gauss-Legendre in u with y = m + h sin(pi u / 2), which turns the
 * square-root ends of circles into analytic ones.
 */
final class SlabSweep implements PieceSet {
    /** Two quadratures of one slab may differ by this much, mm2. */
    private static final double TOLERANCE_MM2 = 2e-10;
    /** A slab this thin is taken as it is, mm: below what a layer image can place (its points have 1e-6 mm). */
    private static final double THINNEST_MM = 1e-7;
    /** Strips joined by less than this are apart: rounding, mm. */
    private static final double TOUCH_MM = 1e-9;
    /** Above this many object crossings the slabs are cut evenly instead, and {@link #exact} is false. */
    private static final double MOST_WORK = 4e8;

    private static final int EVEN_SLABS = 20_000;
    private static final double[] NODES_4 = {0.3399810435848563, 0.8611363115940526};
    private static final double[] WEIGHTS_4 = {0.6521451548625461, 0.3478548451374538};
    private static final double[] NODES_8 = {
        0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363
    };
    private static final double[] WEIGHTS_8 = {
        0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763
    };

    private final Figure[] figures;
    private final double[] dx;
    private final double[] dy;
    private final boolean[] dark;
    private final Spans acc = new Spans();
    private final Spans run = new Spans();
    private int[] active = new int[64];
    private int activeCount;
    private final int[] byTop;

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
    private int[] pieceOfStrip = new int[0];
    private double[] pieceAreas = new double[0];

    /** Sweeps the objects, given in polarity order. */
    SlabSweep(Figure[] figures, double[] dx, double[] dy, boolean[] dark) {
        this.figures = figures;
        this.dx = dx;
        this.dy = dy;
        this.dark = dark;
        this.byTop = sweep();
        label();
    }

    static SlabSweep of(Figure figure) {
        return new SlabSweep(new Figure[] {figure}, new double[1], new double[1], new boolean[] {true});
    }

    private int[] sweep() {
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
        double crossing = hi > lo ? heights / (hi - lo) : 0;
        if (crossing * ys.count * 13 > MOST_WORK) {
            exact = false;
            ys.count = 0;
            int cuts = (int) Math.max(100, Math.min(EVEN_SLABS, MOST_WORK / Math.max(1, crossing)));
            for (int i = 0; i <= cuts; i++) {
                ys.add(lo + (hi - lo) * i / cuts);
            }
        }
        Integer[] order = new Integer[n];
        for (int i = 0; i < n; i++) {
            order[i] = i;
        }
        Arrays.sort(order, (a, b) -> Double.compare(figures[a].box.minYMm() + dy[a], figures[b].box.minYMm() + dy[b]));
        int[] next = new int[n];
        for (int i = 0; i < n; i++) {
            next[i] = order[i];
        }
        int entering = 0;
        for (int k = 0; k + 1 < ys.count; k++) {
            double a = ys.at[k];
            double b = ys.at[k + 1];
            entering = activate(next, entering, a, b);
            if (activeCount == 0) {
                continue;
            }
            if (exact) {
                slab(a, b);
            } else {
                evenSlab(a, b);
            }
        }
        return next;
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
        int i = 0;
        while (i < count) {
            boolean polarity = dark[which[i]];
            run.clear();
            while (i < count && dark[which[i]] == polarity) {
                int f = which[i++];
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

    private void slab(double a, double b) {
        double m = 0.5 * (a + b);
        double h = 0.5 * (b - a);
        copperAt(m);
        int count = acc.count;
        if (b - a <= THINNEST_MM) {
            double[] areas = new double[count];
            for (int i = 0; i < count; i++) {
                areas[i] = (acc.at[2 * i + 1] - acc.at[2 * i]) * (b - a);
            }
            double[] ends = Arrays.copyOf(acc.at, 2 * count);
            emit(a, b, areas, ends, ends);
            return;
        }
        double[] areas4 = new double[count];
        double[] areas8 = new double[count];
        double[][] outer = new double[2][];
        boolean good = quadrature(NODES_4, WEIGHTS_4, m, h, areas4, null)
                && quadrature(NODES_8, WEIGHTS_8, m, h, areas8, outer);
        if (good) {
            double worst = 0;
            for (int i = 0; i < count; i++) {
                worst = Math.max(worst, Math.abs(areas4[i] - areas8[i]));
            }
            // the eight-node rule is far better than the difference from the four-node one
            good = worst <= Math.max(TOLERANCE_MM2, 1e-7 * h);
        }
        if (!good) {
            slab(a, m);
            slab(m, b);
            return;
        }
        double[] bottom = endsNear(a + Math.min(1e-8, 1e-3 * h), count, outer[0]);
        double[] top = endsNear(b - Math.min(1e-8, 1e-3 * h), count, outer[1]);
        emit(a, b, areas8, bottom, top);
    }

    private double[] endsNear(double y, int count, double[] otherwise) {
        copperAt(y);
        return acc.count == count ? Arrays.copyOf(acc.at, 2 * count) : otherwise;
    }

    private boolean quadrature(
            double[] nodes, double[] weights, double m, double h, double[] areas, double[] @Nullable [] outer) {
        int count = areas.length;
        for (int k = nodes.length - 1; k >= 0; k--) {
            double angle = StrictMath.PI / 2 * nodes[k];
            double shift = h * StrictMath.sin(angle);
            double weight = weights[k] * h * StrictMath.PI / 2 * StrictMath.cos(angle);
            for (int s = -1; s <= 1; s += 2) {
                copperAt(m + s * shift);
                if (acc.count != count) {
                    return false;
                }
                for (int i = 0; i < count; i++) {
                    areas[i] += weight * (acc.at[2 * i + 1] - acc.at[2 * i]);
                }
                if (outer != null && k == nodes.length - 1) {
                    outer[s < 0 ? 0 : 1] = Arrays.copyOf(acc.at, 2 * count);
                }
            }
        }
        return true;
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
        int[] which = objectsAt(y);
        copperAt(y, which, which.length);
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
        int[] which = new int[16];
        int n = 0;
        for (int f : byTop) {
            if (figures[f].box.minYMm() + dy[f] > y) {
                break;
            }
            if (figures[f].box.maxYMm() + dy[f] > y) {
                if (n == which.length) {
                    which = Arrays.copyOf(which, n * 2);
                }
                which[n++] = f;
            }
        }
        which = Arrays.copyOf(which, n);
        Arrays.sort(which);
        return which;
    }
}
