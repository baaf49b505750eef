package foilproof.copper;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Finds strips of copper between a groove and one of the blank's four edges: walls of the copper's contour that face
 * the edge squarely (within 15 degrees) with copper all the way to it. Widths are measured anew from the cutters'
 * shapes.
 */
final class EdgeStrips {
    private static final double SQUARE = 0.9659258;
    /** A break no longer than this is none, mm. */
    private static final double SAME_MM = 0.15;

    private final CopperMap map;
    private final double widestMm;
    private final double leastLengthMm;

    private EdgeStrips(CopperMap map, double widestMm, double leastLengthMm) {
        this.map = map;
        this.widestMm = widestMm;
        this.leastLengthMm = leastLengthMm;
    }

    /**
     * The strips, narrowest first.
     *
     * @param map copper at the foil's bottom
     * @param widestMm widest that is told
     * @param leastLengthMm shorter ones are not told
     */
    static List<EdgeStrip> find(CopperMap map, double widestMm, double leastLengthMm) {
        EdgeStrips finder = new EdgeStrips(map, widestMm, leastLengthMm);
        List<EdgeStrip> found = new ArrayList<>();
        for (int edge = 0; edge < 4; edge++) {
            finder.along(edge, found);
        }
        found.sort(Comparator.comparingDouble(EdgeStrip::widthMm)
                .thenComparingDouble(EdgeStrip::xMm)
                .thenComparingDouble(EdgeStrip::yMm));
        return found;
    }

    /** Edges: 0 left, 1 right, 2 lower, 3 upper. */
    private void along(int edge, List<EdgeStrip> found) {
        VertexIndex index = map.vertices();
        Contours c = index.contours;
        double far = edge == 1 ? map.field().widthMm() : edge == 3 ? map.field().heightMm() : 0;
        boolean vertical = edge < 2;
        double sign = edge % 2 == 0 ? -1 : 1;
        double reach = widestMm + 2 * c.cellMm;
        List<double[]> hits = new ArrayList<>();
        for (int k = 0; k < c.x.length; k++) {
            double off = Math.abs(far - (vertical ? c.x[k] : c.y[k]));
            double towards = sign * (vertical ? index.normalX[k] : index.normalY[k]);
            if (c.kind[k] == MapStripe.OUTLINE || off >= reach || off < 1e-6 || towards < SQUARE) {
                continue;
            }
            double along = vertical ? c.y[k] : c.x[k];
            hits.add(new double[] {along, off});
        }
        hits.sort(Comparator.comparingDouble(h -> h[0]));
        int from = 0;
        for (int k = 1; k <= hits.size(); k++) {
            if (k < hits.size() && hits.get(k)[0] - hits.get(k - 1)[0] <= SAME_MM) {
                continue;
            }
            double length = hits.get(k - 1)[0] - hits.get(from)[0];
            if (length > leastLengthMm) {
                EdgeStrip strip = measure(edge, far, sign, hits.subList(from, k), length);
                if (strip != null) {
                    found.add(strip);
                }
            }
            from = k;
        }
    }

    private @org.jspecify.annotations.Nullable EdgeStrip measure(
            int edge, double far, double sign, List<double[]> hits, double length) {
        double[] least = hits.get(0);
        for (double[] hit : hits) {
            least = hit[1] < least[1] ? hit : least;
        }
        boolean vertical = edge < 2;
        double in = -sign;
        double high = least[1] + 2 * map.field().cellMm();
        if (margin(vertical, far + in * 0.5 * least[1], least[0]) <= 0
                || margin(vertical, far + in * high, least[0]) > 0) {
            return null;
        }
        double low = 0.5 * least[1];
        while (high - low > 1e-4) {
            double mid = 0.5 * (low + high);
            if (margin(vertical, far + in * mid, least[0]) > 0) {
                low = mid;
            } else {
                high = mid;
            }
        }
        double width = 0.5 * (low + high);
        if (width >= widestMm - 1e-6) {
            return null;
        }
        double a = hits.get(0)[0];
        double b = hits.get(hits.size() - 1)[0];
        double wall = far + in * width;
        double lowSide = Math.min(far, wall);
        double highSide = Math.max(far, wall);
        return vertical
                ? new EdgeStrip(
                        far + in * 0.5 * width, least[0], lowSide, a, highSide, b, length, width, SectionMeter.ERROR_MM)
                : new EdgeStrip(
                        least[0],
                        far + in * 0.5 * width,
                        a,
                        lowSide,
                        b,
                        highSide,
                        length,
                        width,
                        SectionMeter.ERROR_MM);
    }

    private double margin(boolean vertical, double across, double along) {
        return vertical ? map.field().exactMarginMm(across, along) : map.field().exactMarginMm(along, across);
    }
}
