package foilproof.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Bores fitted to the places where the design has holes or rings: the shift, scale and turn that bring the places onto
 * the bores with the least squares, and the scatter that is left.
 *
 * @param matched pairs that lie within the tolerance after the fit
 * @param boresWithout bores without a place
 * @param placesWithout places without a bore
 * @param dxMm shift of the bores against the places at the middle of the places, X, mm
 * @param dyMm the same for Y, mm
 * @param scale size of the bored pattern against the design, 1 = equal
 * @param turnDeg turn of the bored pattern, degrees, + = counter-clockwise
 * @param scatterMm root mean square of the distances left, mm
 * @param worstMm largest distance left, mm
 * @param spreadMm root of the sum of squares of the matched places' distances from their middle, mm: what scale and turn
 *     are measured on
 * @param extentsRatio size of the box round the bores over that round the places; near 25.4 or 1/25.4 the units slipped
 */
public record HoleFit(
        List<Pair> matched,
        List<double[]> boresWithout,
        List<double[]> placesWithout,
        double dxMm,
        double dyMm,
        double scale,
        double turnDeg,
        double scatterMm,
        double worstMm,
        double spreadMm,
        double extentsRatio) {
    /** Copies the lists. */
    public HoleFit {
        matched = List.copyOf(matched);
        boresWithout = List.copyOf(boresWithout);
        placesWithout = List.copyOf(placesWithout);
    }

    /**
     * A bore and its place.
     *
     * @param bore index of the bore
     * @param place index of the place
     * @param distanceMm distance left after the fit, mm
     */
    public record Pair(int bore, int place, double distanceMm) {}

    /** True where the sizes of both patterns differ by about the 25.4 of an inch. */
    public boolean unitsSlipped() {
        return extentsRatio > 23 && extentsRatio < 28 || extentsRatio > 1 / 28.0 && extentsRatio < 1 / 23.0;
    }

    private static final int MOST_VOTES = 2_000_000;
    private static final long MOST_TRIALS = 4_000_000;
    /** Median of distances in the plane whose parts along X and Y scatter by 1 (Rayleigh's law): the root of 2 ln 2. */
    private static final double RAYLEIGH_MEDIAN = 1.1774;
    /** Distance, in scatters, beyond which one in a hundred of the pairs that belong lies by chance (Rayleigh's law). */
    private static final double BELONGS = 3.03;
    /** Places of two files, each rounded to 0.0001 in, lie up to this far from one another, mm. */
    private static final double ROUNDING_MM = 0.0036;

    /** Whether the scale is off by more than the pairs' scatter makes by chance. */
    public boolean scaleTold() {
        return Math.abs(scale - 1) > chance() * scaleError();
    }

    /** Whether the turn is more than the pairs' scatter makes by chance. */
    public boolean turnTold() {
        return Math.abs(StrictMath.toRadians(turnDeg)) > chance() * scaleError();
    }

    /**
     * Standard error of {@link #scale}, and of the turn in rad: the scatter of a coordinate over the spread of the places
     * (linear regression in the complex plane; two coordinates a pair, four of them spent on the fit).
     */
    private double scaleError() {
        int n = matched.size();
        double squares = Math.max(scatterMm * scatterMm * n, 2 * ROUNDING_MM * ROUNDING_MM / 12 * n);
        return n <= 2 || spreadMm < 1e-9 ? Double.POSITIVE_INFINITY : Math.sqrt(squares / (2 * n - 4)) / spreadMm;
    }

    /** Student's t where Gauss's law has 3 (Abramowitz and Stegun 26.7.5, two terms). */
    private double chance() {
        double free = Math.max(1, 2 * matched.size() - 4);
        return 3 + 30 / (4 * free) + 1656 / (96 * free * free);
    }

    /**
     * The fit to the pairs that agree on it, where more than half of them do: one hole that was moved is then told from a
     * pattern that lies off. The agreement is that of the least median of squares (Rousseeuw and Leroy, Robust Regression
     * and Outlier Detection, 1987, chapter 5) over trial fits through two pairs; the rest is least squares again. Pairs
     * that stand apart are no longer matched. This fit itself where all agree, or too few do to tell.
     *
     * @param bores the bores that were fitted
     * @param places the places that were fitted
     */
    public HoleFit agreeing(List<double[]> bores, List<double[]> places) {
        int n = matched.size();
        if (n < 4) {
            return this;
        }
        PlaneMap map = leastMedian(bores, places);
        List<Pair> kept = matched;
        for (int k = 0; k < 4; k++) {
            double[] left = distances(bores, places, map);
            double[] sorted = left.clone();
            Arrays.sort(sorted);
            // the small-sample factor of the book, for a fit through two of n pairs
            double scatter = sorted[n / 2] / RAYLEIGH_MEDIAN * (1 + 5.0 / (n - 2));
            double most = Math.max(ROUNDING_MM, BELONGS * scatter);
            List<Pair> next = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                if (left[i] <= most) {
                    next.add(new Pair(matched.get(i).bore(), matched.get(i).place(), left[i]));
                }
            }
            kept = next;
            map = leastSquares(bores, places, kept);
        }
        if (kept.size() == n || kept.size() < Math.max(4, n / 2 + 1)) {
            return this;
        }
        List<Pair> agreed = new ArrayList<>();
        for (Pair p : kept) {
            agreed.add(new Pair(p.bore(), p.place(), distance(bores, places, p, map)));
        }
        return of(bores, places, agreed, map, extentsRatio);
    }

    private PlaneMap leastMedian(List<double[]> bores, List<double[]> places) {
        int n = matched.size();
        PlaneMap best = leastSquares(bores, places, matched);
        double least = median(distances(bores, places, best));
        int stride = (int) Math.max(1, 3L * n * n / MOST_TRIALS);
        for (int i = 0; i < n; i += stride) {
            // partners far away fix scale and turn; three, so that one that was moved does not spoil all trials
            boolean[] tried = new boolean[n];
            tried[i] = true;
            for (int k = 0; k < 3; k++) {
                int far = -1;
                double most = -1;
                for (int j = 0; j < n; j++) {
                    double[] p = places.get(matched.get(i).place());
                    double[] q = places.get(matched.get(j).place());
                    double d = StrictMath.hypot(p[0] - q[0], p[1] - q[1]);
                    if (!tried[j] && d > most) {
                        most = d;
                        far = j;
                    }
                }
                if (far < 0) {
                    break;
                }
                tried[far] = true;
                PlaneMap trial = leastSquares(bores, places, List.of(matched.get(i), matched.get(far)));
                double median = median(distances(bores, places, trial));
                if (median < least) {
                    least = median;
                    best = trial;
                }
            }
        }
        return best;
    }

    private static double median(double[] values) {
        Arrays.sort(values);
        return values[values.length / 2];
    }

    private double[] distances(List<double[]> bores, List<double[]> places, PlaneMap map) {
        double[] out = new double[matched.size()];
        for (int i = 0; i < out.length; i++) {
            out[i] = distance(bores, places, matched.get(i), map);
        }
        return out;
    }

    private static double distance(List<double[]> bores, List<double[]> places, Pair pair, PlaneMap map) {
        double[] b = bores.get(pair.bore());
        double[] p = places.get(pair.place());
        return StrictMath.hypot(b[0] - map.xMm(p[0], p[1]), b[1] - map.yMm(p[0], p[1]));
    }

    /**
     * Fits.
     *
     * @param bores X, Y of each bore in the blank's frame, mm
     * @param places X, Y of each hole or ring of the design in the same frame, mm
     * @param withinMm a bore farther from every place than this, after the fit, has none; e.g. 0.5
     * @return null where either list is empty
     */
    public static @Nullable HoleFit fit(List<double[]> bores, List<double[]> places, double withinMm) {
        if (bores.isEmpty() || places.isEmpty()) {
            return null;
        }
        double ratio = extent(bores) / Math.max(1e-9, extent(places));
        double[] voted = vote(bores, places, withinMm);
        HoleFit best = refine(bores, places, new PlaneMap(1, 0, 0, 1, voted[0], voted[1]), withinMm, ratio);
        if (best.matched().size() < Math.min(bores.size(), places.size()) && ratio > 0 && Math.abs(ratio - 1) > 0.002) {
            double[] b = middle(bores);
            double[] p = middle(places);
            PlaneMap sized = PlaneMap.scale(ratio).then(PlaneMap.shift(b[0] - ratio * p[0], b[1] - ratio * p[1]));
            HoleFit other = refine(bores, places, sized, withinMm, ratio);
            if (other.matched().size() > best.matched().size()) {
                best = other;
            }
        }
        return best;
    }

    private static double extent(List<double[]> points) {
        Bounds box = box(points);
        return StrictMath.hypot(box.widthMm(), box.heightMm());
    }

    private static Bounds box(List<double[]> points) {
        Bounds box = Bounds.NONE;
        for (double[] p : points) {
            box = box.with(p[0], p[1]);
        }
        return box;
    }

    private static double[] middle(List<double[]> points) {
        Bounds box = box(points);
        return new double[] {0.5 * (box.minXMm() + box.maxXMm()), 0.5 * (box.minYMm() + box.maxYMm())};
    }

    /** The shift that most pairs agree on, the smallest where several do; found by sorting the shifts of all pairs. */
    private static double[] vote(List<double[]> bores, List<double[]> places, double within) {
        int stride = (int) Math.max(1, (long) bores.size() * places.size() / MOST_VOTES);
        int n = (bores.size() + stride - 1) / stride * places.size();
        long[] keys = new long[n];
        int k = 0;
        double cell = Math.max(0.05, within / 4);
        for (int i = 0; i < bores.size(); i += stride) {
            for (double[] p : places) {
                long kx = Math.round((bores.get(i)[0] - p[0]) / cell);
                long ky = Math.round((bores.get(i)[1] - p[1]) / cell);
                keys[k++] = kx + (1 << 24) << 32 | ky + (1 << 24);
            }
        }
        Arrays.sort(keys, 0, k);
        int most = 0;
        double[] best = {0, 0};
        for (int a = 0; a < k; ) {
            int b = a;
            while (b < k && keys[b] == keys[a]) {
                b++;
            }
            double x = ((keys[a] >> 32) - (1 << 24)) * cell;
            double y = ((keys[a] & 0xffffffffL) - (1 << 24)) * cell;
            if (b - a > most || b - a == most && x * x + y * y < best[0] * best[0] + best[1] * best[1]) {
                most = b - a;
                best = new double[] {x, y};
            }
            a = b;
        }
        return best;
    }

    private static HoleFit refine(
            List<double[]> bores, List<double[]> places, PlaneMap start, double within, double ratio) {
        PlaneMap map = start;
        List<Pair> pairs = match(bores, places, map, 2 * within);
        for (int k = 0; k < 8 && !pairs.isEmpty(); k++) {
            map = leastSquares(bores, places, pairs);
            pairs = match(bores, places, map, k < 3 ? 2 * within : within);
        }
        return of(bores, places, pairs, map, ratio);
    }

    private static HoleFit of(
            List<double[]> bores, List<double[]> places, List<Pair> pairs, PlaneMap map, double ratio) {
        boolean[] boreUsed = new boolean[bores.size()];
        boolean[] placeUsed = new boolean[places.size()];
        double sum = 0;
        double worst = 0;
        for (Pair p : pairs) {
            boreUsed[p.bore()] = true;
            placeUsed[p.place()] = true;
            sum += p.distanceMm() * p.distanceMm();
            worst = Math.max(worst, p.distanceMm());
        }
        double[] m = middle(places);
        return new HoleFit(
                pairs,
                without(bores, boreUsed),
                without(places, placeUsed),
                map.xMm(m[0], m[1]) - m[0],
                map.yMm(m[0], m[1]) - m[1],
                map.scaleFactor(),
                StrictMath.toDegrees(StrictMath.atan2(map.yx(), map.xx())),
                pairs.isEmpty() ? 0 : Math.sqrt(sum / pairs.size()),
                worst,
                spread(places, pairs),
                ratio);
    }

    private static double spread(List<double[]> places, List<Pair> pairs) {
        double px = 0;
        double py = 0;
        for (Pair p : pairs) {
            px += places.get(p.place())[0] / pairs.size();
            py += places.get(p.place())[1] / pairs.size();
        }
        double sum = 0;
        for (Pair p : pairs) {
            double dx = places.get(p.place())[0] - px;
            double dy = places.get(p.place())[1] - py;
            sum += dx * dx + dy * dy;
        }
        return Math.sqrt(sum);
    }

    private static List<double[]> without(List<double[]> points, boolean[] used) {
        List<double[]> out = new ArrayList<>();
        for (int i = 0; i < used.length; i++) {
            if (!used[i]) {
                out.add(points.get(i));
            }
        }
        return out;
    }

    /** Mutually nearest pairs. */
    private static List<Pair> match(List<double[]> bores, List<double[]> places, PlaneMap map, double within) {
        double[][] at = new double[places.size()][];
        for (int i = 0; i < at.length; i++) {
            double[] p = places.get(i);
            at[i] = new double[] {map.xMm(p[0], p[1]), map.yMm(p[0], p[1])};
        }
        int[] placeOfBore = new int[bores.size()];
        double[] boreDistance = new double[places.size()];
        int[] boreOfPlace = new int[places.size()];
        Arrays.fill(boreDistance, Double.POSITIVE_INFINITY);
        Arrays.fill(boreOfPlace, -1);
        for (int i = 0; i < placeOfBore.length; i++) {
            double least = Double.POSITIVE_INFINITY;
            placeOfBore[i] = -1;
            for (int k = 0; k < at.length; k++) {
                double d = StrictMath.hypot(bores.get(i)[0] - at[k][0], bores.get(i)[1] - at[k][1]);
                if (d < least) {
                    least = d;
                    placeOfBore[i] = k;
                }
                if (d < boreDistance[k]) {
                    boreDistance[k] = d;
                    boreOfPlace[k] = i;
                }
            }
        }
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < placeOfBore.length; i++) {
            int k = placeOfBore[i];
            if (k >= 0 && boreOfPlace[k] == i && boreDistance[k] <= within) {
                pairs.add(new Pair(i, k, boreDistance[k]));
            }
        }
        return pairs;
    }

    /** Similarity without mirroring, closed form (complex regression); a shift alone for fewer than two pairs. */
    private static PlaneMap leastSquares(List<double[]> bores, List<double[]> places, List<Pair> pairs) {
        double bx = 0;
        double by = 0;
        double px = 0;
        double py = 0;
        for (Pair p : pairs) {
            bx += bores.get(p.bore())[0];
            by += bores.get(p.bore())[1];
            px += places.get(p.place())[0];
            py += places.get(p.place())[1];
        }
        int n = pairs.size();
        bx /= n;
        by /= n;
        px /= n;
        py /= n;
        double re = 0;
        double im = 0;
        double norm = 0;
        for (Pair p : pairs) {
            double u = places.get(p.place())[0] - px;
            double v = places.get(p.place())[1] - py;
            double x = bores.get(p.bore())[0] - bx;
            double y = bores.get(p.bore())[1] - by;
            re += u * x + v * y;
            im += u * y - v * x;
            norm += u * u + v * v;
        }
        double a = n < 2 || norm < 1e-9 ? 1 : re / norm;
        double b = n < 2 || norm < 1e-9 ? 0 : im / norm;
        return new PlaneMap(a, -b, b, a, bx - (a * px - b * py), by - (b * px + a * py));
    }
}
