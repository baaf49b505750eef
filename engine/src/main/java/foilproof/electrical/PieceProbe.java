package foilproof.electrical;

import foilproof.bench.Face;

/** Connected pieces of copper that can be asked point by point: as milled, or as drawn. */
@FunctionalInterface
public interface PieceProbe {
    /**
     * The piece at a point.
     *
     * @param face the copper layer
     * @param xMm design coordinates, mm
     * @param yMm design coordinates, mm
     * @return its number, from 0, each face with numbers of its own; -1 where there is no copper
     */
    int pieceAt(Face face, double xMm, double yMm);
}
