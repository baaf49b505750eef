package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Hairs, slivers and gaps against closed forms (check-values Q7, Q9, Q19) and needs.md F1 to F9. */
class StripFinderTest {
    private static final double W_BOTTOM = 0.1 + 2 * (0.1 - 0.0348) / GrooveField.RISE_30;
    private static final double W_TOP = 0.1 + 2 * 0.1 / GrooveField.RISE_30;

    private static GrooveField field(double cell) {
        return new GrooveField(9, 7, cell, 0.0348, 0.3);
    }

    /** Two grooves side by side whose strip has the wanted base; the lines' ends are given back in {@code lines}. */
    private static GrooveField pair(double base, double degrees, double cell, double shift, CutLines.Builder lines) {
        GrooveField f = field(cell);
        double c = StrictMath.cos(StrictMath.toRadians(degrees));
        double s = StrictMath.sin(StrictMath.toRadians(degrees));
        double pitch = base + W_BOTTOM;
        for (int side = -1; side <= 1; side += 2) {
            double ox = 4.5 + shift - side * 0.5 * pitch * s;
            double oy = 3.5 + 0.7 * shift + side * 0.5 * pitch * c;
            f.v30(ox - 2 * c, oy - 2 * s, ox + 2 * c, oy + 2 * s, 0.1);
            lines.begin(ox - 2 * c, oy - 2 * s, 0, 20 + side).add(ox + 2 * c, oy + 2 * s, 0, 20 + side, true);
        }
        return f;
    }

    @Test
    void shouldMeasureAStripBetweenTwoVGroovesWithinTwoMicrometresAtAnyAngle() {
        for (double base : new double[] {0.02, 0.04, 0.1, 0.2}) {
            for (double degrees : new double[] {0, 11, 37, 45, 74, 90}) {
                for (double shift : new double[] {0, 0.005}) {
                    CutLines.Builder lines = CutLines.builder();
                    CopperMap map = CopperMap.of(pair(base, degrees, 0.01, shift, lines), 0);
                    List<Strip> strips = StripFinder.strips(map, 0.25, List.of(lines.build()), null);
                    assertThat(strips).as("%f at %f", base, degrees).hasSize(1);
                    Strip strip = strips.get(0);
                    assertThat(strip.baseMm()).as("%f at %f", base, degrees).isCloseTo(base, within(0.002));
                    double top = Math.max(0, base + W_BOTTOM - W_TOP);
                    assertThat(strip.topMm())
                            .as("top of %f at %f", base, degrees)
                            .isCloseTo(top, within(0.002));
                    assertThat(strip.lengthMm()).isCloseTo(4, within(0.25));
                    assertThat(strip.leftover()).isTrue();
                    assertThat(strip.freeEnds()).isZero();
                    assertThat(strip.grade())
                            .isEqualTo(
                                    base < 0.05
                                            ? Strip.Grade.HAIR
                                            : base < 0.15 ? Strip.Grade.SLIVER : Strip.Grade.THIN);
                    assertThat(strip.line()).isEqualTo(21);
                }
            }
        }
    }

    @Test
    void shouldSayNothingOfAStripAtTheLimitAndOfAShortOne() {
        CutLines.Builder lines = CutLines.builder();
        assertThat(StripFinder.strips(CopperMap.of(pair(0.2505, 37, 0.01, 0, lines), 0), 0.25, null, null))
                .isEmpty();
        assertThat(StripFinder.strips(CopperMap.of(pair(0.2495, 37, 0.01, 0, lines), 0), 0.25, null, null))
                .hasSize(1);
        GrooveField f = field(0.01);
        f.v30(4, 3, 4.3, 3, 0.1).v30(4, 3.2, 4.3, 3.2, 0.1);
        assertThat(StripFinder.strips(CopperMap.of(f, 0), 0.25, null, null)).isEmpty();
    }

    @Test
    void shouldKeepATraceThatOneClosedGrooveSurroundsApartFromLeftover() {
        GrooveField f = field(0.01);
        double half = 0.5 * (0.2 + W_BOTTOM);
        double[] xy = {2, 3 - half, 6, 3 - half, 6, 3 + half, 2, 3 + half, 2, 3 - half};
        f.loop(0.1, 0.05, GrooveField.RISE_30, xy);
        CutLines.Builder lines = CutLines.builder().begin(xy[0], xy[1], 0, 5);
        for (int i = 2; i < xy.length; i += 2) {
            lines.add(xy[i], xy[i + 1], 0, 5 + i / 2, true);
        }
        List<Strip> strips = StripFinder.strips(CopperMap.of(f, 0), 0.25, List.of(lines.build()), null);
        assertThat(strips).hasSize(1);
        assertThat(strips.get(0).leftover()).isFalse();
        assertThat(strips.get(0).baseMm()).isCloseTo(0.2, within(0.002));
        assertThat(strips.get(0).freeEnds()).isEqualTo(2);
        assertThat(StripFinder.strips(CopperMap.of(f, 0), 0.25, List.of(lines.build()), (x, y) -> false))
                .allMatch(Strip::leftover);
    }

