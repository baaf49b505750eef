package foilproof.electrical;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.design.Bounds;
import foilproof.design.CopperProbe;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.data.DMatrixSparseCSC;
import org.ejml.data.DMatrixSparseTriplet;
import org.ejml.ops.DConvertMatrixStruct;
import org.ejml.sparse.FillReducing;
import org.ejml.sparse.csc.factory.LinearSolverFactory_DSCC;
import org.junit.jupiter.api.Test;

/** The sheet solver against closed forms (check-values 4.2, rows R1-R9) and, once, against another library. */
class SheetResistanceTest {
    private static SheetResistance.Squares solve(
            CopperProbe copper, Bounds box, SheetResistance.Contact a, SheetResistance.Contact b, double cell) {
        SheetResistance.Squares s = SheetResistance.between(copper, box, 0, a, b, cell);
        return s;
    }

    private static void agrees(SheetResistance.Squares s, double expected, double relative) {
        assertThat(s.squares()).isCloseTo(expected, within(relative * expected));
        // the error given is honest: it covers the closed form
        assertThat(Math.abs(s.squares() - expected)).isLessThanOrEqualTo(s.plusMinus() + 1e-6 * expected);
    }

    @Test
    void shouldMeasureStraightTracksAtAnyAngle() {
        // row R1: length / width, closed form; contacts square to the track
        for (double deg : new double[] {0, 7, 30, 45, 71}) {
            double c = Math.cos(Math.toRadians(deg));
            double s = Math.sin(Math.toRadians(deg));
            CopperProbe track = (x, y) -> Math.abs(-x * s + y * c) <= 0.127 && Math.abs(x * c + y * s) <= 3;
            SheetResistance.Contact a = (x, y) -> x * c + y * s < -2;
            SheetResistance.Contact b = (x, y) -> x * c + y * s > 2;
            assertThat(solve(track, new Bounds(-3.2, -3.2, 3.2, 3.2), a, b, 0.02)
                            .squares())
                    .as("at %s degrees", deg)
                    .isCloseTo(4 / 0.254, within(4 / 0.254 * 0.002));
        }
    }

    @Test
    void shouldMeasureARightAngleBend() {
        // row R2: P. M. Hall, Thin Solid Films 1 (1967/68): corner = 1 - 2 ln 2 / pi = 0.5587288
        double n = 4;
        CopperProbe bend = (x, y) -> x >= 0 && y >= 0 && (y <= 1 && x <= 1 + n || x <= 1 && y <= 1 + n);
        SheetResistance.Contact a = (x, y) -> x >= n;
        SheetResistance.Contact b = (x, y) -> y >= n;
        SheetResistance.Squares s = solve(bend, new Bounds(0, 0, 1 + n, 1 + n), a, b, 0.02);
        assertThat(s.squares() - 2 * (n - 1)).isCloseTo(0.5587288, within(0.001));
    }

    @Test
    void shouldMeasureTheLOfThreeSquares() {
        // row R3: 2.55852 and, with two squares per arm, 4.55873 (finite differences, two independent programs)
        CopperProbe three = (x, y) -> x >= 0 && y >= 0 && (y <= 1 && x <= 3 || x <= 1 && y <= 3);
        SheetResistance.Squares one = solve(three, new Bounds(0, 0, 3, 3), (x, y) -> x >= 2, (x, y) -> y >= 2, 0.01);
        assertThat(one.squares()).isCloseTo(2.55852, within(0.001));
        CopperProbe five = (x, y) -> x >= 0 && y >= 0 && (y <= 1 && x <= 4 || x <= 1 && y <= 4);
        SheetResistance.Squares two = solve(five, new Bounds(0, 0, 4, 4), (x, y) -> x >= 3, (x, y) -> y >= 3, 0.01);
        assertThat(two.squares()).isCloseTo(4.55873, within(0.0015));
    }

