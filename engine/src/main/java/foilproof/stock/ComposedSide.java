package foilproof.stock;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;

/**
 * The surface of one side under conditions: {@code min(S, E_k + z0_k - e_k)} over the runs on this face. Heights are
 * mm above (+) or below (-) the nominal foil top, in the blank's frame of this side. Immutable, safe to ask from
 * several threads.
 *
 * <p>Two heights are told apart. The <em>cut</em> is what the cutters reach, not clipped by the blank: it goes on above
 * the foil up to {@link #capMm()}, which also means "not reached". The <em>height</em> is what is left: the lower of
 * the foil top and the cut.
 */
public final class ComposedSide {
    private final SideStock stock;
    private final BlankBody blank;
    private final Conditions conditions;
    private final List<Layer> layers;
    private final double capMm;
    private final double cellMm;
    /** Told once: they are asked for with every row. */
    private final int columns;

    private final int rows;

    ComposedSide(SideStock stock, BlankBody blank, Conditions conditions, List<Layer> layers, double cellMm) {
        this.stock = stock;
        this.blank = blank;
        this.conditions = conditions;
        this.layers = List.copyOf(layers);
        this.cellMm = cellMm;
        columns = cellsIn(blank.widthMm(), cellMm);
        rows = cellsIn(blank.heightMm(), cellMm);
        double cap = SweepSettings.LEAST_HEADROOM_MM;
        boolean first = true;
        for (Layer layer : layers) {
            double own = layer.envelope().capMm() + layer.shiftMm();
            cap = first ? own : Math.min(cap, own);
            first = false;
        }
        capMm = Math.max(cap, highestSurfaceMm());
    }

    private double highestSurfaceMm() {
        return Math.max(0, stock.surface().highestMm(blank.widthMm(), blank.heightMm()))
                + Math.max(0, -conditions.bowMm());
    }

    /** What an envelope adds: its tiles stand for moves, cutter and settings, see {@link Envelope}. */
    record LayerLikeness(int run, HeightTiles tiles, double shiftMm, double mirrorXMm, double mirrorYMm) {}

    /** All that the surface of a side depends on; equal for sides that are the same everywhere. */
    record Likeness(
            int side,
            BlankBody blank,
            double tapeMm,
            BlankSurface surface,
            double cellMm,
            double bowMm,
            double foilMm,
            double thicknessMm,
            List<LayerLikeness> layers) {}

    /** Stands for the whole surface of this side: equal where the surface is the same. */
    public Object likeness() {
        return new Likeness(
                number(),
                blank,
                stock.tapeMm(),
                stock.surface(),
                cellMm,
                conditions.bowMm(),
                foilMm(),
                conditions.thicknessMm(blank),
                likenessOf(layers));
    }

    static List<LayerLikeness> likenessOf(List<Layer> layers) {
        return layers.stream()
                .map(l -> new LayerLikeness(l.run(), l.envelope().tiles(), l.shiftMm(), l.mirrorXMm(), l.mirrorYMm()))
                .toList();
    }

    /** Number of the side, from 1. */
    public int number() {
        return stock.number();
    }

    /** The blank. */
    public BlankBody blank() {
        return blank;
    }

    /** The conditions. */
    public Conditions conditions() {
        return conditions;
    }

    /** How many threads the runs were swept with, and may go through this side: the most that any run names; at least 1. */
    public int threads() {
        int threads = 1;
        for (Layer layer : layers) {
            threads = Math.max(threads, layer.envelope().settings().threads());
        }
        return threads;
    }

    /** Side of a grid cell, mm. */
    public double cellMm() {
        return cellMm;
    }

    /** Cells along X whose centre lies on the blank. */
    public int columns() {
        return columns;
    }

    /** Cells along Y whose centre lies on the blank. */
    public int rows() {
        return rows;
    }

    private static int cellsIn(double lengthMm, double cellMm) {
        return Math.max(1, (int) Math.ceil(lengthMm / cellMm - 0.5 - 1e-9));
    }

    /** Thickness of the foil under these conditions, mm. */
    public double foilMm() {
        return conditions.foilMm(blank);
    }