    @Test
    void shouldCountTheFreeEndOfAHairAndItsReach() {
        // Two grooves 0.04 of base apart, closed at one end by a groove across, open to the land at the other.
        GrooveField f = field(0.01);
        double half = 0.5 * (0.04 + W_BOTTOM);
        f.v30(2, 3 - half, 6, 3 - half, 0.1).v30(2, 3 + half, 6, 3 + half, 0.1).v30(6, 1, 6, 5, 0.1);
        f.v30(6, 1, 8, 1, 0.1).v30(6, 5, 8, 5, 0.1).v30(8, 1, 8, 5, 0.1);
        List<Strip> strips = StripFinder.strips(CopperMap.of(f, 0), 0.25, null, null);
        assertThat(strips).hasSize(1);
        Strip hair = strips.get(0);
        assertThat(hair.freeEnds()).isEqualTo(1);
        assertThat(hair.gapMm()).isCloseTo(W_BOTTOM, within(0.04));
        assertThat(hair.reachesOther()).isTrue();
        assertThat(hair.knifeMm()).isLessThan(0.5);
    }

    @Test
    void shouldSeeAKnifeEdgeWhereNoTopIsLeft() {
        CutLines.Builder lines = CutLines.builder();
        // needs.md F2: base 0.0175, top 0: the walls meet 0.0326 above the glue plane, below the foil's top
        Strip strip = StripFinder.strips(CopperMap.of(pair(0.0175, 20, 0.01, 0, lines), 0), 0.25, null, null)
                .get(0);
        assertThat(strip.topMm()).isZero();
        assertThat(strip.knifeMm()).isGreaterThan(3);
    }

    @Test
    void shouldMeasureAStripBetweenFlatCutsWithinHalfACell() {
        for (double degrees : new double[] {0, 23, 45}) {
            GrooveField f = field(0.01);
            double c = StrictMath.cos(StrictMath.toRadians(degrees));
            double s = StrictMath.sin(StrictMath.toRadians(degrees));
            for (int side = -1; side <= 1; side += 2) {
                double o = side * 0.5 * (0.123 + 0.8);
                f.flat(4.5 - o * s - 2 * c, 3.5 + o * c - 2 * s, 4.5 - o * s + 2 * c, 3.5 + o * c + 2 * s, 0.1, 0.4);
            }
            List<Strip> strips = StripFinder.strips(CopperMap.of(f, 0), 0.25, null, null);
            assertThat(strips).hasSize(1);
            assertThat(strips.get(0).baseMm()).isCloseTo(0.123, within(0.001));
            assertThat(strips.get(0).topMm()).isCloseTo(0.123, within(0.001));
            assertThat(strips.get(0).lengthMm()).isCloseTo(4, within(0.35));
        }
    }

    @Test
    void shouldTellTheGapOfAClosedGrooveAtBottomAndTop() {
        GrooveField f = field(0.01);
        f.loop(0.1, 0.05, GrooveField.RISE_30, 2, 2, 6, 2.3, 5.5, 5, 2.2, 4.6, 2, 2);
        List<NarrowGap> gaps = StripFinder.gaps(CopperMap.of(f, 0), 0.15);
        assertThat(gaps).hasSize(1);
        // check-values Q7: bottom 0.13494, top 0.15359
        assertThat(gaps.get(0).bottomMm()).isCloseTo(0.13494, within(0.002));
        assertThat(gaps.get(0).topMm()).isCloseTo(0.15359, within(0.002));
        assertThat(StripFinder.gaps(CopperMap.of(f, 0), 0.13)).isEmpty();
    }

    @Test
    void shouldSayNothingOfCornersOfPadsAndOfCrossingGrooves() {
        GrooveField f = field(0.01);
        f.loop(0.1, 0.05, GrooveField.RISE_30, 2, 2, 4, 2, 4, 4, 2, 4, 2, 2);
        f.v30(1, 1, 8, 6, 0.1).v30(1, 6, 8, 1.3, 0.1);
        assertThat(StripFinder.strips(CopperMap.of(f, 0), 0.25, null, null)).isEmpty();
    }

    @Test
    void shouldLeaveTheRingRoundABoreToTheRingChecks() {
        // A land of 1.4 by one closed round groove, bored 1.0: ring 0.2
        GrooveField f = field(0.01);
        double[] xy = new double[2 * 97];
        double r = 0.7 + 0.5 * W_BOTTOM;
        for (int k = 0; k <= 96; k++) {
            xy[2 * k] = 4 + r * StrictMath.cos(2 * Math.PI * k / 96);
            xy[2 * k + 1] = 3 + r * StrictMath.sin(2 * Math.PI * k / 96);
        }
        f.loop(0.1, 0.05, GrooveField.RISE_30, xy);
        f.flat(4, 3, 4, 3, 1.6, 0.5);
        assertThat(StripFinder.strips(CopperMap.of(f, 0), 0.25, null, null)).isEmpty();
    }
}
