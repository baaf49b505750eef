package foilproof.app.ui;

import foilproof.app.viewer.BoardSnapshot;
import foilproof.app.viewer.Camera;
import java.awt.image.BufferedImage;
import org.jspecify.annotations.Nullable;

/** Tints the picture by place: every pixel asks what lies where its line of sight meets the foil's underside. */
final class PlaneTint {
    /** Copper that only the what-if has: blue, hatched one way. */
    static final int MORE = 0xE60072B2;
    /** Copper that the what-if loses: orange, hatched the other way. */
    static final int LESS = 0xE6D55E00;
    /** Copper that is joined to the place that was asked. */
    static final int JOINED = 0x9056B4E9;
    /** Cuts of the far side. */
    static final int FAR = 0xA0CC79A7;

    /** The tint of a place, 0 for none. */
    interface At {
        int argb(double xMm, double yMm, int pixelX, int pixelY);
    }

    private PlaneTint() {}

    /** The tint of a whole picture; null where it was given up. */
    static @Nullable BufferedImage over(
            BoardSnapshot b,
            Camera camera,
            int width,
            int height,
            At tint,
            java.util.function.BooleanSupplier overtaken) {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_ARGB);
        int[] row = new int[width];
        double plane = camera.fromBelow() ? -b.thicknessMm() : -b.foilMm();
        for (int y = 0; y < height; y++) {
            if (overtaken.getAsBoolean()) {
                return null;
            }
            for (int x = 0; x < width; x++) {
                double[] ray = camera.ray(x + 0.5, y + 0.5, width, height);
                double t = Math.abs(ray[5]) < 1e-9 ? Double.NaN : (plane - ray[2]) / ray[5];
                double px = ray[0] + t * ray[3];
                double py = ray[1] + t * ray[4];
                row[x] = !Double.isNaN(t) && b.onBlank(px, py) ? tint.argb(px, py, x, y) : 0;
            }
            image.setRGB(0, y, width, 1, row, 0, width);
        }
        return image;
    }

    /** Whether copper lies at a place at the foil's underside. */
    static boolean copper(BoardSnapshot b, BoardSnapshot.Conditions c, double x, double y) {
        BoardSnapshot.Material m = b.spot(c, x, y).material();
        return m == BoardSnapshot.Material.FOIL || m == BoardSnapshot.Material.FOIL_LEFT;
    }

    /** Copper more and less than the base has. */
    static At difference(
            BoardSnapshot base, BoardSnapshot.Conditions before, BoardSnapshot b, BoardSnapshot.Conditions now) {
        return (x, y, px, py) -> {
            boolean was = copper(base, before, x, y);
            boolean is = copper(b, now, x, y);
            if (was == is) {
                return 0;
            }
            boolean stripe = ((is ? px + py : px - py) & 7) < 2;
            return stripe ? 0xFFFFFFFF : is ? MORE : LESS;
        };
    }

    /** Where the far side was cut into its foil or deeper. */
    static At farCuts(BoardSnapshot b) {
        return (x, y, px, py) -> b.undersideMm(x, y) > -b.thicknessMm() + b.foilMm() && ((px + py) & 3) != 0 ? FAR : 0;
    }
}
