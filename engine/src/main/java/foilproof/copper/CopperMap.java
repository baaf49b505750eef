package foilproof.copper;

import foilproof.geom.DisjointSets;
import foilproof.stock.Parallel;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Which copper is joined to which at one level of the foil: pieces, areas and the contour round them.
 *
 * <p>Copper is 4-connected and gaps 8-connected, so that two cleared cells that touch by a corner part the copper
 * (check-values Q28); but where the walls interpolated between the cells show a ridge that passes between cell centres,
 * it joins (see {@link MarginRows}), so the grid breaks no crumbs off thin strips. The contour is found by marching
 * squares over the cell centres, its crossings interpolated on sloping walls and asked exactly on vertical ones;
 * it closes along the blank's edge. Areas are the polygons' areas, summed in a fixed order.
 *
 * <p>Built in bands of fixed height on as many threads as the field allows; the result does not depend on them.
 */
public final class CopperMap {
    /** Pieces of no more than this, mm2, are crumbs and no pieces (design section 1, idea 4). */
    public static final double CRUMB_MM2 = 0.01;

    private static final int BAND_ROWS = 64;
    /** A neck between two round groove ends is narrower than a cell over no more than this, cells either way. */
    private static final int HAIRLINE_CELLS = 8;

    private static final int MOST_HAIRLINES = 400;

    private final MarginField field;
    private final double levelMm;
    private final int[] runStart;
    private final int[] runEnd;
    private final int[] rowRuns;
    private final int[] componentOfRun;
    private final int[] pieceOfComponent;
    private final double[] componentAreaMm2;
    private final List<Piece> pieces;
    private final double copperMm2;
    private final double areaErrorMm2;
    final Contours contours;
    private @Nullable VertexIndex vertices;
    private @Nullable Crossings crossings;

    private CopperMap(MarginField field, double levelMm) {
        this.field = field;
        this.levelMm = levelMm;
        MapStripe[] stripes = stripes(field, (float) levelMm, false);
        rowRuns = new int[field.rows() + 1];
        int bands = stripes.length;
        int[] runBase = new int[bands + 1];
        for (int s = 0; s < bands; s++) {
            runBase[s + 1] = runBase[s] + stripes[s].runStart.size;
            for (int r = stripes[s].firstRow; r < stripes[s].endRow; r++) {
                rowRuns[r] = runBase[s] + stripes[s].rowRuns[r - stripes[s].firstRow];
            }
        }
        int runs = runBase[bands];
        rowRuns[field.rows()] = runs;
        runStart = new int[runs];
        runEnd = new int[runs];
        for (int s = 0; s < bands; s++) {
            System.arraycopy(stripes[s].runStart.data, 0, runStart, runBase[s], stripes[s].runStart.size);
            System.arraycopy(stripes[s].runEnd.data, 0, runEnd, runBase[s], stripes[s].runEnd.size);
        }
        componentOfRun = components(stripes);
        contours = Contours.join(stripes, runBase, componentOfRun, field.cellMm());
        int count = contours.componentCount(componentOfRun);
        componentAreaMm2 = new double[count];
        double[] errors = new double[count];
        contours.addAreas(componentAreaMm2, errors);
        for (int s = 0; s < bands; s++) {
            for (int k = 0; k < stripes[s].runHidden.size; k++) {
                errors[componentOfRun[runBase[s] + k]] +=
                        0.5 * stripes[s].runHidden.data[k] * field.cellMm() * field.cellMm();
            }
        }
        pieceOfComponent = new int[count];
        pieces = List.copyOf(collectPieces(stripes, runBase, errors));
        double area = 0;
        double error = 0;
        for (int c = 0; c < count; c++) {
            area += componentAreaMm2[c];
            error += errors[c];
        }
        copperMm2 = Math.min(area, field.widthMm() * field.heightMm());
        areaErrorMm2 = error;
    }

    /**
     * Maps the copper of a field at a level.
     *
     * @param field margins above the glue plane
     * @param levelMm 0 for the foil's bottom, where copper is judged; the foil's thickness for its top
     */
    public static CopperMap of(MarginField field, double levelMm) {
        return new CopperMap(field, levelMm);
    }

    /**
     * Area above a level, and how far it may be off, without telling pieces apart.
     *
     * @return area and error, mm2
     */
    public static double[] area(MarginField field, double levelMm) {
        return Contours.areaOf(stripes(field, (float) levelMm, false), field.cellMm());
    }

    /** The area of {@link #area} alone, sooner known than how far it may be off. */
    static double areaMm2(MarginField field, double levelMm) {
        return Contours.areaOf(stripes(field, (float) levelMm, true), field.cellMm())[0];
    }

