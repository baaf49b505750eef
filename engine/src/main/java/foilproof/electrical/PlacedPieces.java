package foilproof.electrical;

import foilproof.bench.Face;
import foilproof.design.Placement;
import foilproof.design.PlaneMap;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Milled pieces, known side by side in the blank's frame, asked in design coordinates. */
public final class PlacedPieces implements PieceProbe {
    /** Pieces of one side. */
    @FunctionalInterface
    public interface SidePieces {
        /** The piece at a point of the blank as it lies on that side, mm; -1 where there is no copper. */
        int pieceAt(double xMm, double yMm);
    }

    private final Map<Face, SidePieces> pieces = new EnumMap<>(Face.class);
    private final Map<Face, PlaneMap> blankFromDesign = new EnumMap<>(Face.class);

    /**
     * Joins placement and pieces.
     *
     * @param placement where the design lies
     * @param sides pieces of every side, in the order of the placement; a face that is milled on two sides is taken as
     *     the later one left it
     */
    public PlacedPieces(Placement placement, List<? extends SidePieces> sides) {
        for (int k = 0; k < sides.size(); k++) {
            Face face = placement.sides().get(k).face();
            pieces.put(face, sides.get(k));
            blankFromDesign.put(face, placement.blankFromDesign(k));
        }
    }

    @Override
    public int pieceAt(Face face, double xMm, double yMm) {
        SidePieces side = pieces.get(face);
        PlaneMap map = blankFromDesign.get(face);
        return side == null || map == null ? -1 : side.pieceAt(map.xMm(xMm, yMm), map.yMm(xMm, yMm));
    }
}
