package foilproof.electrical;

import foilproof.design.Bounds;
import foilproof.design.CopperProbe;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Resistance of a thin sheet between contacts, in squares: the Laplace equation on square cells whose faces are as open
 * as the copper leaves them (finite volumes with face apertures), solved by conjugate gradients preconditioned with a
 * modified incomplete Cholesky factor, in a fixed order so that results repeat to the last bit. Where a cell's
 * neighbour lies in a contact, the distance to the contact's edge is used. Each answer is worked out on two grids, one
 * twice as coarse, and extrapolated; the difference of the two is its error. Multiply by
 * {@link CopperMetal#sheetOhm} for ohms.
 *
 * <p>A gap or strip narrower than a cell may be missed: choose a cell of at most half the narrowest groove.
 */
public final class SheetResistance {
    /** Most cells of the box. */
    private static final double MOST_BOX_CELLS = 4e6;
    /** Most cells of copper. */
    private static final double MOST_COPPER_CELLS = 8e4;
    /** Most cells of copper of the grid on which the farthest places are looked for. */
    private static final double MOST_SEARCH_CELLS = 1.2e4;
    /** Places that are tried as the farthest, each time. */
    private static final int TRIES = 3;

    /**
     * 2^(4/3): the error falls with h^(4/3) at an inside right-angled corner, where the field is singular, and faster
     * elsewhere; extrapolating by it at worst turns a smooth error round.
     */
    private static final double ORDER = 2.5198420997897464;

    private static final double RESIDUAL = 1e-9;
    private static final int MOST_STEPS = 6000;

    private final SheetGrid grid;
    private final int[] nodeOfCell;
    private final int[] cellOfNode;
    private final double[] diagonal;
    private final double[] east;
    private final double[] north;
    private final int[] eastNode;
    private final int[] northNode;
    private final int[] contactOfCell;
    private final double[] toContact;
    private final int[] contactAt;
    private int nodes;

    /** Where current enters or leaves: everywhere inside is at one potential. */
    public interface Contact {
        /** True inside the contact. */
        boolean holds(double xMm, double yMm);

        /** A round contact. */
        static Contact disc(double xMm, double yMm, double radiusMm) {
            return (x, y) -> (x - xMm) * (x - xMm) + (y - yMm) * (y - yMm) <= radiusMm * radiusMm;
        }

        /** A contact that fills a box. */
        static Contact box(Bounds box) {
            return box::holds;
        }
    }

    /**
     * A resistance in squares.
     *
     * @param squares the value; infinite where nothing joins the contacts
     * @param plusMinus how far it may be off
     */
    public record Squares(double squares, double plusMinus) {
        /** In ohm, for a sheet of that many ohm per square. */
        public double ohm(double sheetOhm) {
            return squares * sheetOhm;
        }
    }

    /**
     * The largest resistance between any two contacts.
     *
     * @param from index of one contact
     * @param to index of the other
     * @param value the resistance
     */
    public record Largest(int from, int to, Squares value) {}

    private SheetResistance(SheetGrid grid, List<Contact> contacts) {
        this.grid = grid;
        int cells = grid.cells();
        contactOfCell = new int[cells];
        Arrays.fill(contactOfCell, -1);
        nodeOfCell = new int[cells];
        Arrays.fill(nodeOfCell, -1);
        for (int i = 0; i < cells; i++) {
            if (open(i)) {
                contactOfCell[i] = contactOf(contacts, i);
            }
        }
        int[] queue = new int[cells];
        int head = 0;
        int tail = 0;
        boolean[] seen = new boolean[cells];
        for (int i = 0; i < cells; i++) {
            if (contactOfCell[i] >= 0) {
                seen[i] = true;
                queue[tail++] = i;
            }
        }
        while (head < tail) {
            int i = queue[head++];
            tail = reach(i + 1, grid.right(i), seen, queue, tail);
            tail = reach(i - 1, i % grid.columns > 0 ? grid.right(i - 1) : 0, seen, queue, tail);
            tail = reach(i + grid.columns, grid.above(i), seen, queue, tail);
            tail = reach(i - grid.columns, grid.below[i], seen, queue, tail);
        }
        for (int i = 0; i < cells; i++) {
            if (seen[i] && contactOfCell[i] < 0) {
                nodeOfCell[i] = nodes++;
            }
        }
        cellOfNode = new int[nodes];
        diagonal = new double[nodes];
        east = new double[nodes];
        north = new double[nodes];
        eastNode = new int[nodes];
        northNode = new int[nodes];
        toContact = new double[4 * nodes];
        contactAt = new int[4 * nodes];
        Arrays.fill(eastNode, -1);
        Arrays.fill(northNode, -1);
        Arrays.fill(contactAt, -1);
        for (int i = 0; i < cells; i++) {
            if (nodeOfCell[i] >= 0) {
                cellOfNode[nodeOfCell[i]] = i;
            }
        }
        assemble(contacts);
    }

    private boolean open(int i) {
        return grid.right(i) > SheetGrid.CLOSED
                || grid.left[i / grid.columns * (grid.columns + 1) + i % grid.columns] > SheetGrid.CLOSED
                || grid.above(i) > SheetGrid.CLOSED
                || grid.below[i] > SheetGrid.CLOSED;
    }

    private int contactOf(List<Contact> contacts, int cell) {
        double x = grid.centreX(cell);
        double y = grid.centreY(cell);
        for (int k = 0; k < contacts.size(); k++) {
            if (contacts.get(k).holds(x, y)) {
                return k;
            }
        }
        return -1;
    }

    private int reach(int to, float face, boolean[] seen, int[] queue, int tail) {
        if (to < 0 || to >= seen.length || face <= SheetGrid.CLOSED || seen[to]) {
            return tail;
        }
        seen[to] = true;
        queue[tail] = to;
        return tail + 1;
    }

    private void assemble(List<Contact> contacts) {
        for (int n = 0; n < nodes; n++) {
            int i = cellOfNode[n];
            double right = grid.right(i);
            double above = grid.above(i);
            double leftFace = i % grid.columns > 0 ? grid.right(i - 1) : 0;
            double belowFace = grid.below[i];
            link(contacts, n, i, i + 1, right, 0);
            link(contacts, n, i, i + grid.columns, above, 1);
            link(contacts, n, i, i - 1, leftFace, 2);
            link(contacts, n, i, i - grid.columns, belowFace, 3);
        }
    }

    private void link(List<Contact> contacts, int n, int from, int to, double face, int way) {
        if (face <= SheetGrid.CLOSED || to < 0 || to >= nodeOfCell.length) {
            return;
        }
        int contact = contactOfCell[to];
        if (contact >= 0) {
            double g = face / edgeDistance(contacts.get(contact), from, to);
            diagonal[n] += g;
            toContact[4 * n + way] = g;
            contactAt[4 * n + way] = contact;
        } else if (nodeOfCell[to] >= 0) {
            diagonal[n] += face;
            if (way == 0) {
                east[n] = face;
                eastNode[n] = nodeOfCell[to];
            } else if (way == 1) {
                north[n] = face;
                northNode[n] = nodeOfCell[to];
            }
        }
    }

    /** Distance from a cell's centre to the edge of a contact on the way to its neighbour's centre, in cells. */
    private double edgeDistance(Contact contact, int from, int to) {
        double ax = grid.centreX(from);
        double ay = grid.centreY(from);
        double bx = grid.centreX(to);
        double by = grid.centreY(to);
        double lo = 0;
        double hi = 1;
        for (int k = 0; k < 20; k++) {
            double m = 0.5 * (lo + hi);
            if (contact.holds(ax + (bx - ax) * m, ay + (by - ay) * m)) {
                hi = m;
            } else {
                lo = m;
            }
        }
        return Math.max(0.05, hi);
    }

    // ---- solving ----

    /** Potentials with contact {@code high} at 1 and contact {@code low} at 0, others floating as copper is not. */
    private double conductance(int high, int low) {
        double[] rhs = new double[nodes];
        for (int n = 0; n < nodes; n++) {
            for (int w = 0; w < 4; w++) {
                if (contactAt[4 * n + w] == high) {
                    rhs[n] += toContact[4 * n + w];
                }
            }
        }
        double[] v = solve(rhs);
        double current = 0;
        for (int n = 0; n < nodes; n++) {
            for (int w = 0; w < 4; w++) {
                if (contactAt[4 * n + w] == low) {
                    current += toContact[4 * n + w] * v[n];
                }
            }
        }
        return current + touching(high, low);
    }

    /** Conductance of faces that two contacts share directly. */
    private double touching(int a, int b) {
        double sum = 0;
        for (int i = 0; i < contactOfCell.length; i++) {
            if (contactOfCell[i] != a && contactOfCell[i] != b) {
                continue;
            }
            int other = contactOfCell[i] == a ? b : a;
            if (i % grid.columns + 1 < grid.columns && contactOfCell[i + 1] == other) {
                sum += grid.right(i) * 1e6;
            }
            if (i + grid.columns < contactOfCell.length && contactOfCell[i + grid.columns] == other) {
                sum += grid.above(i) * 1e6;
            }
        }
        return sum;
    }

    private double[] solve(double[] rhs) {
        double[] pivot = factor();
        double[] x = new double[nodes];
        double[] r = rhs.clone();
        double[] z = new double[nodes];
        precondition(pivot, r, z);
        double[] p = z.clone();
        double[] q = new double[nodes];
        double rz = dot(r, z);
        double stop = RESIDUAL * RESIDUAL * Math.max(1e-300, rz);
        for (int k = 0; k < MOST_STEPS && rz > stop; k++) {
            multiply(p, q);
            double alpha = rz / dot(p, q);
            for (int n = 0; n < nodes; n++) {
                x[n] += alpha * p[n];
                r[n] -= alpha * q[n];
            }
            precondition(pivot, r, z);
            double next = dot(r, z);
            double beta = next / rz;
            rz = next;
            for (int n = 0; n < nodes; n++) {
                p[n] = z[n] + beta * p[n];
            }
        }
        return x;
    }

    private void multiply(double[] p, double[] q) {
        for (int n = 0; n < nodes; n++) {
            q[n] = diagonal[n] * p[n];
        }
        for (int n = 0; n < nodes; n++) {
            int e = eastNode[n];
            if (e >= 0) {
                q[n] -= east[n] * p[e];
                q[e] -= east[n] * p[n];
            }
            int u = northNode[n];
            if (u >= 0) {
                q[n] -= north[n] * p[u];
                q[u] -= north[n] * p[n];
            }
        }
    }

    private static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int n = 0; n < a.length; n++) {
            sum += a[n] * b[n];
        }
        return sum;
    }

    /** Modified incomplete Cholesky, no fill (Gustafsson, BIT 18, 1978), relaxed by 0.97. */
    private double[] factor() {
        double[] d = diagonal.clone();
        for (int n = 0; n < nodes; n++) {
            double e = eastNode[n] >= 0 ? east[n] : 0;
            double u = northNode[n] >= 0 ? north[n] : 0;
            double pivot = Math.max(d[n], 1e-12 * diagonal[n] + 1e-300);
            d[n] = pivot;
            if (e > 0) {
                d[eastNode[n]] -= e * (e + 0.97 * u) / pivot;
            }
            if (u > 0) {
                d[northNode[n]] -= u * (u + 0.97 * e) / pivot;
            }
        }
        return d;
    }

    private void precondition(double[] pivot, double[] r, double[] z) {
        System.arraycopy(r, 0, z, 0, nodes);
        for (int n = 0; n < nodes; n++) {
            double y = z[n] / pivot[n];
            if (eastNode[n] >= 0) {
                z[eastNode[n]] += east[n] * y;
            }
            if (northNode[n] >= 0) {
                z[northNode[n]] += north[n] * y;
            }
            z[n] = y;
        }
        for (int n = nodes - 1; n >= 0; n--) {
            double add = 0;
            if (eastNode[n] >= 0) {
                add += east[n] * z[eastNode[n]];
            }
            if (northNode[n] >= 0) {
                add += north[n] * z[northNode[n]];
            }
            z[n] += add / pivot[n];
        }
    }

    /** One grid only, its cells as given. */
    static double exactly(CopperProbe copper, Bounds box, Contact a, Contact b, double cellMm) {
        SheetResistance sheet = new SheetResistance(new SheetGrid(copper, box, cellMm), List.of(a, b));
        double g = sheet.conductance(0, 1);
        return g > 1e-12 ? 1 / g : Double.POSITIVE_INFINITY;
    }

    /** Moves the grid off the copper's own straight edges: a face that lies on an edge is neither open nor closed. */
    private static Bounds offGrid(Bounds box, double cellMm) {
        return new Bounds(
                box.minXMm() - 0.381966 * cellMm, box.minYMm() - 0.236068 * cellMm, box.maxXMm(), box.maxYMm());
    }

    /** A cell that keeps a box of copper within the most cells, not below {@code wishMm}. */
    static double cellFor(Bounds box, double copperMm2, double wishMm) {
        double byBox = Math.sqrt(Math.max(1e-12, box.widthMm() * box.heightMm()) / MOST_BOX_CELLS);
        double byCopper = Math.sqrt(Math.max(0, copperMm2) / MOST_COPPER_CELLS);
        return Math.max(wishMm, Math.max(byBox, byCopper));
    }

    /**
     * Resistance between two contacts.
     *
     * @param copper the copper, its own frame
     * @param box the box round the copper that carries the current
     * @param copperMm2 its area, or 0 where not known; sets the cell together with the box
     * @param a one contact
     * @param b the other
     * @param cellMm cell wished for, mm; a larger one is used where the copper would need too many
     */
    public static Squares between(
            CopperProbe copper, Bounds box, double copperMm2, Contact a, Contact b, double cellMm) {
        double h = cellFor(box, copperMm2, cellMm);
        double fine = exactly(copper, offGrid(box, h), a, b, h);
        double coarse = exactly(copper, offGrid(box, 2 * h), a, b, 2 * h);
        if (!Double.isFinite(fine)) {
            return new Squares(fine, 0);
        }
        if (!Double.isFinite(coarse)) {
            return new Squares(fine, fine);
        }
        double gain = fine - coarse;
        return new Squares(fine + gain / (ORDER - 1), Math.abs(gain) + 1e-9 * fine);
    }

    /**
     * The largest resistance between any two of the contacts, found on a coarser grid by going from the first to the
     * farthest, and from there to the farthest again, until it no longer grows: exact where the copper branches without
     * loops. Which contacts may be the farthest is told by the squares along the ways to them; the best few are solved.
     *
     * @return null where there are fewer than two contacts, or copper joins no two of them
     */
    public static @Nullable Largest largest(
            CopperProbe copper, Bounds box, double copperMm2, List<Contact> contacts, double cellMm) {
        if (contacts.size() < 2) {
            return null;
        }
        double h = cellFor(box, copperMm2, cellMm);
        double area = copperMm2 > 0 ? copperMm2 : box.widthMm() * box.heightMm();
        double coarse = Math.max(h, Math.min(3 * h, Math.sqrt(area / MOST_SEARCH_CELLS)));
        SheetGrid grid = new SheetGrid(copper, offGrid(box, coarse), coarse);
        int[] pair = farthest(grid, contacts);
        if (pair == null && coarse > h) {
            // a neck that the coarse grid does not see
            pair = farthest(new SheetGrid(copper, offGrid(box, h), h), contacts);
        }
        if (pair == null) {
            return null;
        }
        int low = Math.min(pair[0], pair[1]);
        int high = Math.max(pair[0], pair[1]);
        return new Largest(low, high, between(copper, box, copperMm2, contacts.get(low), contacts.get(high), cellMm));
    }

    private static int @Nullable [] farthest(SheetGrid grid, List<Contact> contacts) {
        SquaresAlong ways = new SquaresAlong(grid, contacts);
        int from = 0;
        int to = -1;
        double best = -1;
        for (int round = 0; round < 4; round++) {
            int far = -1;
            double most = best;
            for (int k : ways.farthestFrom(from, TRIES)) {
                SheetResistance sheet = new SheetResistance(grid, List.of(contacts.get(from), contacts.get(k)));
                double g = sheet.conductance(0, 1);
                if (g > 1e-12 && 1 / g > most * (1 + 1e-9)) {
                    most = 1 / g;
                    far = k;
                }
            }
            if (far < 0) {
                break;
            }
            best = most;
            to = from;
            from = far;
        }
        return to < 0 ? null : new int[] {from, to};
    }
}