    /** Height of the blank's underside, mm: -thickness. */
    public double undersideMm() {
        return -conditions.thicknessMm(blank);
    }

    /** Height of the spoil board's top, mm: -(thickness + tape). */
    public double spoilBoardMm() {
        return undersideMm() - stock.tapeMm();
    }

    /**
     * Cuts at or above this height are not kept; a cut of this height means that nothing reached. At least as high as
     * the highest foil.
     */
    public double capMm() {
        return capMm;
    }

    /**
     * Whether the headroom suffices for these conditions: no cut that lies below the highest foil was left out by the
     * sweep. Where not, walls end too low: sweep again with more headroom.
     */
    public boolean headroomSuffices() {
        for (Layer layer : layers) {
            if (layer.envelope().capMm() + layer.shiftMm() < highestSurfaceMm()) {
                return false;
            }
        }
        return true;
    }

    /** The runs on this face that are present, in time order: their indices in the job. */
    public int[] runs() {
        return layers.stream().mapToInt(Layer::run).toArray();
    }

    /**
     * What is added to the heights of a run's envelope, mm: z0 - e.
     *
     * @throws IllegalArgumentException where the run is absent or on the other face
     */
    public double shiftMm(int run) {
        return layer(run).shiftMm();
    }

    /** The envelope of a run present on this face. */
    public Envelope envelope(int run) {
        return layer(run).envelope();
    }

    /** The same side with some of the runs alone, each still at the zero that it has among all of them. */
    public ComposedSide withRuns(IntPredicate which) {
        List<Layer> some =
                layers.stream().filter(layer -> which.test(layer.run())).toList();
        return new ComposedSide(stock, blank, conditions, some, cellMm);
    }

    /** Highest place of the foil top under these conditions, mm; not below 0. */
    public double highestMm() {
        return highestSurfaceMm();
    }

    Layer layer(int run) {
        for (Layer layer : layers) {
            if (layer.run() == run) {
                return layer;
            }
        }
        throw new IllegalArgumentException("run " + run + " does not cut on side " + number());
    }

    /** Whether any run's cutter has an upright wall that reaches below the headroom. */
    boolean hasUprightWalls() {
        for (Layer layer : layers) {
            if (layer.hasUprightWall()) {
                return true;
            }
        }
        return false;
    }

    List<Layer> layers() {
        return layers;
    }

    /** Steepest wall that is not upright over all runs, mm per mm; see {@link Envelope#steepestConeSlope()}. */
    public double steepestConeSlope() {
        double steepest = 0;
        for (Layer layer : layers) {
            steepest = Math.max(steepest, layer.envelope().steepestConeSlope());
        }
        return steepest;
    }

    /** Height of the foil top before any cut, mm, what-if bow included. */
    public double surfaceMm(double xMm, double yMm) {
        return stock.surface().heightMm(xMm, yMm) - bowAt(xMm, yMm);
    }

    /** The middle low by the bow, the edges where they were: a paraboloid product, (1 - u2)(1 - v2), u, v from -1 to 1. */
    private double bowAt(double xMm, double yMm) {
        if (conditions.bowMm() == 0) {
            return 0;
        }
        double u = 2 * xMm / blank.widthMm() - 1;
        double v = 2 * yMm / blank.heightMm() - 1;
        return conditions.bowMm() * Math.max(0, 1 - u * u) * Math.max(0, 1 - v * v);
    }

    /** Height of the foil's glue plane, mm: the surface less the foil. */
    public double foilBottomMm(double xMm, double yMm) {
        return surfaceMm(xMm, yMm) - foilMm();
    }

    /** Lowest place that the cutters reach at a point, exactly, mm; {@link #capMm()} where none does. */
    public double exactCutMm(double xMm, double yMm) {
        double cut = capMm;
        for (Layer layer : layers) {
            cut = Math.min(cut, layer.exactMm(xMm, yMm));
        }
        return cut;
    }

    /** Whether {@link #exactCutMm} is at a level or below it: sooner known than how deep the cut is. */
    public boolean cutReaches(double xMm, double yMm, double levelMm) {
        if (capMm <= levelMm) {
            return true;
        }
        for (Layer layer : layers) {
            if (layer.reaches(xMm, yMm, levelMm)) {
                return true;
            }
        }
        return false;
    }