    private static MapStripe[] stripes(MarginField field, float levelMm, boolean areaOnly) {
        int squareRows = field.rows() + 1;
        MapStripe[] stripes = new MapStripe[(squareRows + BAND_ROWS - 1) / BAND_ROWS];
        Parallel.run(stripes.length, field.threads(), () -> {
            RowPool pool = new RowPool(field.columns());
            return s -> stripes[s] = new MapStripe(
                    field, levelMm, s * BAND_ROWS - 1, Math.min((s + 1) * BAND_ROWS, squareRows) - 1, pool, areaOnly);
        });
        return stripes;
    }

    /** Joins the runs of neighbouring rows that overlap; numbers the components by their first run. */
    private int[] components(MapStripe[] stripes) {
        DisjointSets sets = new DisjointSets(runStart.length);
        for (int r = 0; r + 1 < rowRuns.length - 1; r++) {
            int a = rowRuns[r];
            int b = rowRuns[r + 1];
            int endA = b;
            int endB = rowRuns[r + 2];
            while (a < endA && b < endB) {
                if (runStart[a] < runEnd[b] && runStart[b] < runEnd[a]) {
                    sets.union(a, b);
                }
                if (runEnd[a] < runEnd[b]) {
                    a++;
                } else {
                    b++;
                }
            }
        }
        joinHairlines(sets, stripes);
        int[] component = new int[runStart.length];
        int count = 0;
        for (int i = 0; i < component.length; i++) {
            int root = sets.find(i);
            component[i] = root == i ? count++ : component[root];
        }
        return component;
    }

    /**
     * Joins what only a neck finer than the grid joins: where two components come near each other beside a crest that
     * passes just below the level, the cutters' shapes are asked on a finer grid.
     */
    private void joinHairlines(DisjointSets sets, MapStripe[] stripes) {
        Set<Long> asked = new HashSet<>();
        int[] left = {MOST_HAIRLINES};
        for (MapStripe stripe : stripes) {
            for (int k = 0; k + 1 < stripe.close.size; k += 2) {
                joinHairline(sets, stripe.close.data[k], stripe.close.data[k + 1], asked, left);
            }
        }
    }

    private void joinHairline(DisjointSets sets, int row, int column, Set<Long> asked, int[] left) {
        // neighbours are asked once for all
        if (!asked.add(-1 - ((long) (row / 2) * field.columns() + column / 2))) {
            return;
        }
        double sure = 0.15 * field.cellMm() * field.steepestSlope();
        // by component, the cell nearest to the crest: squared distance, row, column
        Map<Integer, int[]> nearest = new TreeMap<>();
        for (int j = Math.max(0, row - HAIRLINE_CELLS); j <= Math.min(field.rows() - 1, row + HAIRLINE_CELLS); j++) {
            for (int i = Math.max(0, column - HAIRLINE_CELLS);
                    i <= Math.min(field.columns() - 1, column + HAIRLINE_CELLS);
                    i++) {
                int run = runAt(j, i);
                if (run >= 0) {
                    int d = (j - row) * (j - row) + (i - column) * (i - column);
                    int[] have = nearest.get(sets.find(run));
                    // a cell that only a crest passes, or hardly more, is no copper where the finer grid asks
                    if ((have == null || d < have[0])
                            && field.exactMarginMm((i + 0.5) * field.cellMm(), (j + 0.5) * field.cellMm())
                                    > levelMm + sure) {
                        nearest.put(sets.find(run), new int[] {d, j, i});
                    }
                }
            }
        }
        if (nearest.size() < 2) {
            return;
        }
        int[] roots = nearest.keySet().stream().mapToInt(Integer::intValue).toArray();
        for (int a = 0; a < roots.length; a++) {
            for (int b = a + 1; b < roots.length; b++) {
                if (sets.find(roots[a]) != sets.find(roots[b])
                        && left[0]-- > 0
                        && hairlineJoins(
                                row,
                                column,
                                Objects.requireNonNull(nearest.get(roots[a])),
                                Objects.requireNonNull(nearest.get(roots[b])))) {
                    sets.union(roots[a], roots[b]);
                }
            }
        }
    }

    private boolean hairlineJoins(int row, int column, int[] a, int[] b) {
        double cell = field.cellMm();
        return SaddleRefiner.joins(field, levelMm, (column + 0.5) * cell, (row + 0.5) * cell, new double[] {
            (a[2] + 0.5) * cell, (a[1] + 0.5) * cell, (b[2] + 0.5) * cell, (b[1] + 0.5) * cell
        });
    }

