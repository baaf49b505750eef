package foilproof.stock;

import java.util.Arrays;

/**
 * An envelope as it takes part in a composition: shifted in Z, perhaps seen from a side that lies mirrored.
 *
 * @param run index of its run in the job
 * @param envelope the envelope
 * @param shiftMm added to its heights: z0 - e
 * @param mirrorXMm x becomes this less x in the envelope's frame; NaN where it does not
 * @param mirrorYMm y likewise
 */
record Layer(int run, Envelope envelope, double shiftMm, double mirrorXMm, double mirrorYMm) {
    boolean mirrored() {
        return !Double.isNaN(mirrorXMm) || !Double.isNaN(mirrorYMm);
    }

    /** Whether the cutter goes so deep that an upright wall of it stands below the headroom. */
    boolean hasUprightWall() {
        return envelope.path().lowestMm() + envelope.profile().wallFootMm() < envelope.capMm();
    }

    double x(double xMm) {
        return Double.isNaN(mirrorXMm) ? xMm : mirrorXMm - xMm;
    }

    double y(double yMm) {
        return Double.isNaN(mirrorYMm) ? yMm : mirrorYMm - yMm;
    }

    /** Height of the shifted envelope, exactly; infinite where nothing reaches. */
    double exactMm(double xMm, double yMm) {
        double height = envelope.exactHeightMm(x(xMm), y(yMm));
        return height >= envelope.capMm() ? Double.POSITIVE_INFINITY : height + shiftMm;
    }

    /** Whether the shifted envelope is at a level or below it at a point, exactly. */
    boolean reaches(double xMm, double yMm, double levelMm) {
        return envelope.reaches(x(xMm), y(yMm), shiftMm, levelMm);
    }

    /** Whether the layer may reach any cell of a tile of the grid; a tile that it does not reach it leaves as it is. */
    boolean touches(int tileX, int tileY) {
        HeightTiles tiles = envelope.tiles();
        if (!mirrored()) {
            return tiles.sharedTile(tileX, tileY) != null;
        }
        double size = HeightTiles.TILE * envelope.settings().cellMm();
        double xa = x(tileX * size) / size;
        double xb = x((tileX + 1) * size) / size;
        double ya = y(tileY * size) / size;
        double yb = y((tileY + 1) * size) / size;
        double edge = 2.0 / HeightTiles.TILE;
        return anyTile(
                (int) Math.floor(Math.min(xa, xb) - edge),
                (int) Math.floor(Math.max(xa, xb) + edge),
                (int) Math.floor(Math.min(ya, yb) - edge),
                (int) Math.floor(Math.max(ya, yb) + edge));
    }

    /**
     * Takes the layer into a row of cells: {@code into = min(into, height)} where it reaches.
     *
     * @param into cells go from {@code at} on
     * @param topMm no value of {@code into} is above this
     */
    void lowerRow(int j, int i0, int count, float[] into, int at, double topMm) {
        if (mirrored()) {
            lowerMirroredRow(j, i0, count, into, at);
            return;
        }
        HeightTiles tiles = envelope.tiles();
        int tileY = Math.floorDiv(j, HeightTiles.TILE);
        int rowStart = (j & (HeightTiles.TILE - 1)) * HeightTiles.TILE;
        float cap = tiles.untouchedMm();
        // Where even the cap lies above all there is, untouched cells need no care.
        boolean plain = cap + (float) shiftMm >= (float) topMm;
        int done = 0;
        while (done < count) {
            int i = i0 + done;
            int inTile = i & (HeightTiles.TILE - 1);
            int n = Math.min(HeightTiles.TILE - inTile, count - done);
            float[] tile = tiles.sharedTile(Math.floorDiv(i, HeightTiles.TILE), tileY);
            if (tile != null && plain) {
                lowerAll(tile, rowStart + inTile, into, at + done, n, (float) shiftMm);
            } else if (tile != null) {
                lower(tile, rowStart + inTile, into, at + done, n, cap, (float) shiftMm);
            }
            done += n;
        }
    }

    /**
     * The row of a layer alone, where it needs no change: neither shifted nor mirrored, and kept up to {@code topMm}, as
     * most are. Copying is several times quicker than comparing.
     *
     * @return whether it was so; {@code into} is untouched where not
     */
    boolean copyRow(int j, int i0, int count, float[] into, int at, float topMm) {
        HeightTiles tiles = envelope.tiles();
        if (mirrored() || shiftMm != 0 || tiles.untouchedMm() != topMm) {
            return false;
        }
        int tileY = Math.floorDiv(j, HeightTiles.TILE);
        int rowStart = (j & (HeightTiles.TILE - 1)) * HeightTiles.TILE;
        int done = 0;
        while (done < count) {
            int i = i0 + done;
            int inTile = i & (HeightTiles.TILE - 1);
            int n = Math.min(HeightTiles.TILE - inTile, count - done);
            float[] tile = tiles.sharedTile(Math.floorDiv(i, HeightTiles.TILE), tileY);
            if (tile == null) {
                Arrays.fill(into, at + done, at + done + n, topMm);
            } else {
                System.arraycopy(tile, rowStart + inTile, into, at + done, n);
            }
            done += n;
        }
        return true;
    }

