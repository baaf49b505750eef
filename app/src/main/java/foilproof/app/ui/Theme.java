package foilproof.app.ui;

import com.formdev.flatlaf.FlatDarkLaf;
import com.formdev.flatlaf.FlatLaf;
import com.formdev.flatlaf.FlatLightLaf;
import com.formdev.flatlaf.fonts.inter.FlatInterFont;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Image;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;

/** How the window looks: fonts, the two themes, the icon. */
final class Theme {
    private Theme() {}

    /** Puts a theme in force; windows that are open follow with {@link FlatLaf#updateUI}. */
    static void setUp(boolean dark) {
        FlatInterFont.installLazy();
        FlatLaf.setPreferredFontFamily(FlatInterFont.FAMILY);
        register();
        if (dark) {
            FlatDarkLaf.setup();
        } else {
            FlatLightLaf.setup();
        }
    }

    /** Makes the themes' own colours known to the look and feel. */
    static void register() {
        FlatLaf.registerCustomDefaultsSource("foilproof.app.ui.theme");
    }

    /** The window's icon in usual sizes: a piece of foil, a groove through it, a land with its hole. */
    static List<Image> icons() {
        List<Image> all = new ArrayList<>();
        for (int size : new int[] {16, 24, 32, 48, 64, 128}) {
            BufferedImage im = new BufferedImage(size, size, BufferedImage.TYPE_INT_ARGB);
            Graphics2D g = im.createGraphics();
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.scale(size / 64.0, size / 64.0);
            g.setColor(new Color(0xC98255));
            g.fill(new RoundRectangle2D.Double(2, 2, 60, 60, 12, 12));
            g.setColor(new Color(0x3A2015));
            g.setStroke(new java.awt.BasicStroke(7, java.awt.BasicStroke.CAP_ROUND, java.awt.BasicStroke.JOIN_ROUND));
            g.draw(new Ellipse2D.Double(10, 18, 28, 28));
            g.draw(new Line2D.Double(37, 38, 62, 50));
            g.draw(new Line2D.Double(37, 26, 62, 14));
            g.fill(new Ellipse2D.Double(19, 27, 10, 10));
            g.dispose();
            all.add(im);
        }
        return all;
    }

    /** Words on the ground of the theme that say less loudly; contrast still at least 4.5:1. */
    static Color faint(boolean dark) {
        return dark ? new Color(0xB4BDC7) : new Color(0x47505A);
    }
}
