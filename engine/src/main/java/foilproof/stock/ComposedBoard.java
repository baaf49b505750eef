package foilproof.stock;

import foilproof.bench.ZZero;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The finished board under conditions, all sides composed; both faces meet where holes go through. Immutable.
 *
 * <p>The zero of each run is found in the order milled: for a zero on the foil it is the composed surface at the touch
 * point just before the run, so a touch-off on cut ground sits deeper; for one on the spoil board it is
 * -(thickness + tape).
 */
public final class ComposedBoard {
    private final BoardStock stock;
    private final Conditions conditions;
    private final Map<Integer, Double> zeroMm = new HashMap<>();
    private final List<ComposedSide> sides = new ArrayList<>();
    private final double cellMm;
    /** For each side the layers of the other face as this side sees them. */
    private final List<List<Layer>> far = new ArrayList<>();

    ComposedBoard(BoardStock stock, Conditions conditions) {
        this.stock = stock;
        this.conditions = conditions;
        this.cellMm = cellOf(stock);
        for (SideStock side : stock.sides()) {
            for (RunCut run : side.runs()) {
                zeroMm.put(run.run(), zeroOf(side, run));
            }
        }
        for (SideStock side : stock.sides()) {
            sides.add(new ComposedSide(
                    side, stock.blank(), conditions, layersOn(side.number(), Integer.MAX_VALUE), cellMm));
            far.add(findFarLayers(side.number()));
        }
    }

    /** Another board of the same stock whose runs have the zeros of an earlier one. */
    private ComposedBoard(ComposedBoard zeros, Conditions conditions) {
        this.stock = zeros.stock;
        this.conditions = conditions;
        this.cellMm = zeros.cellMm;
        zeroMm.putAll(zeros.zeroMm);
        for (SideStock side : stock.sides()) {
            sides.add(new ComposedSide(
                    side, stock.blank(), conditions, layersOn(side.number(), Integer.MAX_VALUE), cellMm));
            far.add(findFarLayers(side.number()));
        }
    }

    /** The same board with one run at its zero, without the Z error that the conditions give it; other zeros stay. */
    public ComposedBoard withoutZError(int run) {
        return conditions.zErrorMm(run) == 0 ? this : new ComposedBoard(this, conditions.withZError(run, 0));
    }

    /** Stands for a side and what was cut from its far face: equal for boards on which both are the same. */
    public Object likeness(int side) {
        List<Zero> zeros = new ArrayList<>();
        for (RunCut run : stock.sides().get(side - 1).runs()) {
            zeros.add(new Zero(run.run(), run.zero(), zeroMm(run.run())));
        }
        return List.of(side(side).likeness(), ComposedSide.likenessOf(far.get(side - 1)), zeros);
    }

    private record Zero(int run, ZZero on, double mm) {}

    private static double cellOf(BoardStock stock) {
        double cell = Double.NaN;
        for (SideStock side : stock.sides()) {
            for (RunCut run : side.runs()) {
                double own = run.envelope().settings().cellMm();
                if (!Double.isNaN(cell) && cell != own) {
                    throw new IllegalArgumentException("all runs of a board are swept with one cell");
                }
                cell = own;
            }
        }
        return Double.isNaN(cell) ? 0.01 : cell;
    }

    private double zeroOf(SideStock side, RunCut run) {
        if (run.zero() == ZZero.SPOIL_BOARD) {
            return -(conditions.thicknessMm(stock.blank()) + side.tapeMm());
        }
        Double inherited = run.zeroRun() == run.run() ? null : zeroMm.get(run.zeroRun());
        if (inherited != null) {
            return inherited;
        }
        ComposedSide before =
                new ComposedSide(side, stock.blank(), conditions, layersOn(side.number(), run.run()), cellMm);
        return before.exactHeightMm(run.touchXMm(), run.touchYMm());
    }

    /** Layers on the face that is up on a side, of the runs before {@code endRun} that are present. */
    private List<Layer> layersOn(int side, int endRun) {
        List<Layer> layers = new ArrayList<>();
        for (SideStock other : stock.sides()) {
            if (stock.sameFace(side, other.number())) {
                addLayers(side, other, endRun, layers);
            }
        }
        return layers;
    }

