package foilproof.app.viewer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Words, contrast, comparisons and edges of pictures, by calculation and by reading pixels back. */
class PictureWordsTest {
    private static double linear(double v) {
        double s = v / 255.0;
        return s <= 0.03928 ? s / 12.92 : Math.pow((s + 0.055) / 1.055, 2.4);
    }

    /** Contrast ratio of WCAG 2.1 (from memory), the plate laid over a ground. */
    private static double contrast(Color words, Color plate, int ground) {
        double a = plate.getAlpha() / 255.0;
        double[] over = {
            plate.getRed() * a + ground * (1 - a),
            plate.getGreen() * a + ground * (1 - a),
            plate.getBlue() * a + ground * (1 - a)
        };
        double x = 0.2126 * linear(over[0]) + 0.7152 * linear(over[1]) + 0.0722 * linear(over[2]);
        double y =
                0.2126 * linear(words.getRed()) + 0.7152 * linear(words.getGreen()) + 0.0722 * linear(words.getBlue());
        return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
    }

    @Test
    void shouldWriteEveryWordWithEnoughContrastWhateverLiesBelow() {
        for (boolean dark : new boolean[] {false, true}) {
            Ink ink = new Ink(dark, 1);
            for (int ground : new int[] {0, 128, 255}) {
                for (Color words : List.of(ink.text, ink.faint, ink.accent)) {
                    assertThat(contrast(words, ink.plate, ground))
                            .as("%s theme, %s over %d", dark ? "dark" : "light", words, ground)
                            .isGreaterThanOrEqualTo(4.5);
                    assertThat(contrast(words, ink.page, 0)).isGreaterThanOrEqualTo(4.5);
                }
            }
        }
    }

    @Test
    void shouldWriteLettersThatCanBeReadAtTheSmallestAndTheLargestScreen() {
        int[][] screens = {{1280, 720}, {1280, 800}, {1920, 1080}, {3840, 2160}};
        for (int[] s : screens) {
            Ink ink = new Ink(false, OverlayPainter.scaleFor(s[0], s[1]));
            double letters = ink.small().getSize2D();
            assertThat(letters).as("%d x %d", s[0], s[1]).isGreaterThanOrEqualTo(10);
            assertThat(letters / s[1]).as("%d x %d", s[0], s[1]).isGreaterThanOrEqualTo(0.013);
        }
    }

    @Test
    void shouldBreakSentencesWithoutLosingAWordOrLeavingTheColumn() {
        Graphics2D g = new BufferedImage(8, 8, BufferedImage.TYPE_INT_RGB).createGraphics();
        g.setFont(new Ink(false, 1).small());
        String words =
                "The gap beside land Q1-2 is only 0.154 mm (6.1 thou) at the foil bottom: solder may bridge it, but the"
                        + " copper beyond belongs to no net.";
        List<String> lines = Ink.broken(g, words, 200);
        assertThat(String.join(" ", lines)).isEqualTo(words);
        assertThat(lines).allSatisfy(line -> assertThat(
                        g.getFontMetrics().getStringBounds(line, g).getWidth())
                .isLessThanOrEqualTo(200));
        g.dispose();
    }

    private static Frame filled(int foil) {
        int[] rgb = new int[64 * 16];
        Arrays.fill(rgb, foil << 24 | 0x406080);
        return new Frame(64, 16, rgb, 1, 0);
    }

    @Test
    void shouldTellExtraAndMissingFoilByStripesOfOppositeDirection() {
        OffscreenRenderer.Comparison.Kind kind = OffscreenRenderer.Comparison.Kind.DIFFERENCE;
        int[] extra = Comparing.frames(filled(128), filled(255), kind, 1).rgb();
        int[] missing = Comparing.frames(filled(255), filled(128), kind, 1).rgb();
        int[] same = Comparing.frames(filled(255), filled(255), kind, 1).rgb();
        assertThat(Arrays.stream(same).distinct().count()).isEqualTo(1);
        for (int y = 1; y < 15; y++) {
            for (int x = 1; x < 63; x++) {
                // Along one diagonal the colour stays, along the other it changes.
                assertThat(extra[y * 64 + x]).isEqualTo(extra[(y + 1) * 64 + x - 1]);
                assertThat(missing[y * 64 + x]).isEqualTo(missing[(y + 1) * 64 + x + 1]);
            }
        }
        assertThat(Arrays.stream(extra).distinct().count()).isEqualTo(2);
        assertThat(Arrays.stream(missing).distinct().count()).isEqualTo(2);
        // What is not the blank is neither.
        assertThat(Arrays.stream(Comparing.frames(filled(0), filled(0), kind, 1).rgb())
                        .distinct()
                        .count())
                .isEqualTo(1);
    }

    @Test
    void shouldSwipeFromTheOneToTheOther() {
        Frame a = filled(255);
        Frame b = filled(128);
        int[] rgb = Comparing.frames(a, b, OffscreenRenderer.Comparison.Kind.SWIPE, 1)
                .rgb();
        assertThat(rgb[0]).isEqualTo(a.rgb()[0]);
        assertThat(rgb[63]).isEqualTo(b.rgb()[63]);
    }

    /** A bore of 0.8 mm, its edge seen where a cell is nearly seven pixels wide: closed form, a circle. */
    @Test
    void shouldDrawTheEdgeOfABoreAsACircleAndNotAsAStaircaseOfCells() throws GraphicsException {
        try (OffscreenRenderer renderer = new OffscreenRenderer()) {
            assumeTrue(renderer.start().handle((words, error) -> error == null).join(), "needs OpenGL 3.3");
            BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_1);
            int w = 900;
            int h = 600;
            Camera camera = Camera.top(b, w, h).at(5, 6, 0).showing(0.9);
            Frame f = OffscreenRenderer.await(renderer.draw(new OffscreenRenderer.Request(
                    b, b.baseConditions(), camera, Look.still(false).fine(1, true), w, h)));
            double perMm = camera.pixelsPerMm(h);
            double[] radii = new double[360];
            for (int i = 0; i < radii.length; i++) {
                double a = Math.PI * i / 180;
                double r = 0.34 * perMm;
                while (f.rgb()[(int) (h / 2.0 - r * Math.sin(a)) * w + (int) (w / 2.0 + r * Math.cos(a))] >>> 24
                        < 200) {
                    r += 0.25;
                }
                radii[i] = r / perMm;
            }
            double mean = Arrays.stream(radii).average().orElse(0);
            double scatter = Math.sqrt(Arrays.stream(radii)
                    .map(r -> (r - mean) * (r - mean))
                    .average()
                    .orElse(0));
            // Half a cell of bias, a pixel and a fifth of a cell of scatter: stairs scatter by 0.29 cells and more.
            assertThat(mean).isBetween(0.395, 0.405);
            assertThat(scatter).isLessThan(0.2 * SyntheticBoard.CELL_MM);
        }
    }
}
