package foilproof.app.ui;

import com.formdev.flatlaf.util.UIScale;
import java.awt.Dimension;
import java.awt.GraphicsDevice;
import java.awt.GraphicsEnvironment;
import java.util.Locale;
import javax.swing.BorderFactory;
import javax.swing.border.Border;

/**
 * Sizes on screens on which a pixel is very small. Where the window system scales by itself nothing is done here; where
 * it does not, all sizes grow with the screen's height, or as the person chose.
 */
final class Px {
    private static final String PROPERTY = "flatlaf.uiScale";

    private Px() {}

    /** Chooses the scale: the person's own, or by the screen. To be called before the look is set up. */
    static void choose(double own) {
        if (System.getProperty(PROPERTY) == null || own > 0) {
            System.setProperty(PROPERTY, String.format(Locale.ROOT, "%.2f", own > 0 ? own : byScreen()));
        }
    }

    private static double byScreen() {
        GraphicsDevice device =
                GraphicsEnvironment.getLocalGraphicsEnvironment().getDefaultScreenDevice();
        if (device.getDefaultConfiguration().getDefaultTransform().getScaleX() > 1) {
            return 1;
        }
        int high = device.getDefaultConfiguration().getBounds().height;
        // 1080 lines are drawn as they are; twice as many lines on a desk of the same size need twice the pixels.
        return high < 1400 ? 1 : Math.min(3, Math.round(high / 1080.0 * 4) / 4.0);
    }

    /** The scale in force. */
    static double scale() {
        return UIScale.getUserScaleFactor();
    }

    /** Pixels for a length that is meant for an ordinary screen. */
    static int of(int px) {
        return UIScale.scale(px);
    }

    /** A font size. */
    static float font(double points) {
        return (float) (points * scale());
    }

    static Dimension size(int width, int height) {
        return new Dimension(width >= 10_000 ? width : of(width), height >= 10_000 ? height : of(height));
    }

    static Border pad(int top, int left, int bottom, int right) {
        return BorderFactory.createEmptyBorder(of(top), of(left), of(bottom), of(right));
    }
}