    @Test
    void shouldMeasureANickedTrack() {
        // row R5: a thin slit of depth s into a track of width W adds -(4/pi) ln cos(pi s / 2W); from memory, checked
        double[] depth = {0.25, 0.5, 0.75};
        double[] added = {0.100807, 0.441271, 1.223007};
        for (int k = 0; k < 3; k++) {
            double s = depth[k];
            double narrow = nicked(s, 0.02);
            double wide = nicked(s, 0.04);
            // a slit of width w adds about w more: extrapolated to no width
            assertThat(2 * narrow - wide).as("depth %s", s).isCloseTo(added[k], within(0.04 * added[k] + 0.004));
            assertThat(narrow).isBetween(added[k], wide);
        }
    }

    private static double nicked(double depth, double width) {
        CopperProbe slit =
                (x, y) -> x >= -1.8 && x <= 1.8 && y >= 0 && y <= 1 && !(Math.abs(x) < width / 2 && y < depth);
        return solve(slit, new Bounds(-1.8, 0, 1.8, 1), (x, y) -> x < -1.5, (x, y) -> x > 1.5, 0.008)
                        .squares()
                - 3;
    }

    @Test
    void shouldMeasureRingsAndSectors() {
        // rows R6, R7 (and R10, pi / ln 2, the same figure as the half ring): ln(r2/r1) / 2 pi and theta / ln(r2/r1)
        CopperProbe ring = (x, y) -> x * x + y * y >= 0.9 * 0.9 && x * x + y * y <= 2.1 * 2.1;
        SheetResistance.Squares radial = solve(
                ring,
                new Bounds(-2.1, -2.1, 2.1, 2.1),
                SheetResistance.Contact.disc(0, 0, 1),
                (x, y) -> x * x + y * y >= 4,
                0.0173);
        assertThat(radial.squares()).isCloseTo(0.1103178, within(0.1103178 * 0.003));
        CopperProbe half = (x, y) -> x * x + y * y >= 1 && x * x + y * y <= 4 && y >= -0.5;
        SheetResistance.Squares along =
                solve(half, new Bounds(-2, -0.5, 2, 2), (x, y) -> y <= 0 && x > 0, (x, y) -> y <= 0 && x < 0, 0.0171);
        assertThat(along.squares()).isCloseTo(4.5323601, within(4.5323601 * 0.002));
        CopperProbe quarter = (x, y) -> x * x + y * y >= 1 && x * x + y * y <= 4 && y >= -0.5 && x >= -0.5;
        SheetResistance.Squares bend = solve(
                quarter, new Bounds(-0.5, -0.5, 2, 2), (x, y) -> y <= 0 && x > 0, (x, y) -> x <= 0 && y > 0, 0.0131);
        assertThat(bend.squares()).isCloseTo(2.2661801, within(2.2661801 * 0.002));
    }

    @Test
    void shouldNotFallBelowTheBoundOfASlowTaper() {
        // row R8: L ln(w2/w1) / (w2 - w1) is a lower bound
        CopperProbe taper = (x, y) -> x >= -1 && x <= 6 && Math.abs(y) <= 0.5 * (1 + Math.max(0, Math.min(1, x / 5)));
        SheetResistance.Squares s = solve(taper, new Bounds(-1, -1, 6, 1), (x, y) -> x <= 0, (x, y) -> x >= 5, 0.02);
        assertThat(s.squares()).isBetween(3.465736 * 0.999, 3.465736 * 1.01);
    }

    @Test
    void shouldMeasureTwoDiscsOnALargeSheet() {
        // row R9: acosh(d/2a) / pi on an endless sheet; a bounded sheet adds a little
        CopperProbe sheet = (x, y) -> Math.abs(x) <= 20 && Math.abs(y) <= 20;
        SheetResistance.Squares s = SheetResistance.between(
                sheet,
                new Bounds(-20, -20, 20, 20),
                1600,
                SheetResistance.Contact.disc(-2.5, 0, 0.5),
                SheetResistance.Contact.disc(2.5, 0, 0.5),
                0.2);
        assertThat(s.squares()).isCloseTo(0.7297037, within(0.03));
        assertThat(s.plusMinus()).isLessThan(0.1);
    }

