package foilproof.copper;

import foilproof.bench.ZZero;
import foilproof.stock.ComposedBoard;
import foilproof.stock.ComposedSide;
import foilproof.stock.HeightTiles;
import foilproof.stock.RunCut;
import foilproof.stock.SideStock;
import foilproof.stock.ToolProfile;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * e* of one tool run of a side, or of all its runs together, from a composed board. The Z errors that the board's
 * conditions already hold are its zero: compose without them to count from the set-up.
 */
public final class RunSideField implements ToolRunField {
    private record Part(ComposedSide only, double shiftMm) {}

    private final ComposedBoard board;
    private final ComposedSide side;
    private final @Nullable ComposedSide others;
    private final List<Part> parts;
    private final boolean far;
    private final boolean flat;
    private final double foilMm;
    private final double capMm;

    private RunSideField(
            ComposedBoard board, ComposedSide side, @Nullable ComposedSide others, List<Part> parts, boolean flat) {
        this.board = board;
        this.side = side;
        this.others = others;
        this.parts = parts;
        this.flat = flat;
        far = board.cutFromFarSide(side.number());
        foilMm = side.foilMm();
        double lowest = Double.POSITIVE_INFINITY;
        for (Part part : parts) {
            lowest = Math.min(lowest, part.only().capMm() + part.shiftMm());
        }
        capMm = Math.min(lowest, side.capMm()) - (flat ? 0 : side.highestMm()) + foilMm;
    }

    /**
     * One run, the others at their set-up.
     *
     * @param board the composed board
     * @param sideNumber side on which the run works, from 1
     * @param run index of the run in the job
     */
    public static RunSideField of(ComposedBoard board, int sideNumber, int run) {
        ComposedSide side = board.side(sideNumber);
        ComposedSide others = side.withRuns(r -> r != run);
        return new RunSideField(
                board,
                side,
                others.runs().length == 0 ? null : others,
                List.of(new Part(side.withRuns(r -> r == run), 0)),
                false);
    }

    /** All runs of a side at one and the same Z error. */
    public static RunSideField joint(ComposedBoard board, int sideNumber) {
        ComposedSide side = board.side(sideNumber);
        return new RunSideField(board, side, null, List.of(new Part(side, 0)), false);
    }

    @Override
    public ToolRunField flattened() {
        boolean already = side.isFlat();
        for (int run : parts.get(0).only().runs()) {
            already &= touchedFlat(run) == 0;
        }
        if (already) {
            return this;
        }
        List<Part> flatParts = new ArrayList<>();
        for (Part part : parts) {
            for (int run : part.only().runs()) {
                flatParts.add(new Part(part.only().withRuns(r -> r == run), touchedFlat(run)));
            }
        }
        return new RunSideField(board, side, others, List.copyOf(flatParts), true);
    }

    /** How far a run shifts when the foil it was touched off on lies at its nominal height. */
    private double touchedFlat(int run) {
        for (SideStock stock : board.stock().sides()) {
            for (RunCut cut : stock.runs()) {
                if (cut.run() == run) {
                    return cut.zero() == ZZero.FOIL ? -board.zeroMm(run) : 0;
                }
            }
        }
        return 0;
    }

    @Override
    public boolean hasOthers() {
        return others != null || far;
    }

    @Override
    public void othersRow(int row, float[] into) {
        if (others == null) {
            java.util.Arrays.fill(into, 0, columns(), (float) capMm);
        } else {
            SideField.row(others, row, into, foilMm, capMm);
        }
        if (far) {
            SideField.lowerByFarSide(board, side, row, into);
        }
    }

    @Override
    public double exactOthersMm(double xMm, double yMm) {
        double bottom = side.foilBottomMm(xMm, yMm);
        double margin = others == null ? capMm : Math.min(capMm, others.exactCutMm(xMm, yMm) - bottom);
        return far ? Math.min(margin, bottom - board.exactFarCutMm(side.number(), xMm, yMm)) : margin;
    }

    /**
     * Whether any place has its e* within the headroom: else no Z error in question changes which copper is cleared.
     */
    public boolean changesWithinHeadroom() {
        float low = (float) -headroomMm();
        float high = (float) (capMm - 1e-6);
        float[] row = new float[columns()];
        for (int j = 0; j < rows(); ) {
            TileSpans spans = TileSpans.of(this::untouched, columns(), j, j + 1, 0);
            int end = Math.min(rows(), (j / HeightTiles.TILE + 1) * HeightTiles.TILE);
            for (; j < end; j++) {
                if (spans.isEmpty()) {
                    j = end;
                    break;
                }
                marginRow(j, row);
                for (int k = 0; k < spans.size(); k++) {
                    if (anyBetween(row, spans.from(k), spans.to(k), low, high)) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private static boolean anyBetween(float[] row, int from, int to, float low, float high) {
        for (int i = from; i < to; i++) {
            if (row[i] > low && row[i] < high) {
                return true;
            }
        }
        return false;
    }

    @Override
    public boolean untouched(int tileX, int tileY) {
        for (Part part : parts) {
            if (!SideField.untouched(part.only(), tileX, tileY)) {
                return false;
            }
        }
        return true;
    }

    @Override
    public boolean untouchedByOthers(int tileX, int tileY) {
        return side.isFlat()
                && (others == null || !others.touches(tileX, tileY))
                && (!far || -side.undersideMm() > foilMm && !board.farTouches(side.number(), tileX, tileY));
    }

    @Override
    public double headroomMm() {
        return capMm - foilMm;
    }

    @Override
    public int threads() {
        return side.threads();
    }

    @Override
    public double cellMm() {
        return side.cellMm();
    }

    @Override
    public int columns() {
        return side.columns();
    }

    @Override
    public int rows() {
        return side.rows();
    }

    @Override
    public double widthMm() {
        return side.blank().widthMm();
    }

    @Override
    public double heightMm() {
        return side.blank().heightMm();
    }

    @Override
    public double foilMm() {
        return foilMm;
    }

    @Override
    public double capMm() {
        return capMm;
    }

    @Override
    public void marginRow(int row, float[] into) {
        if (!flat) {
            SideField.row(parts.get(0).only(), row, into, foilMm, capMm);
            return;
        }
        int n = columns();
        java.util.Arrays.fill(into, 0, n, (float) capMm);
        float[] one = new float[n];
        for (Part part : parts) {
            part.only().cutRow(row, 0, n, one);
            float shift = (float) (part.shiftMm() + foilMm);
            for (int i = 0; i < n; i++) {
                into[i] = Math.min(into[i], one[i] + shift);
            }
        }
    }

    @Override
    public double exactMarginMm(double xMm, double yMm) {
        double lowest = capMm;
        for (Part part : parts) {
            double bottom = flat ? -foilMm - part.shiftMm() : side.foilBottomMm(xMm, yMm);
            lowest = Math.min(lowest, part.only().exactCutMm(xMm, yMm) - bottom);
        }
        return lowest;
    }

    @Override
    public double steepestSlope() {
        return Math.max(SideField.LEAST_SLOPE, side.steepestConeSlope());
    }

    @Override
    public double flattestSlope() {
        double flattest = Double.POSITIVE_INFINITY;
        for (Part part : parts) {
            for (int run : part.only().runs()) {
                ToolProfile profile = part.only().envelope(run).profile();
                double cone = part.only().envelope(run).steepestConeSlope();
                // A ball's wall is flatter than 45 degrees only where it is shallower than 0.3 of its radius.
                flattest = Math.min(flattest, profile.isFlat() ? Double.POSITIVE_INFINITY : cone > 0 ? cone : 1);
            }
        }
        return flattest;
    }
}