    /** Height of what is left at a point, exactly, mm. */
    public double exactHeightMm(double xMm, double yMm) {
        return Math.min(surfaceMm(xMm, yMm), exactCutMm(xMm, yMm));
    }

    /** Index in the job of the run that made the floor at a point, exactly; -1 where no run is below the foil top. */
    public int floorRun(double xMm, double yMm) {
        double floor = surfaceMm(xMm, yMm);
        int run = -1;
        for (Layer layer : layers) {
            double cut = layer.exactMm(xMm, yMm);
            if (cut < floor) {
                floor = cut;
                run = layer.run();
            }
        }
        return run;
    }

    /**
     * The cut along a row of cells, mm.
     *
     * @param j row of cells
     * @param i0 first column
     * @param count how many cells
     * @param into where they go, from 0
     */
    public void cutRow(int j, int i0, int count, float[] into) {
        cutRow(j, i0, count, into, 0);
    }

    /** As {@link #cutRow(int, int, int, float[])}, into the cells of {@code into} from {@code at} on. */
    public void cutRow(int j, int i0, int count, float[] into, int at) {
        int next = 0;
        if (!layers.isEmpty() && layers.get(0).copyRow(j, i0, count, into, at, (float) capMm)) {
            next = 1;
        } else {
            Arrays.fill(into, at, at + count, (float) capMm);
        }
        for (; next < layers.size(); next++) {
            layers.get(next).lowerRow(j, i0, count, into, at, capMm);
        }
    }

    /**
     * Whether a cutter may have reached a cell of a tile of {@link HeightTiles#TILE} cells: where not, the cut is
     * {@link #capMm()} all over it.
     */
    public boolean touches(int tileX, int tileY) {
        for (Layer layer : layers) {
            if (layer.touches(tileX, tileY)) {
                return true;
            }
        }
        return false;
    }

    /**
     * As {@link #touches}, by cutters that may leave steps that no sloping wall explains: all but V-shaped bits whose
     * cone goes on above the headroom, since the least of cones of one slope is nowhere steeper.
     */
    boolean steppedIn(int tileX, int tileY) {
        for (Layer layer : layers) {
            boolean cone = layer.envelope().profile().hasCone() && !layer.hasUprightWall();
            if (!cone && layer.touches(tileX, tileY)) {
                return true;
            }
        }
        return false;
    }

    /** As {@link #touches}, by cutters that go below a height, mm, at all. */
    boolean touchesBelow(int tileX, int tileY, double heightMm) {
        for (Layer layer : layers) {
            boolean deep = layer.envelope().path().lowestMm() + layer.shiftMm() < heightMm + 1e-6;
            if (deep && layer.touches(tileX, tileY)) {
                return true;
            }
        }
        return false;
    }

    /** The foil top before any cut along a row of cells, mm. */
    public void surfaceRow(int j, int i0, int count, double[] into) {
        double y = (j + 0.5) * cellMm;
        double x0 = (i0 + 0.5) * cellMm;
        stock.surface().rowMm(x0, y, cellMm, count, into);
        if (conditions.bowMm() != 0) {
            for (int k = 0; k < count; k++) {
                into[k] -= bowAt(x0 + k * cellMm, y);
            }
        }
    }

    /** Whether the foil top is flat at its nominal height under these conditions. */
    public boolean isFlat() {
        return stock.surface().isFlat() && conditions.bowMm() == 0;
    }

    /** The height of what is left along a row of cells, mm. */
    public void heightRow(int j, int i0, int count, float[] into) {
        cutRow(j, i0, count, into);
        if (isFlat()) {
            for (int k = 0; k < count; k++) {
                into[k] = Math.min(into[k], 0f);
            }
            return;
        }
        double[] surface = new double[count];
        surfaceRow(j, i0, count, surface);
        for (int k = 0; k < count; k++) {
            into[k] = Math.min(into[k], (float) surface[k]);
        }
    }

    /** The height of what is left at a cell's centre from the grid, mm. */
    public double heightMm(int i, int j) {
        float[] one = new float[1];
        heightRow(j, i, 1, one);
        return one[0];
    }
}
