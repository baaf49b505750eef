package foilproof.app.viewer;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.Graphics2D;
import java.awt.Paint;
import java.awt.RenderingHints;
import java.awt.TexturePaint;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Fonts, colours and patterns that all vector drawing over pictures shares. */
public final class Ink {
    private static final String INTER = "/com/formdev/flatlaf/fonts/inter/Inter-";

    /** Every colour of one theme. */
    final Color text;

    final Color faint;
    final Color plate;
    final Color line;
    final Color accent;
    final Color page;
    private final Font plain;
    private final Font bold;
    private final double scale;

    /**
     * Ink for one picture.
     *
     * @param dark dark or light theme
     * @param scale 1 for a picture of about 800 pixels height
     */
    public Ink(boolean dark, double scale) {
        this.scale = scale;
        text = dark ? new Color(0xEEF1F4) : new Color(0x14181D);
        faint = dark ? new Color(0xB4BDC7) : new Color(0x47505A);
        plate = dark ? new Color(18, 21, 26, 208) : new Color(250, 251, 252, 216);
        line = dark ? new Color(0x5A6673) : new Color(0xA3ADB8);
        accent = dark ? new Color(0x58C4FF) : new Color(0x005F9E);
        page = dark ? new Color(0x15181D) : new Color(0xF4F6F8);
        plain = Fonts.PLAIN.deriveFont((float) (13 * scale));
        bold = Fonts.BOLD.deriveFont((float) (13 * scale));
    }

    /** Loaded once, at the first word that is drawn. */
    private static final class Fonts {
        static final Font PLAIN = load("Regular", Font.PLAIN);
        static final Font BOLD = load("SemiBold", Font.BOLD);

        private static Font load(String cut, int style) {
            try (InputStream in = Ink.class.getResourceAsStream(INTER + cut + ".otf")) {
                if (in != null) {
                    return Font.createFont(Font.TRUETYPE_FONT, in);
                }
            } catch (IOException | FontFormatException e) {
                // The platform's own font will do.
            }
            return new Font(Font.SANS_SERIF, style, 13);
        }
    }

    /** The ink's size: pixels of the picture for a pixel of the plain design. */
    double px(double designPixels) {
        return designPixels * scale;
    }

    Font plain() {
        return plain;
    }

    Font bold() {
        return bold;
    }

    Font small() {
        return plain.deriveFont((float) (11.5 * scale));
    }

