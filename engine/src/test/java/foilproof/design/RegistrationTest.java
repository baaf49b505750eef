package foilproof.design;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.source.InputException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Registration on boards whose true place is known by their making. */
class RegistrationTest {
    private static LayerImage art(double grow, boolean symmetric) throws InputException {
        double pad = 1.6 + 2 * grow;
        double track = 0.5 + 2 * grow;
        StringBuilder body = new StringBuilder("%ADD10C," + pad + "*%%ADD11C," + track + "*%G01*");
        double[][] pads = symmetric
                ? new double[][] {{10, 10}, {30, 10}, {10, 30}, {30, 30}}
                : new double[][] {{10, 10}, {12.54, 10}, {15.08, 10}, {30, 12}, {31, 25}, {14, 22}, {22, 28}};
        body.append("D10*");
        for (double[] p : pads) {
            body.append(LayerImageTest.at(p[0], p[1], "D03"));
        }
        double[][] tracks = symmetric
                ? new double[][] {{10, 10, 30, 10}, {10, 10, 10, 30}, {30, 30, 30, 10}, {30, 30, 10, 30}}
                : new double[][] {{10, 10, 14, 22}, {12.54, 10, 22, 28}, {15.08, 10, 30, 12}, {31, 25, 30, 12}};
        body.append("D11*");
        for (double[] t : tracks) {
            body.append(LayerImageTest.at(t[0], t[1], "D02")).append(LayerImageTest.at(t[2], t[3], "D01"));
        }
        return LayerImageTest.image(body.toString());
    }

    /** Isolated by a groove 0.2 wide all round, the rest of the foil left on. */
    private static CopperProbe milled(boolean symmetric, PlaneMap designFromBoard) throws InputException {
        LayerImage copper = art(0, symmetric);
        LayerImage grown = art(0.2, symmetric);
        return (x, y) -> {
            double u = designFromBoard.xMm(x, y);
            double v = designFromBoard.yMm(x, y);
            return copper.covers(u, v) || !grown.covers(u, v);
        };
    }

    @Test
    void shouldFindABoardWhereItIsDeclared() throws InputException {
        Registration r = Registration.compare(art(0, false), milled(false, PlaneMap.IDENTITY), 42, 40, 2);
        assertThat(r.verdict()).isEqualTo(Registration.Verdict.AS_DECLARED);
        assertThat(r.declared().shiftMm()).isLessThan(0.02);
        assertThat(r.scoreInPlace()).isGreaterThan(0.95);
        assertThat(r.lead()).isGreaterThan(0.3);
    }

    @Test
    void shouldMeasureTheShiftOfABoard() throws InputException {
        PlaneMap boardFromDesign = PlaneMap.shift(0.25, -0.2);
        Registration r = Registration.compare(art(0, false), milled(false, boardFromDesign.inverse()), 42, 40, 2);
        assertThat(r.verdict()).isEqualTo(Registration.Verdict.AS_DECLARED);
        assertThat(r.declared().dxMm()).isCloseTo(0.25, within(0.02));
        assertThat(r.declared().dyMm()).isCloseTo(-0.2, within(0.02));
    }

    @Test
    void shouldMeasureASmallShiftInPlace() throws InputException {
        LayerImage layer = art(0, false);
        Registration.Match none = Registration.shiftInPlace(layer, milled(false, PlaneMap.IDENTITY));
        assertThat(none.shiftMm()).isLessThan(0.02);
        PlaneMap moved = PlaneMap.shift(-0.06, 0.03);
        Registration.Match small = Registration.shiftInPlace(layer, milled(false, moved.inverse()));
        assertThat(small.dxMm()).isCloseTo(-0.06, within(0.025));
        assertThat(small.dyMm()).isCloseTo(0.03, within(0.025));
    }

    @Test
    void shouldTellMirroredAndTurnedBoards() throws InputException {
        Registration mirrored = Registration.compare(
                art(0, false), milled(false, PlaneMap.mirrorX(41.3).inverse()), 42, 40, 2);
        assertThat(mirrored.verdict()).isEqualTo(Registration.Verdict.OTHERWISE);
        assertThat(mirrored.best().way()).isEqualTo(Registration.Way.MIRRORED_X);
        PlaneMap turned = PlaneMap.quarterTurns(2).then(PlaneMap.shift(41, 38));
        Registration half = Registration.compare(art(0, false), milled(false, turned.inverse()), 42, 40, 2);
        assertThat(half.best().way()).isEqualTo(Registration.Way.TURNED_180);
        assertThat(half.verdict()).isEqualTo(Registration.Verdict.OTHERWISE);
    }

    @Test
    void shouldSayThatSymmetricArtCannotTell() throws InputException {
        Registration r = Registration.compare(art(0, true), milled(true, PlaneMap.IDENTITY), 42, 40, 2);
        assertThat(r.verdict()).isEqualTo(Registration.Verdict.CANNOT_TELL);
        assertThat(r.declared().score()).isGreaterThan(0.95);
    }

    @Test
    void shouldNotFitAnotherBoardOrABareBlank() throws InputException {
        assertThat(Registration.compare(art(0, false), milled(true, PlaneMap.IDENTITY), 42, 40, 2)
                        .verdict())
                .isNotEqualTo(Registration.Verdict.AS_DECLARED);
        assertThat(Registration.compare(art(0, false), (x, y) -> true, 42, 40, 1)
                        .verdict())
                .isEqualTo(Registration.Verdict.NO_MATCH);
    }

