package foilproof.app.ui;

import static org.assertj.core.api.Assertions.assertThat;

import com.formdev.flatlaf.FlatDarkLaf;
import com.formdev.flatlaf.FlatLaf;
import com.formdev.flatlaf.FlatLightLaf;
import foilproof.app.viewer.OverlayPainter;
import java.awt.Color;
import javax.swing.UIDefaults;
import org.junit.jupiter.api.Test;

/** Colours by calculation: contrast as in WCAG 2.1, relative luminance and contrast ratio (from memory). */
class ColoursTest {
    private static double linear(int v) {
        double s = v / 255.0;
        return s <= 0.03928 ? s / 12.92 : Math.pow((s + 0.055) / 1.055, 2.4);
    }

    private static double luminance(Color c) {
        return 0.2126 * linear(c.getRed()) + 0.7152 * linear(c.getGreen()) + 0.0722 * linear(c.getBlue());
    }

    static double contrast(Color a, Color b) {
        double x = luminance(a);
        double y = luminance(b);
        return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
    }

    /**
     * What a person without one kind of cone sees, in linear light; matrices of Vienot, Brettel and Mollon 1999
     * (from memory): protan and deutan.
     */
    private static double[] seen(Color c, boolean protan) {
        double r = linear(c.getRed());
        double g = linear(c.getGreen());
        double b = linear(c.getBlue());
        double yellow = protan ? 0.11238 * r + 0.88762 * g : 0.29275 * r + 0.70725 * g;
        double blue = protan ? 0.00401 * r - 0.00401 * g + b : -0.02234 * r + 0.02234 * g + b;
        return new double[] {Math.cbrt(yellow), Math.cbrt(Math.max(0, blue))};
    }

    private static double apart(Color a, Color b, boolean protan) {
        double[] x = seen(a, protan);
        double[] y = seen(b, protan);
        return Math.hypot(x[0] - y[0], x[1] - y[1]);
    }

    @Test
    void shouldWriteWhiteOnSeveritiesWithEnoughContrast() {
        for (int s = 0; s < 4; s++) {
            assertThat(contrast(Color.WHITE, OverlayPainter.severityColour(s))).isGreaterThanOrEqualTo(4.5);
        }
    }

    @Test
    void shouldWriteWordsOfBothThemesWithEnoughContrast() {
        Theme.register();
        for (FlatLaf laf : new FlatLaf[] {new FlatDarkLaf(), new FlatLightLaf()}) {
            UIDefaults d = laf.getDefaults();
            for (String ground : new String[] {"Panel.background", "List.background", "TextArea.background"}) {
                assertThat(contrast(d.getColor("Label.foreground"), d.getColor(ground)))
                        .as(laf.getName() + " " + ground)
                        .isGreaterThanOrEqualTo(4.5);
            }
        }
    }

    @Test
    void shouldTellMoreCopperFromLessWithoutRedOrGreenCones() {
        Color more = new Color(PlaneTint.MORE & 0xFFFFFF);
        Color less = new Color(PlaneTint.LESS & 0xFFFFFF);
        assertThat(apart(more, less, true)).isGreaterThan(0.15);
        assertThat(apart(more, less, false)).isGreaterThan(0.15);
    }

    @Test
    void shouldTellTheFirstToolRunsApartWithoutRedOrGreenCones() {
        for (int i = 0; i < 4; i++) {
            for (int j = i + 1; j < 4; j++) {
                Color a = OverlayPainter.toolColour(i);
                Color b = OverlayPainter.toolColour(j);
                assertThat(apart(a, b, true)).as(i + " and " + j).isGreaterThan(0.07);
                assertThat(apart(a, b, false)).as(i + " and " + j).isGreaterThan(0.07);
            }
        }
    }

    @Test
    void shouldDrawTheScaleLighterFromEndToEnd() {
        double last = -1;
        for (int i = 0; i <= 20; i++) {
            double l = luminance(OverlayPainter.ramp(i / 20.0));
            assertThat(l).isGreaterThan(last);
            last = l;
        }
    }
}
