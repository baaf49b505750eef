package foilproof.stock;

import foilproof.bench.Turn;
import java.util.List;

/**
 * The blank with everything that was swept on all its sides: composed under any conditions without sweeping again.
 *
 * @param blank the blank
 * @param sides its sides in the order milled, numbered from 1
 */
public record BoardStock(BlankBody blank, List<SideStock> sides) {
    /** Copies the list. */
    public BoardStock {
        sides = List.copyOf(sides);
    }

    /** A blank milled on one side only. */
    public static BoardStock oneSide(BlankBody blank, BlankSurface surface, double tapeMm, List<RunCut> runs) {
        return new BoardStock(blank, List.of(new SideStock(1, Turn.NO, surface, tapeMm, runs)));
    }

    /** The finished board under conditions. */
    public ComposedBoard under(Conditions conditions) {
        return new ComposedBoard(this, conditions);
    }

    /** Whether X is mirrored on a side against the first one. */
    boolean mirroredX(int side) {
        boolean mirrored = false;
        for (int s = 1; s < side; s++) {
            mirrored ^= sides.get(s).turned() == Turn.ABOUT_Y;
        }
        return mirrored;
    }

    /** Whether Y is mirrored on a side against the first one. */
    boolean mirroredY(int side) {
        boolean mirrored = false;
        for (int s = 1; s < side; s++) {
            mirrored ^= sides.get(s).turned() == Turn.ABOUT_X;
        }
        return mirrored;
    }

    /** Whether two sides (numbered from 1) have the same face up. */
    public boolean sameFace(int side, int other) {
        return (mirroredX(side) ^ mirroredY(side)) == (mirroredX(other) ^ mirroredY(other));
    }

    /** X on side {@code to} of a point with {@code xMm} on side {@code from}. */
    public double xOnSideMm(int from, int to, double xMm) {
        return mirroredX(from) ^ mirroredX(to) ? blank.widthMm() - xMm : xMm;
    }

    /** Y on side {@code to} of a point with {@code yMm} on side {@code from}. */
    public double yOnSideMm(int from, int to, double yMm) {
        return mirroredY(from) ^ mirroredY(to) ? blank.heightMm() - yMm : yMm;
    }
}
