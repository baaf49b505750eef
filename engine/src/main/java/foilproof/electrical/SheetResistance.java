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

    /** How far a conductance may be off because solving ended, relative: far less than the cells make. */
    private static final double SOLVED = 1e-10;
    /** Conductances below this, relative to that of the faces of a contact, are none. */
    private static final double NOTHING = 1e-18;

    private static final int MOST_STEPS = 6000;

    private final SheetGrid grid;
    private final int[] nodeOfCell;
    private final int[] cellOfNode;
    private final double[] diagonal;
    private final double[] east;
    private final double[] north;
    private final int[] northNode;
    private final int[] southNode;
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
        // one node more at the end, which is none: its faces are closed
        east = new double[nodes + 1];
        north = new double[nodes + 1];
        northNode = new int[nodes];
        southNode = new int[nodes];
        toContact = new double[4 * nodes];
        contactAt = new int[4 * nodes];
        Arrays.fill(northNode, nodes);
        Arrays.fill(southNode, nodes);
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
                // nodes are numbered along the rows: the eastern one is the next
                east[n] = face;
            } else if (way == 1) {
                north[n] = face;
                northNode[n] = nodeOfCell[to];
                southNode[nodeOfCell[to]] = n;
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

    /**
     * Conductance between two contacts: the power that {@code high} at 1 and the others at 0 take. Power is least for
     * the true potentials, so it is off by no more than the square of what they are off.
     *
     * @param start potentials to begin with, by node; those that solve on return
     */
    private double conductance(int high, int low, double[] start) {
        double entry = 0;
        double[] rhs = new double[nodes];
        for (int n = 0; n < nodes; n++) {
            for (int w = 0; w < 4; w++) {
                if (contactAt[4 * n + w] == high) {
                    rhs[n] += toContact[4 * n + w];
                }
            }
            entry += rhs[n];
        }
        solve(rhs, start, high, NOTHING * entry);
        return power(start, high) + touching(high, low);
    }

    private double power(double[] v, int high) {
        double sum = 0;
        for (int n = 0; n < nodes; n++) {
            double right = east[n] > 0 ? v[n + 1] - v[n] : 0;
            double up = northNode[n] < nodes ? v[northNode[n]] - v[n] : 0;
            sum += east[n] * right * right + north[n] * up * up;
            for (int w = 0; w < 4; w++) {
                double d = (contactAt[4 * n + w] == high ? 1 : 0) - v[n];
                sum += toContact[4 * n + w] * d * d;
            }
        }
        return sum;
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

    /** Conjugate gradients; every step takes {@code alpha * rz} from the power. */
    private void solve(double[] rhs, double[] x, int high, double nothing) {
        double[] inverse = factor();
        double[] z = new double[nodes + 1];
        double[] p = Arrays.copyOf(x, nodes + 1);
        double[] q = new double[nodes];
        double[] r = new double[nodes];
        multiply(p, q);
        for (int n = 0; n < nodes; n++) {
            r[n] = rhs[n] - q[n];
        }
        double power = power(x, high);
        double rz = precondition(inverse, r, z);
        System.arraycopy(z, 0, p, 0, nodes);
        // with this factor rz is no less than the power by which the potentials are off, but for a few per cent
        for (int k = 0; k < MOST_STEPS && rz > Math.max(nothing, SOLVED * power); k++) {
            double alpha = rz / multiply(p, q);
            power -= alpha * rz;
            for (int n = 0; n < nodes; n++) {
                x[n] += alpha * p[n];
                r[n] -= alpha * q[n];
            }
            double next = precondition(inverse, r, z);
            double beta = next / rz;
            rz = next;
            for (int n = 0; n < nodes; n++) {
                p[n] = z[n] + beta * p[n];
            }
        }
    }

    /** Multiplies by the matrix; the product of both vectors. */
    private double multiply(double[] p, double[] q) {
        double sum = 0;
        double westFlow = 0;
        for (int n = 0; n < nodes; n++) {
            double here = p[n];
            double v = diagonal[n] * here - westFlow - east[n] * p[n + 1] - north[n] * p[northNode[n]];
            int south = southNode[n];
            v -= north[south] * p[south];
            westFlow = east[n] * here;
            q[n] = v;
            sum += here * v;
        }
        return sum;
    }

    /** Modified incomplete Cholesky, no fill (Gustafsson, BIT 18, 1978), relaxed by 0.97: one over each pivot. */
    private double[] factor() {
        double[] d = Arrays.copyOf(diagonal, nodes + 1);
        for (int n = 0; n < nodes; n++) {
            double e = east[n];
            double u = north[n];
            double inverse = 1 / Math.max(d[n], 1e-12 * diagonal[n] + 1e-300);
            d[n] = inverse;
            if (e > 0) {
                d[n + 1] -= e * (e + 0.97 * u) * inverse;
            }
            if (u > 0) {
                d[northNode[n]] -= u * (u + 0.97 * e) * inverse;
            }
        }
        return d;
    }

    /** Solves with the factor; the product of both vectors. */
    private double precondition(double[] inverse, double[] r, double[] z) {
        double flow = 0;
        for (int n = 0; n < nodes; n++) {
            int south = southNode[n];
            double y = (r[n] + flow + north[south] * z[south]) * inverse[n];
            z[n] = y;
            flow = east[n] * y;
        }
        double sum = 0;
        double next = 0;
        for (int n = nodes - 1; n >= 0; n--) {
            next = z[n] + (east[n] * next + north[n] * z[northNode[n]]) * inverse[n];
            z[n] = next;
            sum += r[n] * next;
        }
        return sum;
    }

    /**
     * Potentials to begin with: those of a coarser grid, between its cells' centres as they are there, with contact 0 at
     * 1 and contact 1 at 0.
     */
    private double[] startFrom(SheetResistance coarse, double[] potentials) {
        double[] start = new double[nodes];
        double have = 0.5;
        for (int n = 0; n < nodes; n++) {
            double c = coarse.grid.columnAt(grid.centreX(cellOfNode[n]));
            double r = coarse.grid.rowAt(grid.centreY(cellOfNode[n]));
            int c0 = (int) Math.max(0, c);
            int r0 = (int) Math.max(0, r);
            double sum = 0;
            double weights = 0;
            for (int k = 0; k < 4; k++) {
                int column = c0 + (k & 1);
                int row = r0 + (k >> 1);
                double weight = (1 - Math.abs(c - column)) * (1 - Math.abs(r - row));
                int cell = row * coarse.grid.columns + column;
                if (weight <= 0 || column >= coarse.grid.columns || row >= coarse.grid.rows) {
                    continue;
                }
                if (coarse.contactOfCell[cell] == 0) {
                    sum += weight;
                    weights += weight;
                } else if (coarse.contactOfCell[cell] > 0) {
                    weights += weight;
                } else if (coarse.nodeOfCell[cell] >= 0) {
                    sum += weight * potentials[coarse.nodeOfCell[cell]];
                    weights += weight;
                }
            }
            have = weights > 0 ? sum / weights : have;
            start[n] = have;
        }
        return start;
    }

    /** One grid only, its cells as given. */
    static double exactly(CopperProbe copper, Bounds box, Contact a, Contact b, double cellMm) {
        SheetResistance sheet = new SheetResistance(new SheetGrid(copper, box, cellMm), List.of(a, b));
        return squares(sheet.conductance(0, 1, new double[sheet.nodes]));
    }

    private static double squares(double conductance) {
        return conductance > 1e-12 ? 1 / conductance : Double.POSITIVE_INFINITY;
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
        List<Contact> contacts = List.of(a, b);
        SheetResistance rough = new SheetResistance(new SheetGrid(copper, offGrid(box, 2 * h), 2 * h), contacts);
        double[] potentials = new double[rough.nodes];
        double coarse = squares(rough.conductance(0, 1, potentials));
        SheetResistance sheet = new SheetResistance(new SheetGrid(copper, offGrid(box, h), h), contacts);
        double fine = squares(sheet.conductance(0, 1, sheet.startFrom(rough, potentials)));
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
                double g = sheet.conductance(0, 1, new double[sheet.nodes]);
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
