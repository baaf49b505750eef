package foilproof.report;

import foilproof.stock.ComposedSide;

/**
 * A window on one side.
 *
 * @param side from 1
 * @param x0Mm left edge
 * @param y0Mm lower edge
 * @param widthMm width
 * @param heightMm height
 * @param pxMm edge of a pixel
 */
record BoardView(int side, double x0Mm, double y0Mm, double widthMm, double heightMm, double pxMm) {
    private static final int BESIDE_PX = 9;

    int widthPx() {
        return Math.max(1, (int) Math.rint(widthMm / pxMm));
    }

    int heightPx() {
        return Math.max(1, (int) Math.rint(heightMm / pxMm));
    }

    /** X of a pixel's middle, mm. */
    double xMm(double xPx) {
        return x0Mm + (xPx + 0.5) * pxMm;
    }

    /** Y of a pixel's middle, mm; row 0 is the upper edge. */
    double yMm(double yPx) {
        return y0Mm + heightMm - (yPx + 0.5) * pxMm;
    }

    /** A text beside a place, off it to the upper right so that the place stays in view. */
    FlatPicture.Label label(double xMm, double yMm, String text) {
        int xPx = (int) Math.rint((xMm - x0Mm) / pxMm);
        int yPx = (int) Math.rint((y0Mm + heightMm - yMm) / pxMm);
        int x = Math.max(0, Math.min(widthPx() - 14, xPx + BESIDE_PX));
        int y = Math.max(0, Math.min(heightPx() - 16, yPx - 2 * BESIDE_PX));
        return new FlatPicture.Label(x, y, text);
    }

    /** Whether any of the blank is seen. */
    boolean meets(ComposedSide side) {
        return x0Mm < side.columns() * side.cellMm()
                && y0Mm < side.rows() * side.cellMm()
                && x0Mm + widthMm > 0
                && y0Mm + heightMm > 0;
    }
}
