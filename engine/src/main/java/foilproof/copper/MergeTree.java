package foilproof.copper;

import foilproof.stock.Parallel;

/**
 * The superlevel merge tree of a field of e*: how the copper at any Z error hangs together, without simulating again.
 *
 * <p>Copper at error e is {e* &gt; e}. Its components are born at the peaks of e* and joined at saddles as e goes down;
 * read upwards, a piece falls apart at a saddle and vanishes at its peak. Peaks are found by letting every cell ascend
 * (one pass), saddles where two basins touch, and Kruskal's rule on the saddles, highest first, gives the tree: the
 * same components as sorting all cells would give. Heights are interpolated crests ({@link MarginRows}), so a ridge
 * between two V-shaped grooves parts at the Z error at which it does, and not up to half a cell's wall earlier.
 *
 * <p>Known limit: a strip between two vertical walls that is narrower than a cell can pass between cell centres unseen.
 */
public final class MergeTree {
    private static final int BAND_ROWS = 64;

    private final MarginField field;
    private final float ceilingMm;
    private final int basins;
    private final float[] peakMm;
    private final int[] peakRow;
    private final int[] peakColumn;
    private final int[] copperCells;
    private final Saddles saddles;
    private final int[] pointBasin;

    private MergeTree(MarginField field, double floorMm, double ceilingMm, double[] pointsMm) {
        this.field = field;
        this.ceilingMm = (float) (Math.min(ceilingMm, field.capMm()) - 1e-6);
        int rows = field.rows();
        int bands = (rows + BAND_ROWS - 1) / BAND_ROWS;
        int[] cells = cellsOf(pointsMm);
        float floor = (float) floorMm;
        float ceiling = this.ceilingMm;
        TreeStripe[] stripes = new TreeStripe[bands];
        Parallel.run(bands, field.threads(), () -> {
            RowPool pool = new RowPool(field.columns());
            return s -> stripes[s] = new TreeStripe(
                    field, s * BAND_ROWS, Math.min(rows, (s + 1) * BAND_ROWS), floor, ceiling, cells, pool);
        });
        int[] base = new int[bands + 1];
        for (int s = 0; s < bands; s++) {
            base[s + 1] = base[s] + stripes[s].peak.size;
        }
        int[] basin = resolve(stripes, base);
        int count = 0;
        int[] number = new int[base[bands]];
        for (int g = 0; g < number.length; g++) {
            number[g] = basin[g] == g ? count++ : -1;
        }
        for (int g = 0; g < basin.length; g++) {
            basin[g] = number[basin[g]];
        }
        basins = count;
        peakMm = new float[count];
        peakRow = new int[count];
        peakColumn = new int[count];
        copperCells = new int[count];
        gather(stripes, base, basin);
        saddles = allSaddles(stripes, base, basin, field.columns()).spanning(count);
        pointBasin = new int[cells.length / 2];
        for (int k = 0; k < pointBasin.length; k++) {
            int s = cells[2 * k] / BAND_ROWS;
            int local = stripes[s].pointBasin[k];
            pointBasin[k] = local < 0 ? -1 : basin[base[s] + local];
        }
    }

    /**
     * Builds the tree.
     *
     * @param field e*, of one tool run or of all together
     * @param floorMm the least Z error in question, mm; cells cleared at it are left out
     * @param pointsMm places whose piece will be asked for: x, y, x, y ...
     */
    public static MergeTree of(MarginField field, double floorMm, double... pointsMm) {
        return new MergeTree(field, floorMm, field.capMm(), pointsMm);
    }

    /**
     * As {@link #of}, with all copper that a ceiling leaves taken for one height: what falls apart or vanishes above it is
     * not told, and the fewer cells stand on a wall below it, the less there is to do.
     *
     * @param ceilingMm the greatest Z error in question, mm, above {@code floorMm}
     */
    static MergeTree between(MarginField field, double floorMm, double ceilingMm, double[] pointsMm) {
        return new MergeTree(field, floorMm, ceilingMm, pointsMm);
    }

    private int[] cellsOf(double[] pointsMm) {
        int[] cells = new int[pointsMm.length];
        for (int k = 0; k + 1 < cells.length; k += 2) {
            cells[k] = clamp((int) StrictMath.floor(pointsMm[k + 1] / field.cellMm()), field.rows());
            cells[k + 1] = clamp((int) StrictMath.floor(pointsMm[k] / field.cellMm()), field.columns());
        }
        return cells;
    }

    private static int clamp(int cell, int size) {
        return Math.max(0, Math.min(size - 1, cell));
    }

