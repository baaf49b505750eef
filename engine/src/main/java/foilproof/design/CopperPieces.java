package foilproof.design;

/**
 * Connected pieces of the copper that a layer image shows, with exact areas. Copper that meets in a point only,
 * or over less than 1 nm, is apart.
 */
public final class CopperPieces {
    private final LayerImage image;
    private final PieceSet[] groups;
    private final double[] shiftX;
    private final double[] shiftY;
    private final int[] groupOfObject;
    private final int[] firstPiece;
    private final double[] areas;

    CopperPieces(LayerImage image, PieceSet[] groups, double[] shiftX, double[] shiftY, int[] groupOfObject) {
        this.image = image;
        this.groups = groups;
        this.shiftX = shiftX;
        this.shiftY = shiftY;
        this.groupOfObject = groupOfObject;
        this.firstPiece = new int[groups.length + 1];
        for (int g = 0; g < groups.length; g++) {
            firstPiece[g + 1] = firstPiece[g] + groups[g].pieceCount();
        }
        areas = new double[firstPiece[groups.length]];
        for (int g = 0; g < groups.length; g++) {
            for (int k = 0; k < groups[g].pieceCount(); k++) {
                areas[firstPiece[g] + k] = groups[g].pieceAreaMm2(k);
            }
        }
    }

    /** Number of pieces. */
    public int size() {
        return areas.length;
    }

    /** Area of a piece, mm2. */
    public double areaMm2(int piece) {
        return areas[piece];
    }

    /** False where some part was too large for the exact sweep and was cut into even scan lines instead. */
    public boolean exact() {
        for (PieceSet group : groups) {
            if (!group.exact()) {
                return false;
            }
        }
        return true;
    }

    /** The piece at a point of the image's frame, or -1 where there is no copper. */
    public int pieceAt(double xMm, double yMm) {
        int object = image.topObjectAt(xMm, yMm);
        if (object < 0 || !image.isDark(object)) {
            return -1;
        }
        int group = groupOfObject[object];
        int piece = groups[group].pieceAt(xMm - shiftX[group], yMm - shiftY[group]);
        return piece < 0 ? -1 : firstPiece[group] + piece;
    }
}
