package foilproof.stock;

/**
 * The moves of a path that come below the headroom, cut into pieces that the sweep handles exactly: points, straight
 * lines and arcs of at most a quarter turn, each with Z linear along it. In time order, as columns.
 */
final class Pieces {
    /** The cutter stands or moves straight up or down. */
    static final byte POINT = 0;
    /** A straight line in plan. */
    static final byte LINE = 1;
    /** An arc of at most a quarter turn in plan. */
    static final byte ARC = 2;

    /** Plan lengths below this are a point, mm. */
    private static final double POINT_MM = 1e-9;

    int size;
    byte[] kind;
    /** Move of the path. */
    int[] move;
    /** Fractions of the move at which the piece begins and ends. */
    double[] from;

    double[] to;
    double[] x0;
    double[] y0;
    double[] z0;
    double[] x1;
    double[] y1;
    double[] z1;
    double[] cx;
    double[] cy;
    /** Line: plan length. Arc: radius. */
    double[] length;
    /** Line: direction. Arc: unit vector from the centre to the start. */
    double[] ux;

    double[] uy;
    /** Arc: signed turn. */
    double[] turn;
    /** Reach in plan at the headroom, mm. */
    double[] reach;

    /** Whether a piece is a level line that goes on from the level line before it at the same height. */
    boolean[] joined;
    /** A point at the start of the level line that follows at the same height adds nothing to it. */
    boolean[] inNext;
    /** A point at the end of the level line before it, not lower, adds nothing to it. */
    boolean[] inPrevious;

    private Pieces(int capacity) {
        kind = new byte[capacity];
        move = new int[capacity];
        from = new double[capacity];
        to = new double[capacity];
        x0 = new double[capacity];
        y0 = new double[capacity];
        z0 = new double[capacity];
        x1 = new double[capacity];
        y1 = new double[capacity];
        z1 = new double[capacity];
        cx = new double[capacity];
        cy = new double[capacity];
        length = new double[capacity];
        ux = new double[capacity];
        uy = new double[capacity];
        turn = new double[capacity];
        reach = new double[capacity];
        joined = new boolean[capacity];
        inNext = new boolean[capacity];
        inPrevious = new boolean[capacity];
    }

    /**
     * Cuts a path into pieces.
     *
     * @param path the moves
     * @param profile the cutter
     * @param capMm top of the headroom in the run's own zero: what stays at or above it is left out
     */
    static Pieces of(CutPath path, ToolProfile profile, double capMm) {
        int count = 0;
        for (int i = 0; i < path.size; i++) {
            count += piecesOf(path, i, capMm);
        }
        Pieces p = new Pieces(count);
        for (int i = 0; i < path.size; i++) {
            int n = piecesOf(path, i, capMm);
            for (int k = 0; k < n; k++) {
                p.add(path, i, k, n, profile, capMm);
            }
        }
        p.relate();
        return p;
    }

    /**
     * Whether a piece cuts what a piece of another path cuts, and leaves as much to its neighbours: in a tile that has the
     * same pieces the same heights come out.
     */
    boolean sameCut(int p, Pieces other, int q) {
        boolean same = kind[p] == other.kind[q]
                && x0[p] == other.x0[q]
                && y0[p] == other.y0[q]
                && z0[p] == other.z0[q]
                && x1[p] == other.x1[q]
                && y1[p] == other.y1[q]
                && z1[p] == other.z1[q]
                && cx[p] == other.cx[q]
                && cy[p] == other.cy[q]
                && length[p] == other.length[q]
                && ux[p] == other.ux[q]
                && uy[p] == other.uy[q]
                && turn[p] == other.turn[q]
                && reach[p] == other.reach[q]
                && joined[p] == other.joined[q]
                && inNext[p] == other.inNext[q]
                && inPrevious[p] == other.inPrevious[q]
                && joinedNext(p) == other.joinedNext(q);
        return same && (!joined[p] || ux[p - 1] == other.ux[q - 1] && uy[p - 1] == other.uy[q - 1]);
    }

    private boolean joinedNext(int p) {
        return p + 1 < size && joined[p + 1];
    }

    private static int piecesOf(CutPath path, int i, double capMm) {
        if (!(path.lowestMm(i) < capMm)) {
            return 0;
        }
        double quarters = Math.abs(path.sweepRad[i]) / (Math.PI / 2);
        return path.sweepRad[i] == 0 ? 1 : Math.max(1, (int) Math.ceil(quarters - 1e-9));
    }