    /** For every basin of every band the one that its ascent ends in. */
    private static int[] resolve(TreeStripe[] stripes, int[] base) {
        int[] to = new int[base[stripes.length]];
        for (int s = 0; s < stripes.length; s++) {
            TreeStripe stripe = stripes[s];
            for (int k = 0; k < stripe.peak.size; k++) {
                int leave = stripe.leaves.data[k];
                int column = stripe.peakColumn.data[k];
                to[base[s] + k] = leave == 0
                        ? base[s] + stripe.find(k)
                        : leave < 0
                                ? base[s - 1] + stripes[s - 1].lastBasins[column]
                                : base[s + 1] + stripes[s + 1].firstBasins[column];
            }
        }
        for (int g = 0; g < to.length; g++) {
            int end = g;
            while (to[end] != end) {
                end = to[end];
            }
            int walk = g;
            while (to[walk] != end && walk != end) {
                int then = to[walk];
                to[walk] = end;
                walk = then;
            }
        }
        return to;
    }

    private void gather(TreeStripe[] stripes, int[] base, int[] basin) {
        for (int s = 0; s < stripes.length; s++) {
            TreeStripe stripe = stripes[s];
            for (int k = 0; k < stripe.peak.size; k++) {
                int b = basin[base[s] + k];
                if (stripe.leaves.data[k] == 0) {
                    peakMm[b] = (float) stripe.peak.data[k];
                    peakRow[b] = stripe.peakRow.data[k];
                    peakColumn[b] = stripe.peakColumn.data[k];
                }
                copperCells[b] += stripe.copperCells[k];
            }
        }
    }

    private static Saddles allSaddles(TreeStripe[] stripes, int[] base, int[] basin, int columns) {
        Saddles all = new Saddles(1024);
        for (int s = 0; s < stripes.length; s++) {
            Saddles own = stripes[s].saddles;
            for (int k = 0; k < own.size; k++) {
                int a = basin[base[s] + own.a[k]];
                int b = basin[base[s] + own.b[k]];
                if (a != b) {
                    all.add(a, b, own.height[k], own.cell[k]);
                }
            }
            if (s + 1 < stripes.length) {
                stitch(stripes[s], stripes[s + 1], base[s], base[s + 1], basin, columns, all);
            }
        }
        return all;
    }

    private static void stitch(
            TreeStripe low, TreeStripe high, int lowBase, int highBase, int[] basin, int columns, Saddles all) {
        SaddleMap map = new SaddleMap();
        for (int i = 0; i < columns; i++) {
            if (low.lastBasins[i] < 0 || high.firstBasins[i] < 0) {
                continue;
            }
            int a = basin[lowBase + low.lastBasins[i]];
            int b = basin[highBase + high.firstBasins[i]];
            if (a == b) {
                continue;
            }
            if (low.lastHeights[i] <= high.firstHeights[i]) {
                map.offer(a, b, low.lastHeights[i], (long) (low.endRow - 1) << 32 | i);
            } else {
                map.offer(a, b, high.firstHeights[i], (long) low.endRow << 32 | i);
            }
        }
        map.addTo(all);
    }

    /** The field whose tree this is. */
    public MarginField field() {
        return field;
    }

    /** The Z error from which on nothing is told, mm: just below the field's cap, or less. */
    float ceilingMm() {
        return ceilingMm;
    }

    /** How many peaks the field has. */
    public int peaks() {
        return basins;
    }

    /** Components of the copper at a Z error, crumbs included: peaks above it less the saddles above it. */
    public int componentsAt(double eMm) {
        int count = 0;
        for (float p : peakMm) {
            count += p > eMm ? 1 : 0;
        }
        for (int k = 0; k < saddles.size; k++) {
            count -= saddles.height[k] > eMm ? 1 : 0;
        }
        return count;
    }

    /** The Z error at which peak {@code i} vanishes, mm. */
    float peakMm(int i) {
        return peakMm[i];
    }

    int copperCells(int i) {
        return copperCells[i];
    }

    int peakRow(int i) {
        return peakRow[i];
    }

    int peakColumn(int i) {
        return peakColumn[i];
    }

    /** Saddles that join components, highest first. */
    Saddles saddles() {
        return saddles;
    }

    /** The peak to which the k-th asked place belongs; -1 where the place is never copper. */
    int basinOfPoint(int k) {
        return pointBasin[k];
    }

    double xOf(long cell) {
        return ((int) cell + 0.5) * field.cellMm();
    }

    double yOf(long cell) {
        return ((int) (cell >>> 32) + 0.5) * field.cellMm();
    }
}
