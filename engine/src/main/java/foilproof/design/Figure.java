package foilproof.design;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * A plane figure bounded by lines and arcs, in its own frame, mm. Immutable; shared by every object that shows
 * it. Everything about it is exact to rounding: no arc is broken into chords.
 */
abstract class Figure {
    final Bounds box;
    private volatile double area = Double.NaN;
    private volatile @Nullable PieceSet ownPieces;

    Figure(Bounds box) {
        this.box = box;
    }

    /** True where the point lies in the figure. */
    abstract boolean contains(double x, double y);

    /** Adds the figure's intervals on the line at height {@code y}, shifted by {@code dx}, in no order. */
    abstract void spans(double y, double dx, Spans out);

    /** Adds every height, shifted by {@code dy}, at which the figure's outline begins, ends or bends. */
    abstract void criticalYs(double dy, Ys out);

    /** Area by a closed form, mm2, or NaN where there is none. */
    abstract double closedFormAreaMm2();

    /** The figure's image. */
    abstract Figure mapped(PlaneMap map);

    /** Area, mm2: by closed form, else by integrating over exact scan lines. */
    final double areaMm2() {
        double known = area;
        if (Double.isNaN(known)) {
            known = closedFormAreaMm2();
            if (Double.isNaN(known)) {
                known = ownPieces().areaMm2();
            }
            area = known;
        }
        return known;
    }

    /** The figure's own connected pieces, worked out once for all objects that show it. */
    final PieceSet ownPieces() {
        PieceSet known = ownPieces;
        if (known == null) {
            known = Double.isNaN(closedFormAreaMm2()) || !connected()
                    ? SlabSweep.of(this)
                    : new PieceSet.OnePiece(this);
            ownPieces = known;
        }
        return known;
    }

    /** True where the figure is one piece by its making. */
    abstract boolean connected();

    /** A growing list of heights. */
    static final class Ys {
        double[] at = new double[64];
        int count;

        void add(double y) {
            if (count == at.length) {
                at = Arrays.copyOf(at, count * 2);
            }
            at[count++] = y;
        }

        /** Sorts, and drops heights closer than {@code apart} to the one before. */
        void sortApart(double apart) {
            Arrays.sort(at, 0, count);
            int out = 0;
            for (int i = 0; i < count; i++) {
                if (out == 0 || at[i] - at[out - 1] > apart) {
                    at[out++] = at[i];
                }
            }
            count = out;
        }
    }
}