    private List<Piece> collectPieces(MapStripe[] stripes, int[] runBase, double[] errors) {
        int count = componentAreaMm2.length;
        int[] longest = new int[count];
        double[] insideX = new double[count];
        double[] insideY = new double[count];
        for (int s = 0; s < stripes.length; s++) {
            MapStripe stripe = stripes[s];
            for (int r = stripe.firstRow; r < stripe.endRow; r++) {
                for (int k = rowRuns[r]; k < rowRuns[r + 1]; k++) {
                    int c = componentOfRun[k];
                    int copper = stripe.runCopper.data[k - runBase[s]];
                    if (copper > longest[c]) {
                        longest[c] = copper;
                        insideX[c] = (stripe.runMiddle.data[k - runBase[s]] + 0.5) * field.cellMm();
                        insideY[c] = (r + 0.5) * field.cellMm();
                    }
                }
            }
        }
        double[][] boxes = contours.boxes(count);
        List<Integer> order = new ArrayList<>();
        for (int c = 0; c < count; c++) {
            pieceOfComponent[c] = -1;
            if (componentAreaMm2[c] > CRUMB_MM2) {
                order.add(c);
            }
        }
        order.sort(
                Comparator.comparingDouble((Integer c) -> -componentAreaMm2[c]).thenComparingInt(Integer::intValue));
        List<Piece> list = new ArrayList<>();
        for (int c : order) {
            pieceOfComponent[c] = list.size();
            double[] box = boxes[c];
            list.add(new Piece(
                    list.size(),
                    componentAreaMm2[c],
                    errors[c],
                    box[0],
                    box[1],
                    box[2],
                    box[3],
                    insideX[c],
                    insideY[c]));
        }
        return list;
    }

    /** The level at which the copper is looked at, mm above the glue plane. */
    public double levelMm() {
        return levelMm;
    }

    /** The field that was mapped. */
    public MarginField field() {
        return field;
    }

    /** Area of the copper, crumbs included, mm2. */
    public double copperMm2() {
        return copperMm2;
    }

    /** The rest of the blank's area, mm2: with {@link #copperMm2()} it adds up to the blank. */
    public double clearedMm2() {
        return field.widthMm() * field.heightMm() - copperMm2;
    }

    /** How far the areas may be off, mm2. */
    public double areaErrorMm2() {
        return areaErrorMm2;
    }

    /** Pieces above {@link #CRUMB_MM2}, largest first. */
    public List<Piece> pieces() {
        return pieces;
    }

    /** How many bits of copper are too small to be pieces. */
    public int crumbs() {
        return componentAreaMm2.length - pieces.size();
    }

    /**
     * Which piece lies at a place.
     *
     * @return its index in {@link #pieces()}, -1 where there is none (cleared, a crumb, or off the blank)
     */
    public int pieceAt(double xMm, double yMm) {
        int component = componentAt(xMm, yMm);
        return component < 0 ? -1 : pieceOfComponent[component];
    }

    /** Whether every cell that a box meets is copper of one piece; false where the box leaves the blank. */
    public boolean wholeIn(double x0Mm, double y0Mm, double x1Mm, double y1Mm) {
        if (!(x0Mm >= 0 && y0Mm >= 0 && x1Mm <= field.widthMm() && y1Mm <= field.heightMm())) {
            return false;
        }
        int i0 = Math.min((int) (x0Mm / field.cellMm()), field.columns() - 1);
        int i1 = Math.min((int) (x1Mm / field.cellMm()), field.columns() - 1);
        int j1 = Math.min((int) (y1Mm / field.cellMm()), field.rows() - 1);
        for (int j = Math.min((int) (y0Mm / field.cellMm()), field.rows() - 1); j <= j1; j++) {
            int run = runAt(j, i0);
            if (run < 0 || runEnd[run] <= i1) {
                return false;
            }
        }
        return true;
    }

    /** The contours' vertices in bins, made when first asked for. */
    synchronized VertexIndex vertices() {
        VertexIndex have = vertices;
        if (have == null) {
            have = new VertexIndex(this);
            vertices = have;
        }
        return have;
    }

    /** Walls across the copper within a limit; a wider search done before is used again. The caller's own copy. */
    synchronized Crossings copperCrossings(double widestMm) {
        Crossings have = crossings;
        if (have == null || have.limitMm() < widestMm) {
            have = new Crossings(vertices(), widestMm, true);
            crossings = have;
        }
        return have.within(widestMm);
    }

    /** Which piece a component is; -1 for a crumb. */
    int pieceOf(int component) {
        return pieceOfComponent[component];
    }

    double areaOf(int component) {
        return componentAreaMm2[component];
    }

    /** The component in whose cells a place lies; -1 in none. */
    int componentAt(double xMm, double yMm) {
        if (!(xMm >= 0 && yMm >= 0 && xMm <= field.widthMm() && yMm <= field.heightMm())) {
            return -1;
        }
        int i = Math.min((int) (xMm / field.cellMm()), field.columns() - 1);
        int j = Math.min((int) (yMm / field.cellMm()), field.rows() - 1);
        int run = runAt(j, i);
        return run < 0 ? -1 : componentOfRun[run];
    }

    /** The run of a row that holds a column; -1 where there is no copper. */
    private int runAt(int j, int i) {
        int low = rowRuns[j];
        int high = rowRuns[j + 1] - 1;
        while (low <= high) {
            int mid = low + high >>> 1;
            if (runEnd[mid] <= i) {
                low = mid + 1;
            } else if (runStart[mid] > i) {
                high = mid - 1;
            } else {
                return mid;
            }
        }
        return -1;
    }
}
