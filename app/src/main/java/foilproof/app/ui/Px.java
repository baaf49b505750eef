package foilproof.app.ui;

import com.formdev.flatlaf.util.UIScale;
import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.GraphicsDevice;
import java.awt.GraphicsEnvironment;
import java.awt.Insets;
import java.util.Locale;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JList;
import javax.swing.border.Border;
import javax.swing.border.EmptyBorder;
import javax.swing.plaf.UIResource;

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

    /** Sizes and fonts that were set for one scale grow to another, in a component and all that it holds. */
    static void rescale(Component c, double ratio) {
        if (c instanceof JComponent j) {
            if (j.isPreferredSizeSet()) {
                j.setPreferredSize(grown(j.getPreferredSize(), ratio));
            }
            if (j.isMinimumSizeSet()) {
                j.setMinimumSize(grown(j.getMinimumSize(), ratio));
            }
            if (j.isMaximumSizeSet()) {
                j.setMaximumSize(grown(j.getMaximumSize(), ratio));
            }
            if (j.getBorder() instanceof EmptyBorder b && b.getClass() == EmptyBorder.class) {
                Insets in = b.getBorderInsets();
                j.setBorder(BorderFactory.createEmptyBorder(
                        round(in.top * ratio),
                        round(in.left * ratio),
                        round(in.bottom * ratio),
                        round(in.right * ratio)));
            }
            Font f = j.getFont();
            if (j.isFontSet() && !(f instanceof UIResource)) {
                j.setFont(f.deriveFont((float) (f.getSize2D() * ratio)));
            }
            if (j instanceof JList<?> list && list.getFixedCellHeight() > 10) {
                list.setFixedCellHeight(round(list.getFixedCellHeight() * ratio));
            }
        }
        if (c instanceof Container holder) {
            for (Component inside : holder.getComponents()) {
                rescale(inside, ratio);
            }
        }
    }

    private static Dimension grown(Dimension d, double ratio) {
        return new Dimension(
                d.width >= 10_000 ? d.width : round(d.width * ratio),
                d.height >= 10_000 ? d.height : round(d.height * ratio));
    }

    private static int round(double v) {
        return (int) Math.round(v);
    }

    static Border pad(int top, int left, int bottom, int right) {
        return BorderFactory.createEmptyBorder(of(top), of(left), of(bottom), of(right));
    }
}
