package foilproof.electrical;

import foilproof.design.Bounds;
import foilproof.design.CopperProbe;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import org.jspecify.annotations.Nullable;

/**
 * The narrowest copper that a net's current passes: from its first contact the way that keeps to the wide middle of the
 * copper is followed to every other contact, and at each step the shortest chord through the copper is measured (rays
 * to the walls, each wall placed by halving). A neck counts for heating where it is at least 1 mm long.
 */
public final class NetSections {
    /** A neck shorter than this is cooled by its ends, mm (needs.md J6). */
    public static final double NECK_MM = 1.0;

    /** A section is another one where it is wider than the one before by this factor. */
    private static final double OTHER_SECTION = 1.25;

    private static final int MOST_SECTIONS = 3;
    private static final double WIDEST_MM = 10;
    private static final int DIRECTIONS = 16;
    private static final double DIAGONAL = Math.sqrt(2);

    private final CopperProbe copper;
    private final SheetGrid grid;
    private final float[] depth;
    private final Map<Integer, double[]> widths = new HashMap<>();

    /**
     * A width at a place.
     *
     * @param widthMm width, mm
     * @param plusMinusMm how far it may be off, mm
     * @param xMm where, in the copper's frame, mm
     * @param yMm where
     * @param from index of the contact at one end of the way
     * @param to index of the contact at the other end
     */
    public record Narrow(double widthMm, double plusMinusMm, double xMm, double yMm, int from, int to) {}

    /**
     * What was found.
     *
     * @param narrowest the narrowest place of all
     * @param neck the narrowest stretch of at least {@link #NECK_MM}: the width given is its widest; null where no way
     *     is that long
     * @param sections stretches of at least that length, narrowest first: the neck, then what is left of the ways where
     *     they are at least a quarter wider than the one before
     */
    public record Result(Narrow narrowest, @Nullable Narrow neck, List<Narrow> sections) {
        /** Copies the list. */
        public Result {
            sections = List.copyOf(sections);
        }
    }

    private NetSections(CopperProbe copper, SheetGrid grid) {
        this.copper = copper;
        this.grid = grid;
        this.depth = grid.depths();
    }

    /**
     * Finds the narrowest section.
     *
     * @param copper the copper, its own frame; widths are those of this copper: ask once with the foil's bottom, once
     *     with its top, for a {@link TraceSection}
     * @param box the box round the net's copper
     * @param copperMm2 its area, mm2, 0 where not known
     * @param contacts the net's places
     * @param cellMm cell for finding the way, mm; widths do not depend on it
     * @return null where no two contacts are joined
     */
    public static @Nullable Result narrowest(
            CopperProbe copper, Bounds box, double copperMm2, List<SheetResistance.Contact> contacts, double cellMm) {
        double h = SheetResistance.cellFor(box, copperMm2 / 2.5, cellMm);
        SheetGrid grid = new SheetGrid(
                copper, new Bounds(box.minXMm() - 0.38 * h, box.minYMm() - 0.24 * h, box.maxXMm(), box.maxYMm()), h);
        return new NetSections(copper, grid).search(contacts);
    }

    private record Step(double cost, int cell) implements Comparable<Step> {
        @Override
        public int compareTo(Step o) {
            int c = Double.compare(cost, o.cost);
            return c != 0 ? c : Integer.compare(cell, o.cell);
        }
    }