    @Test
    void shouldSayThatNothingJoinsContactsOnSeparateCopper() {
        CopperProbe two = (x, y) -> Math.abs(y) <= 0.5 && Math.abs(x) >= 0.05 && Math.abs(x) <= 2;
        SheetResistance.Squares s =
                solve(two, new Bounds(-2, -0.5, 2, 0.5), (x, y) -> x < -1.5, (x, y) -> x > 1.5, 0.02);
        assertThat(s.squares()).isInfinite();
    }

    @Test
    void shouldFindTheLargestResistanceOfANet() {
        // a star of three arms of 2, 5 and 3 squares: the two longest are farthest apart
        CopperProbe star =
                (x, y) -> Math.abs(y) <= 0.1 && x >= -1 && x <= 0.4 || Math.abs(x) <= 0.1 && y >= 0 && y <= 0.6;
        List<SheetResistance.Contact> ends = List.of((x, y) -> x > 0.35, (x, y) -> x < -0.95, (x, y) -> y > 0.55);
        SheetResistance.Largest far = SheetResistance.largest(star, new Bounds(-1, -0.1, 0.4, 0.6), 0, ends, 0.01);
        assertThat(far).isNotNull();
        assertThat(far.from()).isEqualTo(1);
        assertThat(far.to()).isEqualTo(2);
        assertThat(far.value().squares()).isBetween(6.0, 8.0);
    }

    @Test
    void shouldRepeatToTheLastBit() {
        CopperProbe bend = (x, y) -> x >= 0 && y >= 0 && (y <= 1 && x <= 3 || x <= 1 && y <= 3);
        Bounds box = new Bounds(0, 0, 3, 3);
        double first =
                solve(bend, box, (x, y) -> x >= 2, (x, y) -> y >= 2, 0.03).squares();
        double second =
                solve(bend, box, (x, y) -> x >= 2, (x, y) -> y >= 2, 0.03).squares();
        assertThat(second).isEqualTo(first);
    }

    @Test
    void shouldAgreeWithASparseCholeskyOfAnotherLibrary() {
        // EJML 0.44, not used in the product (row O4): an L of cells of 1/32, two squares per arm, contacts on the end
        // faces
        int n = 32;
        int side = 3 * n;
        int[] id = new int[side * side];
        int count = 0;
        for (int i = 0; i < side * side; i++) {
            id[i] = i % side < n || i / side < n ? count++ : -1;
        }
        DMatrixSparseTriplet t = new DMatrixSparseTriplet(count, count, 5 * count);
        DMatrixRMaj rhs = new DMatrixRMaj(count, 1);
        for (int i = 0; i < side * side; i++) {
            if (id[i] < 0) {
                continue;
            }
            int c = i % side;
            int r = i / side;
            double d = 0;
            int[] to = {
                c + 1 < side ? i + 1 : -1, c > 0 ? i - 1 : -1, r + 1 < side ? i + side : -1, r > 0 ? i - side : -1
            };
            for (int k : to) {
                if (k >= 0 && id[k] >= 0) {
                    d += 1;
                    t.addItem(id[i], id[k], -1);
                }
            }
            if (c == side - 1) {
                d += 2;
                rhs.add(id[i], 0, 2);
            }
            if (r == side - 1) {
                d += 2;
            }
            t.addItem(id[i], id[i], d);
        }
        var solver = LinearSolverFactory_DSCC.cholesky(FillReducing.NONE);
        DMatrixSparseCSC a = DConvertMatrixStruct.convert(t, (DMatrixSparseCSC) null);
        assertThat(solver.setA(a)).isTrue();
        DMatrixRMaj v = new DMatrixRMaj(count, 1);
        solver.solve(rhs, v);
        double current = 0;
        for (int c = 0; c < n; c++) {
            current += 2 * v.get(id[(side - 1) * side + c], 0);
        }
        double in = 1e-7;
        CopperProbe bend = (x, y) -> x >= in && y >= in && (y <= 1 - in && x <= 4 || x <= 1 - in && y <= 4);
        double own = SheetResistance.exactly(bend, new Bounds(0, 0, 4, 4), (x, y) -> x >= 3, (x, y) -> y >= 3, 1.0 / n);
        assertThat(own).isCloseTo(1 / current, within(1e-4));
    }
}