    static void smooth(Graphics2D g) {
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        g.setRenderingHint(RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
    }

    void plate(Graphics2D g, double x, double y, double w, double h) {
        g.setColor(plate);
        g.fill(new RoundRectangle2D.Double(x, y, w, h, px(8), px(8)));
    }

    /** A word on a plate of its own, its left edge and middle at this point; gives back its right edge. */
    double tag(Graphics2D g, String words, double x, double y) {
        Rectangle2D box = tagBox(g, words, x, y);
        plate(g, box.getX(), box.getY(), box.getWidth(), box.getHeight());
        g.setColor(text);
        g.drawString(words, (float) (x + px(5)), (float) (y + px(4)));
        return box.getMaxX();
    }

    /** The plate that {@link #tag} draws. */
    Rectangle2D tagBox(Graphics2D g, String words, double x, double y) {
        g.setFont(small());
        double w = g.getFontMetrics().getStringBounds(words, g).getWidth();
        return new Rectangle2D.Double(x, y - px(9), w + px(10), px(18));
    }

    /** Words broken into lines no wider than this in the font that is set, pixels. */
    static List<String> broken(Graphics2D g, String words, double most) {
        List<String> lines = new ArrayList<>();
        for (String part : words.split("\n", -1)) {
            breakInto(lines, g, part, most);
        }
        return lines;
    }

    private static void breakInto(List<String> lines, Graphics2D g, String words, double most) {
        StringBuilder line = new StringBuilder();
        for (String word : words.split(" ", -1)) {
            String longer = line.length() == 0 ? word : line + " " + word;
            if (line.length() > 0
                    && g.getFontMetrics().getStringBounds(longer, g).getWidth() > most) {
                lines.add(line.toString());
                line.setLength(0);
                line.append(word);
            } else {
                line.setLength(0);
                line.append(longer);
            }
        }
        lines.add(line.toString());
    }

    /** How many pixels a pixel of a pattern takes, so that patterns stay patterns in large pictures. */
    int grain() {
        return (int) Math.max(1, Math.round(scale));
    }

    BasicStroke stroke(double width) {
        return new BasicStroke((float) px(width), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
    }

    BasicStroke dashes(double width) {
        return new BasicStroke(
                (float) px(width),
                BasicStroke.CAP_BUTT,
                BasicStroke.JOIN_ROUND,
                10,
                new float[] {(float) px(5), (float) px(4)},
                0);
    }

    /** The pattern and colour by which a material is told in legends and sections. */
    Paint pattern(BoardSnapshot.Material material, BoardSnapshot.Substrate substrate) {
        int s = 8;
        BufferedImage im = new BufferedImage(s, s, BufferedImage.TYPE_INT_RGB);
        Color c = colour(material, substrate);
        for (int y = 0; y < s; y++) {
            for (int x = 0; x < s; x++) {
                im.setRGB(x, y, shade(c, tone(material, substrate, x, y)).getRGB());
            }
        }
        return new TexturePaint(im, new Rectangle2D.Double(0, 0, s * grain(), s * grain()));
    }

    private static double tone(BoardSnapshot.Material m, BoardSnapshot.Substrate s, int x, int y) {
        return switch (m) {
            case FOIL, FAR_FOIL -> y % 4 == 1 ? 0.86 : y % 4 == 3 ? 1.08 : 1;
            case FOIL_LEFT -> (x + y) % 8 < 4 ? 1 : 2.6;
            case SUBSTRATE ->
                s == BoardSnapshot.Substrate.FR_4 || s == BoardSnapshot.Substrate.CEM_3
                        ? (x / 4 + y / 4) % 2 == 0 ? (y % 4 == 0 ? 0.8 : 1.08) : (x % 4 == 0 ? 0.8 : 0.96)
                        : (x * 5 + y * 3) % 8 == 0 || (x * 3 + y * 7) % 8 == 5 ? 1.35 : 1;
            case TAPE -> (x - y + 8) % 4 == 0 ? 1.3 : 1;
            case SPOIL_BOARD -> (x * 3 + y * 5) % 8 == 0 ? 0.72 : (x + y * 3) % 8 == 4 ? 1.12 : 1;
        };
    }

    private static Color shade(Color c, double f) {
        return new Color((int) Math.min(255, c.getRed() * f), (int) Math.min(255, c.getGreen() * f), (int)
                Math.min(255, c.getBlue() * f));
    }

    /** The plain colour of a material. */
    static Color colour(BoardSnapshot.Material material, BoardSnapshot.Substrate substrate) {
        return switch (material) {
            case FOIL -> new Color(0xD08A5C);
            case FAR_FOIL -> new Color(0xB97448);
            case FOIL_LEFT -> new Color(0xC2187E);
            case SUBSTRATE ->
                switch (substrate) {
                    case FR_1 -> new Color(0x6E3F22);
                    case FR_4 -> new Color(0xA3B04F);
                    case CEM_1 -> new Color(0xB59F6C);
                    case CEM_3 -> new Color(0xC2C198);
                };
            case TAPE -> new Color(0x7F98B8);
            case SPOIL_BOARD -> new Color(0xA9977A);
        };
    }

    /** A length in mm and thou. */
    static String length(double mm) {
        double thou = mm / 0.0254;
        return String.format(Locale.ROOT, mm < 1 ? "%.3f mm (%.1f thou)" : "%.2f mm (%.0f thou)", mm, thou);
    }

    /** The largest round length (1, 2, 5 times a power of ten) not above this, mm. */
    static double round(double mm) {
        double p = Math.pow(10, Math.floor(Math.log10(mm)));
        double f = mm / p;
        return (f >= 5 ? 5 : f >= 2 ? 2 : 1) * p;
    }

    /** A round number of mm without needless zeros, or um below 0.1 mm. */
    static String plainMm(double mm) {
        if (mm > 0 && mm < 0.0999) {
            return trimmed(String.format(Locale.ROOT, "%.1f", mm * 1000)) + " um";
        }
        return trimmed(String.format(Locale.ROOT, "%.3f", mm)) + " mm";
    }

    private static String trimmed(String s) {
        return s.contains(".") ? s.replaceAll("0+$", "").replaceAll("\\.$", "") : s;
    }
}