    private @Nullable Result search(List<SheetResistance.Contact> contacts) {
        int n = grid.cells();
        int[] contactOf = new int[n];
        Arrays.fill(contactOf, -1);
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < contacts.size() && depth[i] > 0 && contactOf[i] < 0; k++) {
                if (contacts.get(k).holds(grid.centreX(i), grid.centreY(i))) {
                    contactOf[i] = k;
                }
            }
        }
        List<int[]> ways = ways(contactOf, contacts.size());
        Narrow narrowest = null;
        for (int[] way : ways) {
            Narrow here = narrowestOn(way, contactOf, contactOf[way[0]]);
            if (here != null && (narrowest == null || here.widthMm() < narrowest.widthMm())) {
                narrowest = here;
            }
        }
        if (narrowest == null) {
            return null;
        }
        List<Narrow> sections = new ArrayList<>();
        double floor = 0;
        for (int k = 0; k < MOST_SECTIONS; k++) {
            Narrow next = null;
            for (int[] way : ways) {
                Narrow stretch = neckOn(way, contactOf, contactOf[way[0]], floor);
                if (stretch != null && (next == null || stretch.widthMm() < next.widthMm())) {
                    next = stretch;
                }
            }
            if (next == null) {
                break;
            }
            sections.add(next);
            floor = OTHER_SECTION * next.widthMm();
        }
        return new Result(narrowest, sections.isEmpty() ? null : sections.get(0), sections);
    }

    /** From every contact that copper joins with contact 0 the way to it, cell by cell. */
    private List<int[]> ways(int[] contactOf, int contacts) {
        int[] parent = spread(contactOf);
        List<int[]> ways = new ArrayList<>();
        for (int k = 1; k < contacts; k++) {
            int end = nearestEnd(contactOf, parent, k);
            if (end < 0) {
                continue;
            }
            int length = 0;
            for (int i = end; i >= 0; i = parent[i]) {
                length++;
            }
            int[] way = new int[length];
            for (int i = end, j = 0; i >= 0; i = parent[i]) {
                way[j++] = i;
            }
            ways.add(way);
        }
        return ways;
    }

    private double[] cost = new double[0];

    /** Cheapest ways from contact 0 into all copper, a step costing its length over the fourth power of the depth. */
    private int[] spread(int[] contactOf) {
        int n = grid.cells();
        int w = grid.columns;
        int[] parent = new int[n];
        Arrays.fill(parent, -2);
        cost = new double[n];
        Arrays.fill(cost, Double.POSITIVE_INFINITY);
        PriorityQueue<Step> queue = new PriorityQueue<>();
        for (int i = 0; i < n; i++) {
            if (contactOf[i] == 0) {
                cost[i] = 0;
                parent[i] = -1;
                queue.add(new Step(0, i));
            }
        }
        int[] to = {1, -1, w, -w, w + 1, w - 1, -w + 1, -w - 1};
        while (!queue.isEmpty()) {
            Step s = queue.poll();
            if (s.cost() > cost[s.cell()]) {
                continue;
            }
            for (int k = 0; k < 8; k++) {
                int j = s.cell() + to[k];
                if (j < 0 || j >= n || depth[j] <= 0 || !steps(s.cell(), k)) {
                    continue;
                }
                double d = Math.min(depth[j], 1e4);
                double c = s.cost() + (k < 4 ? 1 : DIAGONAL) / (d * d * d * d);
                if (c < cost[j]) {
                    cost[j] = c;
                    parent[j] = s.cell();
                    queue.add(new Step(c, j));
                }
            }
        }
        return parent;
    }

    private boolean steps(int i, int way) {
        int w = grid.columns;
        return switch (way) {
            case 0 -> grid.right(i) > SheetGrid.CLOSED;
            case 1 -> grid.right(i - 1) > SheetGrid.CLOSED;
            case 2 -> grid.above(i) > SheetGrid.CLOSED;
            case 3 -> grid.below[i] > SheetGrid.CLOSED;
            case 4 -> depth[i + 1] > 0 && depth[i + w] > 0;
            case 5 -> depth[i - 1] > 0 && depth[i + w] > 0;
            case 6 -> depth[i + 1] > 0 && depth[i - w] > 0;
            default -> depth[i - 1] > 0 && depth[i - w] > 0;
        };
    }

    private int nearestEnd(int[] contactOf, int[] parent, int contact) {
        int best = -1;
        for (int i = 0; i < contactOf.length; i++) {
            if (contactOf[i] == contact && parent[i] >= -1 && (best < 0 || cost[i] < cost[best])) {
                best = i;
            }
        }
        return best;
    }

    private @Nullable Narrow narrowestOn(int[] way, int[] contactOf, int contact) {
        Narrow best = null;
        for (int i : way) {
            if (contactOf[i] >= 0) {
                continue;
            }
            double width = width(i);
            if (best == null || width < best.widthMm()) {
                best = new Narrow(width, error(width), grid.centreX(i), grid.centreY(i), 0, contact);
            }
        }
        return best;
    }

    private double error(double width) {
        // direction found to a quarter of a degree; between steps a wall may come in by its curvature over half a cell
        return 1e-4 + 1e-4 * width + 0.05 * grid.cell;
    }

    private @Nullable Narrow neckOn(int[] way, int[] contactOf, int contact, double floor) {
        double[] at = new double[way.length];
        for (int k = 1; k < way.length; k++) {
            double dx = grid.centreX(way[k]) - grid.centreX(way[k - 1]);
            double dy = grid.centreY(way[k]) - grid.centreY(way[k - 1]);
            at[k] = at[k - 1] + Math.sqrt(dx * dx + dy * dy);
        }
        Narrow best = null;
        for (int a = 0; a < way.length; a++) {
            double widest = 0;
            for (int b = a; b < way.length && contactOf[way[b]] < 0 && width(way[b]) > floor; b++) {
                widest = Math.max(widest, width(way[b]));
                if (best != null && widest >= best.widthMm()) {
                    break;
                }
                if (at[b] - at[a] + grid.cell >= NECK_MM) {
                    int middle = (a + b) / 2;
                    best = new Narrow(
                            widest, error(widest), grid.centreX(way[middle]), grid.centreY(way[middle]), 0, contact);
                    break;
                }
            }
        }
        return best;
    }

    /** The shortest chord through the copper at a cell's centre, mm. */
    private double width(int cell) {
        double[] known = widths.get(cell);
        if (known != null) {
            return known[0];
        }
        double x = grid.centreX(cell);
        double y = grid.centreY(cell);
        double best = shortestChordMm(copper, x, y, grid.cell / 2);
        widths.put(cell, new double[] {best});
        return best;
    }

    /**
     * The shortest straight way through the copper at a point, wall to wall: the width of a trace there.
     *
     * @param copper the copper
     * @param xMm a point in it, mm
     * @param yMm a point in it, mm
     * @param stepMm walls thinner than this may be stepped over, mm
     * @return mm; 0 outside the copper, at most 20
     */
    public static double shortestChordMm(CopperProbe copper, double xMm, double yMm, double stepMm) {
        if (!copper.copperAt(xMm, yMm)) {
            return 0;
        }
        double part = StrictMath.PI / DIRECTIONS;
        double best = Double.POSITIVE_INFINITY;
        double direction = 0;
        for (int k = 0; k < DIRECTIONS; k++) {
            double c = chord(copper, xMm, yMm, k * part, best, stepMm);
            if (c < best) {
                best = c;
                direction = k * part;
            }
        }
        for (double fine = part / 2; fine > 0.004; fine /= 2) {
            double less = chord(copper, xMm, yMm, direction - fine, best, stepMm);
            double more = chord(copper, xMm, yMm, direction + fine, best, stepMm);
            if (less < best) {
                best = less;
                direction -= fine;
            } else if (more < best) {
                best = more;
                direction += fine;
            }
        }
        return best;
    }

    private static double chord(CopperProbe copper, double x, double y, double direction, double enough, double step) {
        double c = StrictMath.cos(direction);
        double s = StrictMath.sin(direction);
        double one = ray(copper, x, y, c, s, Math.min(enough, WIDEST_MM), step);
        return one >= enough ? one : one + ray(copper, x, y, -c, -s, Math.min(enough - one, WIDEST_MM), step);
    }

    private static double ray(CopperProbe copper, double x, double y, double c, double s, double atMost, double step) {
        double t = 0;
        while (copper.copperAt(x + (t + step) * c, y + (t + step) * s)) {
            t += step;
            if (t >= atMost) {
                return t;
            }
        }
        double lo = t;
        double hi = t + step;
        for (int k = 0; k < 16; k++) {
            double m = 0.5 * (lo + hi);
            if (copper.copperAt(x + m * c, y + m * s)) {
                lo = m;
            } else {
                hi = m;
            }
        }
        return 0.5 * (lo + hi);
    }
}
