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
                ratio);
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