    private static void lowerAll(float[] tile, int from, float[] into, int at, int n, float shift) {
        for (int k = 0; k < n; k++) {
            into[at + k] = Math.min(into[at + k], tile[from + k] + shift);
        }
    }

    /** A cell at the cap is untouched: it must stay so whatever the shift. */
    private static void lower(float[] tile, int from, float[] into, int at, int n, float cap, float shift) {
        for (int k = 0; k < n; k++) {
            float value = tile[from + k];
            if (value < cap) {
                into[at + k] = Math.min(into[at + k], value + shift);
            }
        }
    }

    private void lowerMirroredRow(int j, int i0, int count, float[] into, int at) {
        double h = envelope.settings().cellMm();
        double y = y((j + 0.5) * h);
        int tileRow = (int) Math.floor((y / h - 1) / HeightTiles.TILE);
        int tileRow2 = (int) Math.floor((y / h + 1) / HeightTiles.TILE);
        for (int done = 0; done < count; done += HeightTiles.TILE) {
            int n = Math.min(HeightTiles.TILE, count - done);
            double xa = x((i0 + done + 0.5) * h) / h;
            double xb = x((i0 + done + n - 0.5) * h) / h;
            int column = (int) Math.floor((Math.min(xa, xb) - 1) / HeightTiles.TILE);
            int column2 = (int) Math.floor((Math.max(xa, xb) + 1) / HeightTiles.TILE);
            if (anyTile(column, column2, tileRow, tileRow2)) {
                for (int k = done; k < done + n; k++) {
                    double value = sampledMm(x((i0 + k + 0.5) * h), y);
                    into[at + k] = Math.min(into[at + k], (float) (value + shiftMm));
                }
            }
        }
    }

    private boolean anyTile(int column, int column2, int row, int row2) {
        HeightTiles tiles = envelope.tiles();
        for (int ty = row; ty <= row2; ty++) {
            for (int tx = column; tx <= column2; tx++) {
                if (tiles.sharedTile(tx, ty) != null) {
                    return true;
                }
            }
        }
        return false;
    }

    /**
     * Height between cell centres, in the envelope's own frame: between four touched neighbours that no upright wall
     * parts by bilinear interpolation, else exactly; infinite where untouched.
     */
    private double sampledMm(double xMm, double yMm) {
        HeightTiles tiles = envelope.tiles();
        double h = tiles.cellMm();
        double gx = xMm / h - 0.5;
        double gy = yMm / h - 0.5;
        int i = (int) Math.floor(gx);
        int j = (int) Math.floor(gy);
        double a;
        double b;
        double c;
        double d;
        int last = HeightTiles.TILE - 1;
        if ((i & last) != last && (j & last) != last) {
            float[] tile = tiles.sharedTile(Math.floorDiv(i, HeightTiles.TILE), Math.floorDiv(j, HeightTiles.TILE));
            if (tile == null) {
                return Double.POSITIVE_INFINITY;
            }
            int at = (j & last) * HeightTiles.TILE + (i & last);
            a = tile[at];
            b = tile[at + 1];
            c = tile[at + HeightTiles.TILE];
            d = tile[at + HeightTiles.TILE + 1];
        } else {
            a = tiles.heightMm(i, j);
            b = tiles.heightMm(i + 1, j);
            c = tiles.heightMm(i, j + 1);
            d = tiles.heightMm(i + 1, j + 1);
        }
        double high = Math.max(Math.max(a, b), Math.max(c, d));
        double low = Math.min(Math.min(a, b), Math.min(c, d));
        if (low >= tiles.untouchedMm()) {
            return Double.POSITIVE_INFINITY;
        }
        if (high >= tiles.untouchedMm() || high - low > 1e-9 + 1.5 * h * envelope.steepestConeSlope()) {
            double exact = envelope.exactHeightMm(xMm, yMm);
            return exact >= envelope.capMm() ? Double.POSITIVE_INFINITY : exact;
        }
        double fx = gx - i;
        double fy = gy - j;
        return (a * (1 - fx) + b * fx) * (1 - fy) + (c * (1 - fx) + d * fx) * fy;
    }
}