    private static List<double[]> pattern(Random random, int n) {
        List<double[]> out = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            out.add(new double[] {2.54 * random.nextInt(20) + 0.01 * i, 2.54 * random.nextInt(15)});
        }
        return out;
    }

    @Test
    void shouldFitShiftScaleAndTurnOfBores() {
        // least squares on a pattern moved by a known similarity
        List<double[]> places = pattern(new Random(3), 30);
        double turn = Math.toRadians(0.1);
        List<double[]> bores = new ArrayList<>();
        for (double[] p : places) {
            bores.add(new double[] {
                0.3 + 1.002 * (p[0] * Math.cos(turn) - p[1] * Math.sin(turn)),
                -0.4 + 1.002 * (p[0] * Math.sin(turn) + p[1] * Math.cos(turn))
            });
        }
        HoleFit fit = HoleFit.fit(bores, places, 0.5);
        assertThat(fit.matched()).hasSize(30);
        assertThat(fit.scale()).isCloseTo(1.002, within(1e-9));
        assertThat(fit.turnDeg()).isCloseTo(0.1, within(1e-9));
        assertThat(fit.scatterMm()).isLessThan(1e-9);
        assertThat(fit.unitsSlipped()).isFalse();
    }

    /** Places at least 2.54 mm apart. */
    private static List<double[]> apart(Random random, int n) {
        List<double[]> out = new ArrayList<>();
        while (out.size() < n) {
            double[] p = {2.54 * random.nextInt(20), 2.54 * random.nextInt(15)};
            if (out.stream().noneMatch(q -> q[0] == p[0] && q[1] == p[1])) {
                out.add(p);
            }
        }
        return out;
    }

    /** Least squares on a known similarity; the moved bores are known. */
    @Test
    void shouldFitThePairsThatAgreeWhereAFewBoresWereMoved() {
        for (long seed = 1; seed <= 20; seed++) {
            Random random = new Random(seed);
            List<double[]> places = apart(random, 6 + random.nextInt(30));
            int moved = random.nextInt(places.size() / 3 + 1);
            List<double[]> bores = new ArrayList<>();
            for (int i = 0; i < places.size(); i++) {
                double[] p = places.get(i);
                double off = i < moved ? 0.2 + 0.2 * random.nextDouble() : 0;
                bores.add(new double[] {
                    0.1 + 1.002 * p[0] + off + 0.001 * random.nextGaussian(),
                    1.002 * p[1] + 0.001 * random.nextGaussian()
                });
            }
            HoleFit fit = HoleFit.fit(bores, places, 0.5).agreeing(bores, places);
            assertThat(fit.boresWithout()).as("seed %d", seed).hasSizeBetween(moved, moved + 2);
            for (int i = 0; i < moved; i++) {
                assertThat(fit.boresWithout()).as("seed %d", seed).contains(bores.get(i));
            }
            assertThat(fit.scale()).as("seed %d", seed).isCloseTo(1.002, within(1e-3));
            assertThat(fit.scaleTold()).as("seed %d", seed).isTrue();
        }
    }

    /** A board at scale 1 without a turn: what the scatter of its bores makes of either is chance. */
    @Test
    void shouldNotTellAScaleThatTheScatterMakes() {
        int told = 0;
        for (long seed = 1; seed <= 300; seed++) {
            Random random = new Random(seed);
            List<double[]> places = apart(random, 3 + random.nextInt(20));
            List<double[]> bores = new ArrayList<>();
            for (double[] p : places) {
                bores.add(new double[] {p[0] + 0.05 * random.nextGaussian(), p[1] + 0.05 * random.nextGaussian()});
            }
            HoleFit fit = HoleFit.fit(bores, places, 0.5);
            told += fit.scaleTold() || fit.turnTold() ? 1 : 0;
        }
        // Gauss's law leaves 0.27 % beyond three scatters, for scale and for turn: 1.6 of 300; seven and more in 1 of
        // 1000
        assertThat(told).isLessThan(7);
    }

    @Test
    void shouldFindAShiftOfMoreThanThePitchAndNameMissingAndExtraBores() {
        List<double[]> places = List.of(
                new double[] {0, 0},
                new double[] {2.54, 0},
                new double[] {5.08, 0},
                new double[] {10, 7},
                new double[] {3, 12});
        List<double[]> bores = List.of(
                new double[] {4, 3},
                new double[] {6.54, 3},
                new double[] {9.08, 3},
                new double[] {14, 10},
                new double[] {30, 30});
        HoleFit fit = HoleFit.fit(bores, places, 0.5);
        assertThat(fit.dxMm()).isCloseTo(4, within(1e-9));
        assertThat(fit.dyMm()).isCloseTo(3, within(1e-9));
        assertThat(fit.boresWithout()).hasSize(1);
        assertThat(fit.placesWithout()).hasSize(1);
        assertThat(fit.boresWithout().get(0)[0]).isEqualTo(30);
    }

    @Test
    void shouldNoticeThatUnitsSlipped() {
        List<double[]> places = pattern(new Random(5), 12);
        List<double[]> bores = new ArrayList<>();
        for (double[] p : places) {
            bores.add(new double[] {p[0] / 25.4, p[1] / 25.4});
        }
        HoleFit fit = HoleFit.fit(bores, places, 0.5);
        assertThat(fit.unitsSlipped()).isTrue();
        assertThat(HoleFit.fit(List.of(), places, 0.5)).isNull();
    }
}
