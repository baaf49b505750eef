package foilproof.app.viewer;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import org.junit.jupiter.api.Test;

/** Words over the picture: contrast on their plates whatever lies under them (WCAG 2.1, from memory), lines as written. */
class InkTest {
    private static double linear(int v) {
        double s = v / 255.0;
        return s <= 0.03928 ? s / 12.92 : Math.pow((s + 0.055) / 1.055, 2.4);
    }

    private static double contrast(Color a, Color b) {
        double x = 0.2126 * linear(a.getRed()) + 0.7152 * linear(a.getGreen()) + 0.0722 * linear(a.getBlue());
        double y = 0.2126 * linear(b.getRed()) + 0.7152 * linear(b.getGreen()) + 0.0722 * linear(b.getBlue());
        return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
    }

    private static Color over(Color plate, Color under) {
        double a = plate.getAlpha() / 255.0;
        return new Color(
                (int) (plate.getRed() * a + under.getRed() * (1 - a)),
                (int) (plate.getGreen() * a + under.getGreen() * (1 - a)),
                (int) (plate.getBlue() * a + under.getBlue() * (1 - a)));
    }

    @Test
    void shouldWriteOnPlatesWithEnoughContrastOverAnything() {
        for (boolean dark : new boolean[] {true, false}) {
            Ink ink = new Ink(dark, 1);
            for (Color under : new Color[] {Color.BLACK, Color.WHITE, new Color(0xC98255), new Color(0x808080)}) {
                Color plate = over(ink.plate, under);
                assertThat(contrast(ink.text, plate)).isGreaterThanOrEqualTo(4.5);
                assertThat(contrast(ink.faint, plate)).isGreaterThanOrEqualTo(4.5);
            }
        }
    }

    @Test
    void shouldKeepTheLinesOfWhatIsSaid() {
        Graphics2D g = new BufferedImage(10, 10, BufferedImage.TYPE_INT_RGB).createGraphics();
        g.setFont(new Ink(false, 1).plain());
        assertThat(Ink.broken(g, "Line 12: no F600\nThe dry run stops here.", 10_000))
                .containsExactly("Line 12: no F600", "The dry run stops here.");
        assertThat(Ink.broken(g, "one two", 1)).containsExactly("one", "two");
        g.dispose();
    }
}