    private void add(CutPath path, int i, int k, int n, ToolProfile profile, double capMm) {
        int p = size;
        move[p] = i;
        from[p] = (double) k / n;
        to[p] = (double) (k + 1) / n;
        z0[p] = path.zMm(i, from[p]);
        z1[p] = k + 1 == n ? path.z1Mm[i] : path.zMm(i, to[p]);
        double lowest = Math.min(z0[p], z1[p]);
        if (!(lowest < capMm)) {
            return;
        }
        reach[p] = profile.radiusMm(capMm - lowest);
        if (path.sweepRad[i] == 0) {
            line(path, i, p);
        } else {
            arc(path, i, p);
        }
        size++;
    }

    private void line(CutPath path, int i, int p) {
        x0[p] = path.x0Mm[i];
        y0[p] = path.y0Mm[i];
        x1[p] = path.x1Mm[i];
        y1[p] = path.y1Mm[i];
        double dx = x1[p] - x0[p];
        double dy = y1[p] - y0[p];
        double l = Math.sqrt(dx * dx + dy * dy);
        kind[p] = l < POINT_MM ? POINT : LINE;
        length[p] = l;
        if (kind[p] == LINE) {
            ux[p] = dx / l;
            uy[p] = dy / l;
        }
    }

    /** Start and end radii of a legal arc may differ by rounding: the radius of a piece is the mean at its middle. */
    private void arc(CutPath path, int i, int p) {
        double ax = path.x0Mm[i] - path.cxMm[i];
        double ay = path.y0Mm[i] - path.cyMm[i];
        double bx = path.x1Mm[i] - path.cxMm[i];
        double by = path.y1Mm[i] - path.cyMm[i];
        double ra = Math.sqrt(ax * ax + ay * ay);
        double rb = Math.sqrt(bx * bx + by * by);
        double middle = (from[p] + to[p]) / 2;
        double r = ra + (rb - ra) * middle;
        double a = StrictMath.atan2(ay, ax);
        double sweep = path.sweepRad[i];
        double a0 = a + sweep * from[p];
        double a1 = a + sweep * to[p];
        cx[p] = path.cxMm[i];
        cy[p] = path.cyMm[i];
        length[p] = r;
        turn[p] = sweep * (to[p] - from[p]);
        ux[p] = StrictMath.cos(a0);
        uy[p] = StrictMath.sin(a0);
        x0[p] = from[p] == 0 ? path.x0Mm[i] : cx[p] + r * ux[p];
        y0[p] = from[p] == 0 ? path.y0Mm[i] : cy[p] + r * uy[p];
        x1[p] = to[p] == 1 ? path.x1Mm[i] : cx[p] + r * StrictMath.cos(a1);
        y1[p] = to[p] == 1 ? path.y1Mm[i] : cy[p] + r * StrictMath.sin(a1);
        kind[p] = ARC;
        if (r < POINT_MM) {
            kind[p] = POINT;
        }
    }

    /** Lowest tip height of a piece, mm in the run's zero. */
    double lowest(int p) {
        return Math.min(z0[p], z1[p]);
    }

    /** Whether a piece stays at one height, or is a point, of which only the lowest height counts. */
    boolean level(int p) {
        return kind[p] == POINT || z0[p] == z1[p];
    }

    private void relate() {
        joined = new boolean[size];
        inNext = new boolean[size];
        inPrevious = new boolean[size];
        for (int p = 1; p < size; p++) {
            if (x0[p] == x1[p - 1] && y0[p] == y1[p - 1]) {
                boolean lineBefore = kind[p - 1] == LINE && z0[p - 1] == z1[p - 1];
                boolean line = kind[p] == LINE && z0[p] == z1[p];
                joined[p] = lineBefore && line && z0[p] == z0[p - 1];
                inPrevious[p] = lineBefore && kind[p] == POINT && lowest(p) >= z1[p - 1];
                inNext[p - 1] = line && kind[p - 1] == POINT && lowest(p - 1) >= z0[p];
            }
        }
    }

    /** Index of the first piece whose move is not below {@code firstMove}. */
    int firstOf(int firstMove) {
        int low = 0;
        int high = size;
        while (low < high) {
            int mid = (low + high) >>> 1;
            if (move[mid] < firstMove) {
                low = mid + 1;
            } else {
                high = mid;
            }
        }
        return low;
    }

    /** Box of a piece in plan: left, lower, right, upper into {@code box}, without the reach. */
    void box(int p, double[] box) {
        box[0] = Math.min(x0[p], x1[p]);
        box[1] = Math.min(y0[p], y1[p]);
        box[2] = Math.max(x0[p], x1[p]);
        box[3] = Math.max(y0[p], y1[p]);
        if (kind[p] == ARC) {
            // A quarter turn stays within the box of its ends widened by the sagitta.
            double sagitta = length[p] * (1 - StrictMath.cos(turn[p] / 2)) + POINT_MM;
            box[0] -= sagitta;
            box[1] -= sagitta;
            box[2] += sagitta;
            box[3] += sagitta;
        }
    }
}
