package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Check-values Q25: strip w, disc D, square-cornered L 1.171573 w, T 1.25 w, cross 1.414214 w at the junction. */
class LocalThicknessTest {
    private static final double W = 0.2;

    /** Copper where a predicate holds, with vertical walls. */
    private record ShapeField(Shape shape) implements MarginField {
        interface Shape {
            boolean copper(double x, double y);
        }

        @Override
        public double cellMm() {
            return 0.01;
        }

        @Override
        public int columns() {
            return 200;
        }

        @Override
        public int rows() {
            return 200;
        }

        @Override
        public double widthMm() {
            return 2;
        }

        @Override
        public double heightMm() {
            return 2;
        }

        @Override
        public double foilMm() {
            return 0.0348;
        }

        @Override
        public double capMm() {
            return 0.3348;
        }

        @Override
        public void marginRow(int row, float[] into) {
            for (int i = 0; i < 200; i++) {
                into[i] = (float) exactMarginMm((i + 0.5) * 0.01, (row + 0.5) * 0.01);
            }
        }

        @Override
        public double exactMarginMm(double x, double y) {
            return shape.copper(x, y) ? 0.3348 : -0.1;
        }

        @Override
        public double steepestSlope() {
            return 4;
        }
    }

    private static double thickness(ShapeField.Shape shape, double x, double y) {
        return new LocalThickness(CopperMap.of(new ShapeField(shape), 0)).atMm(x, y, 0.8);
    }

    private static boolean bar(double across, double along, double from, double to) {
        return Math.abs(across) <= 0.5 * W && along >= from && along <= to;
    }

    @Test
    void shouldBeTheWidthOfAStripAnywhereInIt() {
        ShapeField.Shape strip = (x, y) -> bar(y - 1.003, x, 0.2, 1.8);
        assertThat(thickness(strip, 1, 1.003)).isCloseTo(W, within(0.002));
        assertThat(thickness(strip, 1, 1.08)).isCloseTo(W, within(0.002));
    }

    @Test
    void shouldBeTheDiameterOfADisc() {
        ShapeField.Shape disc = (x, y) -> (x - 1) * (x - 1) + (y - 1) * (y - 1) <= 0.25 * 0.25;
        assertThat(thickness(disc, 1.1, 1.1)).isCloseTo(0.5, within(0.003));
    }

    @Test
    void shouldBeWiderAtCornersAndJunctionsAsThePublishedDefinitionSays() {
        // The source allows one cell; marching squares cut inner corners off.
        // Inner corner of the L at (0.9, 0.9): arms of width W to the right and upwards from the square at (0.9, 0.9).
        ShapeField.Shape corner = (x, y) -> bar(y - 1, x, 0.9, 1.8) || bar(x - 1, y, 0.9, 1.8);
        assertThat(thickness(corner, 1, 1)).isCloseTo(1.171573 * W, within(0.01));
        ShapeField.Shape tee = (x, y) -> bar(y - 1, x, 0.2, 1.8) || bar(x - 1, y, 0.9, 1.8);
        assertThat(thickness(tee, 1, 1.02)).isCloseTo(1.25 * W, within(0.01));
        ShapeField.Shape cross = (x, y) -> bar(y - 1, x, 0.2, 1.8) || bar(x - 1, y, 0.2, 1.8);
        assertThat(thickness(cross, 1, 1)).isCloseTo(1.414214 * W, within(0.01));
    }

    @Test
    void shouldMeasureGapsToo() {
        GrooveField f = new GrooveField(3, 3, 0.01, 0.0348, 0.3);
        f.v30(-1, 1.2, 4, 1.9, 0.1);
        // check-values Q7: 0.13494
        assertThat(new LocalThickness(CopperMap.of(f, 0)).atMm(1.5, 1.55, 0.8)).isCloseTo(0.13494, within(0.002));
    }

    @Test
    void shouldNameTheNarrowestPlaceOfAPiece() {
        // Two pads joined by a neck of 0.3 between flat cuts
        GrooveField f = new GrooveField(6, 4, 0.01, 0.0348, 0.3);
        f.flat(3, -1, 3, 1.85 - 0.4, 0.1, 0.4).flat(3, 2.15 + 0.4, 3, 5, 0.1, 0.4);
        var narrow = StripFinder.narrowest(CopperMap.of(f, 0), 0.5);
        assertThat(narrow).hasSize(1);
        assertThat(narrow.get(0).widthMm()).isCloseTo(0.3, within(0.002));
        assertThat(narrow.get(0).xMm()).isCloseTo(3, within(0.05));
        assertThat(narrow.get(0).yMm()).isCloseTo(2, within(0.01));
    }
}