    private void addLayers(int side, SideStock other, int endRun, List<Layer> layers) {
        double mirrorX = stock.mirroredX(side) ^ stock.mirroredX(other.number())
                ? stock.blank().widthMm()
                : Double.NaN;
        double mirrorY = stock.mirroredY(side) ^ stock.mirroredY(other.number())
                ? stock.blank().heightMm()
                : Double.NaN;
        for (RunCut run : other.runs()) {
            if (run.run() < endRun && conditions.present(run.run())) {
                double shift = zeroMm(run.run()) - conditions.zErrorMm(run.run());
                layers.add(new Layer(run.run(), run.envelope(), shift, mirrorX, mirrorY));
            }
        }
    }

    /** What was swept. */
    public BoardStock stock() {
        return stock;
    }

    /** The conditions. */
    public Conditions conditions() {
        return conditions;
    }

    /** A side, numbered from 1. */
    public ComposedSide side(int number) {
        return sides.get(number - 1);
    }

    /** All sides in the order milled. */
    public List<ComposedSide> sides() {
        return List.copyOf(sides);
    }

    /**
     * Where the zero of a run really lies, mm above the nominal foil top of its side, its Z error left out.
     *
     * @throws IllegalArgumentException where there is no such run
     */
    public double zeroMm(int run) {
        Double zero = zeroMm.get(run);
        if (zero == null) {
            throw new IllegalArgumentException("no run " + run);
        }
        return zero;
    }

    /**
     * The surface of a side just before a run begins: what its touch-off and first moves meet.
     *
     * @param side number of the side, from 1
     * @param run index of the run in the job
     */
    public ComposedSide before(int side, int run) {
        return new ComposedSide(stock.sides().get(side - 1), stock.blank(), conditions, layersOn(side, run), cellMm);
    }

    /** A side with what was milled on it alone, whatever other sides have the same face up. */
    ComposedSide alone(int side) {
        List<Layer> layers = new ArrayList<>();
        addLayers(side, stock.sides().get(side - 1), Integer.MAX_VALUE, layers);
        return new ComposedSide(stock.sides().get(side - 1), stock.blank(), conditions, layers, cellMm);
    }

    /** The layers of all sides, each as its own side sees it. */
    List<Layer> allLayers() {
        List<Layer> layers = new ArrayList<>();
        for (SideStock side : stock.sides()) {
            addLayers(side.number(), side, Integer.MAX_VALUE, layers);
        }
        return layers;
    }

    /** Whether anything was milled from the other face of a side. */
    public boolean cutFromFarSide(int side) {
        return !farLayers(side).isEmpty();
    }

    private List<Layer> farLayers(int side) {
        return far.get(side - 1);
    }

    /** Whether a cutter from the other face of a side may have reached a cell of a tile of this side's grid. */
    public boolean farTouches(int side, int tileX, int tileY) {
        for (Layer layer : farLayers(side)) {
            if (layer.touches(tileX, tileY)) {
                return true;
            }
        }
        return false;
    }

    private List<Layer> findFarLayers(int side) {
        List<Layer> layers = new ArrayList<>();
        for (SideStock other : stock.sides()) {
            if (!stock.sameFace(side, other.number())) {
                addLayers(side, other, Integer.MAX_VALUE, layers);
            }
        }
        return layers;
    }

    /**
     * How far up the other face's cutters came at a point, exactly, mm in this side's frame: -thickness where none did.
     * Copper of this side is gone where this is at or above its glue plane, and there is a hole where it is at or above
     * {@link ComposedSide#exactHeightMm}.
     */
    public double exactFarCutMm(int side, double xMm, double yMm) {
        double underside = side(side).undersideMm();
        double far = underside;
        for (Layer layer : farLayers(side)) {
            far = Math.max(far, underside - layer.exactMm(xMm, yMm));
        }
        return far;
    }

    /**
     * How far up the other face's cutters came along a row of cells, mm in this side's frame: -thickness where none
     * did.
     *
     * @param side number of the side, from 1
     * @param j row of cells on this side
     * @param i0 first column
     * @param count how many cells
     * @param into where they go, from 0
     */
    public void farCutRow(int side, int j, int i0, int count, float[] into) {
        float underside = (float) side(side).undersideMm();
        Arrays.fill(into, 0, count, 0f);
        for (Layer layer : farLayers(side)) {
            layer.lowerRow(j, i0, count, into, 0, 0);
        }
        for (int k = 0; k < count; k++) {
            into[k] = underside - into[k];
        }
    }

    /** Whether a hole goes through the board at a point, exactly. */
    public boolean throughAt(int side, double xMm, double yMm) {
        return side(side).exactHeightMm(xMm, yMm) <= exactFarCutMm(side, xMm, yMm);
    }
}
