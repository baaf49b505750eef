package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Z windows against needs.md section 6, closed forms, and brute force over boards thresholded anew. */
class ZWindowTest {
    private static CutLines lines(double... xy) {
        CutLines.Builder b = CutLines.builder().begin(xy[0], xy[1], 0, 10);
        for (int i = 2; i < xy.length; i += 2) {
            b.add(xy[i], xy[i + 1], 0, 10 + i / 2, true);
        }
        return b.build();
    }

    private static ZWindowSetup setup(
            ToolRunField f, CutLines lines, boolean copperOnly, double depth, double[] spread) {
        return new ZWindowSetup(
                f,
                lines,
                List.of(),
                new double[0],
                copperOnly,
                new ZWindowSetup.Deepest(depth, 1, 1, 0, 12),
                spread[0],
                spread[1],
                null,
                null,
                ZWindowSetup.Limits.DEFAULTS);
    }

    @Test
    void shouldGiveTheCleanJobItsWindow() {
        // needs.md section 6, job 1: -0.0776 .. +0.050, printed -0.077 .. +0.050, margins 0.027 / 0.020
        double[] xy = {13.12, 12.4, 46.88, 12.4, 46.88, 33.6, 13.12, 33.6, 13.12, 12.1};
        GrooveField f = new GrooveField(60, 45, 0.02, 0.0174, 0.3);
        f.loop(0.1, 0.396875, Double.POSITIVE_INFINITY, xy);
        ZWindow w = ZWindows.of(setup(new RunField(f, null), lines(xy), true, 0.1, new double[] {-0.05, 0.03}));
        assertThat(w.fromMm()).isEqualTo(-0.0776);
        assertThat(w.toMm()).isEqualTo(0.05);
        assertThat(w.printedFromMm()).isEqualTo(-0.077);
        assertThat(w.printedToMm()).isEqualTo(0.05);
        assertThat(w.marginMm()).isCloseTo(0.020, within(1e-9));
        assertThat(w.limitedFrom().kind()).isEqualTo(ZLimit.Kind.FOIL_LEFT);
        assertThat(w.limitedTo().kind()).isEqualTo(ZLimit.Kind.DUTY);
        assertThat(w.fixToMm()).isCloseTo(0.20, within(1e-9));
        assertThat(w.empty()).isFalse();
        assertThat(w.bestShiftMm()).isCloseTo(0.5 * (-0.0776 + 0.05 + 0.05 - 0.03), within(2e-6));
    }

    @Test
    void shouldSnapToOneNanometreBeforeRoundingInward() {
        assertThat(ZWindow.inwardUp(-0.0776)).isEqualTo(-0.077);
        assertThat(ZWindow.inwardUp(0.1 - 0.03 - 0.02)).isEqualTo(0.05);
        assertThat(ZWindow.inwardDown(0.15 - 0.1)).isEqualTo(0.05);
        assertThat(ZWindow.inwardDown(0.050999)).isEqualTo(0.05);
    }

    @Test
    void shouldLeaveAnEndOpenBeyondTheHeadroomAndTakeTheMarginOfTheOther() {
        GrooveField f = new GrooveField(10, 8, 0.02, 0.0174, 0.3);
        f.flat(-1, 4, 11, 4, 0.1, 0.4);
        ZWindow w =
                ZWindows.of(setup(new RunField(f, null), lines(-1, 4, 11, 4), false, 0.1, new double[] {-0.06, 0.03}));
        assertThat(w.fromMm()).isEqualTo(-0.0776);
        assertThat(w.toMm()).isNull();
        assertThat(w.marginMm()).isCloseTo(0.0176, within(1e-9));
        assertThat(w.bestShiftMm()).isNull();
        assertThat(w.limitedTo()).isNull();
    }

    @Test
    void shouldSayThatNoDepthWorksOnADishedBlankAndWhichWouldIfItWereFlat() {
        // The dish of job 2 lies 0.08 low in the middle; two 60 degree grooves 0.35 apart leave a trace that severs at
        // w(d - t) = 0.35: d = 0.0348 + 0.125 / tan 30 = 0.2513 of depth over the high rim.
        GrooveField f = new GrooveField(30, 22, 0.02, 0.0348, 0.3);
        f.grooves.add(new GrooveField.Groove(2, 11, 28, 11, -0.1, 0.05, GrooveField.RISE_60));
        f.surface = (x, y) -> -0.08 * (1 - ((x - 15) * (x - 15) + (y - 11) * (y - 11)) / 361.0);
        ZWindow w =
                ZWindows.of(setup(new RunField(f, null), lines(2, 11, 28, 11), true, 0.1, new double[] {-0.03, 0.03}));
        // 0.0348 + 0.005 + 0.08 - 0.1 = 0.0198 at the middle
        assertThat(w.fromMm()).isCloseTo(0.0198, within(1e-5));
        assertThat(w.limitedFrom().xMm()).isCloseTo(15, within(0.1));
        ZWindow tight =
                ZWindows.of(setup(new RunField(f, null), lines(2, 11, 28, 11), true, 0.14, new double[] {-0.03, 0.03}));
        assertThat(tight.empty()).isTrue();
        assertThat(tight.flattened()).isNotNull();
        assertThat(tight.flattened().empty()).isFalse();
        assertThat(tight.flattened().fromMm()).isCloseTo(0.0398 - 0.1, within(1e-6));
    }

    @Test
    void shouldFindWhereTwoNetsOfADesignPartAndWhereOneFallsApart() {
        // A trace 0.20 between centre lines at depth 0.1 in one-ounce foil: open at +0.1214 (issue 3); a groove parts
        // the
        // two halves only where it reaches the foil's bottom: 0.0348 - 0.1 = -0.0652.
        GrooveField f = new GrooveField(6, 4, 0.01, 0.0348, 0.3);
        f.v30(1, 1.9, 5, 1.9, 0.1)
                .v30(1, 2.1, 5, 2.1, 0.1)
                .v30(3, -1, 3, 1.9, 0.1)
                .v30(3, 2.1, 3, 5, 0.1);
        List<Terminal> terminals =
                List.of(new Terminal(1, 1, 0.4, 2), new Terminal(1, 1, 5.6, 2), new Terminal(2, 2, 3, 2));
        ZWindowSetup s = new ZWindowSetup(
                new RunField(f, null),
                lines(1, 1.9, 5, 1.9),
                List.of(new Terminal(1, 1, 0.4, 2), new Terminal(1, 1, 5.6, 2)),
                new double[0],
                false,
                null,
                -0.03,
                0.03,
                null,
                null,
                ZWindowSetup.Limits.DEFAULTS);
        ZWindow w = ZWindows.of(s);
        assertThat(w.toMm()).isCloseTo(0.1214, within(0.001));
        assertThat(w.limitedTo().kind()).isEqualTo(ZLimit.Kind.NET_OPEN);
        assertThat(w.limitedTo().yMm()).isCloseTo(2, within(0.02));
        assertThat(terminals).hasSize(3);
    }

    /** Closed form (issue 3): 0.20 = w(d - t), w = 0.10 + 2 x tan 15 deg, so e = 0.0348 + 0.05 / tan 15 deg - 0.1. */
    @Test
    void shouldLoseATraceBetweenTwoGroovesAtTheSameErrorAtAnyAngle() {
        long seed = 314;
        Random random = new Random(seed);
        for (int k = 0; k < 12; k++) {
            double a = StrictMath.PI * random.nextDouble();
            double c = StrictMath.cos(a);
            double s = StrictMath.sin(a);
            double x = 3 + 0.01 * random.nextDouble();
            double y = 3 + 0.01 * random.nextDouble();
            GrooveField f = new GrooveField(6, 6, 0.01, 0.0348, 0.3);
            f.v30(x - 1.5 * c - 0.1 * s, y - 1.5 * s + 0.1 * c, x + 1.5 * c - 0.1 * s, y + 1.5 * s + 0.1 * c, 0.1);
            f.v30(x - 1.5 * c + 0.1 * s, y - 1.5 * s - 0.1 * c, x + 1.5 * c + 0.1 * s, y + 1.5 * s - 0.1 * c, 0.1);
            // grooves across, so that only the trace joins the two ends
            f.v30(x - 0.1 * s, y + 0.1 * c, x - 9 * s, y + 9 * c, 0.1);
            f.v30(x + 0.1 * s, y - 0.1 * c, x + 9 * s, y - 9 * c, 0.1);
            ZWindow w = ZWindows.of(new ZWindowSetup(
                    new RunField(f, null),
                    lines(x - 1.5 * c - 0.1 * s, y - 1.5 * s + 0.1 * c, x + 1.5 * c - 0.1 * s, y + 1.5 * s + 0.1 * c),
                    List.of(new Terminal(1, 1, x - 2 * c, y - 2 * s), new Terminal(1, 1, x + 2 * c, y + 2 * s)),
                    new double[0],
                    false,
                    null,
                    -0.03,
                    0.03,
                    null,
                    null,
                    ZWindowSetup.Limits.DEFAULTS));
            String what = k + " of seed " + seed + " at " + StrictMath.toDegrees(a);
            assertThat(w.toMm()).as(what).isCloseTo(0.0348 + 0.05 * GrooveField.RISE_30 - 0.1, within(0.003));
            assertThat(w.fromMm()).as(what).isCloseTo(0.0398 - 0.1, within(1e-6));
        }
    }

    /**
     * 50 seeded boards: loops round pads and traces between them. The window from the tree must be the one that
     * thresholding the closed forms anew at each error gives, by pieces.
     */
    @Test
    void shouldAgreeWithBruteForceOnFiftyRandomBoards() {
        long seed = 4711;
        for (int board = 0; board < 50; board++) {
            GrooveField f = board(new Random(seed + board));
            MergeTree tree = MergeTree.of(f, -f.capMm());
            NetLimits limits = NetLimits.byPieces(tree);
            String what = "board " + board + " of seed " + seed + ", " + limits.whole();
            double low = limits.apart() == null
                    ? -0.12
                    : Math.max(-0.12, limits.apart().eMm());
            double high = limits.whole() == null
                    ? 0.25
                    : Math.min(0.25, limits.whole().eMm());
            int[] base = signature(f, 0);
            double tolerance = 0.004;
            assertThat(same(f, base, low + tolerance))
                    .as(what + ", just above " + low)
                    .isTrue();
            assertThat(same(f, base, high - tolerance))
                    .as(what + ", just below " + high)
                    .isTrue();
            if (low > -0.12) {
                assertThat(same(f, base, low - tolerance))
                        .as(what + ", just below " + low)
                        .isFalse();
            }
            if (high < 0.25) {
                // A part that breaks off may itself shrink to a crumb soon after: look at several errors above.
                assertThat(same(f, base, high + 0.0003)
                                && same(f, base, high + 0.002)
                                && same(f, base, high + tolerance))
                        .as(what + ", just above " + high)
                        .isFalse();
            }
        }
    }

    private static GrooveField board(Random random) {
        GrooveField f = new GrooveField(5, 4, 0.01, 0.0348, 0.3);
        int pads = 3 + random.nextInt(3);
        for (int k = 0; k < pads; k++) {
            double x = 0.6 + random.nextDouble() * 3.4;
            double y = 0.6 + random.nextDouble() * 2.6;
            double w = 0.5 + random.nextDouble();
            double h = 0.4 + random.nextDouble() * 0.8;
            double turn = random.nextDouble();
            double c = StrictMath.cos(turn);
            double s = StrictMath.sin(turn);
            double[] xy = new double[10];
            for (int p = 0; p < 5; p++) {
                double ux = (p == 1 || p == 2 ? 0.5 : -0.5) * w;
                double uy = (p == 2 || p == 3 ? 0.5 : -0.5) * h;
                xy[2 * p] = x + ux * c - uy * s;
                xy[2 * p + 1] = y + ux * s + uy * c;
            }
            double depth = 0.05 + random.nextDouble() * 0.1;
            f.loop(depth, 0.05, random.nextBoolean() ? GrooveField.RISE_30 : GrooveField.RISE_60, xy);
        }
        return f;
    }

    /** For each piece of the board as set up: how many pieces of the other board lie in it and what else they hold. */
    private static boolean same(GrooveField f, int[] base, double e) {
        return java.util.Arrays.equals(signature(f, e), base);
    }

    /** Looks finer than the grid: crests pass between cell centres. */
    private static boolean anyAbove(GrooveField f, double x, double y, double e) {
        for (int v = -8; v <= 8; v++) {
            for (int u = -8; u <= 8; u++) {
                if (f.exactMarginMm(x + u * f.cell / 16, y + v * f.cell / 16) > e) {
                    return true;
                }
            }
        }
        return false;
    }

    private static int[] signature(GrooveField f, double e) {
        CopperMap at0 = CopperMap.of(f, 0);
        CopperMap atE = CopperMap.of(f, e);
        int n = at0.pieces().size();
        int[] inside = new int[n];
        if (e >= 0) {
            for (Piece p : atE.pieces()) {
                int old = at0.pieceAt(p.insideXMm(), p.insideYMm());
                if (old >= 0) {
                    inside[old]++;
                }
            }
            // A piece of which only crumbs are left is still there: it is lost where none of it is copper.
            for (int j = 0; j < f.rows(); j++) {
                for (int i = 0; i < f.columns(); i++) {
                    double x = (i + 0.5) * f.cell;
                    double y = (j + 0.5) * f.cell;
                    int old = at0.pieceAt(x, y);
                    if (old >= 0 && inside[old] == 0 && f.exactMarginMm(x, y) > e - 0.04) {
                        inside[old] = anyAbove(f, x, y, e) ? 1 : 0;
                    }
                }
            }
            return inside;
        }
        List<Integer> seen = new ArrayList<>();
        for (Piece p : at0.pieces()) {
            int now = atE.pieceAt(p.insideXMm(), p.insideYMm());
            inside[p.index()] = seen.contains(now) ? 2 : 1;
            seen.add(now);
        }
        return inside;
    }

    @Test
    void shouldLetTheWidthOfATraceEndTheWindow() {
        // A trace isolated by one closed groove, base 0.30 at e = 0: 0.25 where w(d - t) has grown by 0.05:
        // e = 0.05 / (2 tan 15) = 0.0933; 0.15 at 0.2799
        double half = 0.5 * (0.30 + 0.1 + 2 * (0.1 - 0.0348) / GrooveField.RISE_30);
        double[] xy = {1, 2 - half, 5, 2 - half, 5, 2 + half, 1, 2 + half, 1, 2 - half};
        GrooveField f = new GrooveField(6, 4, 0.01, 0.0348, 0.3);
        f.loop(0.1, 0.05, GrooveField.RISE_30, xy);
        CutLines cut = lines(xy);
        CopperMap map = CopperMap.of(f, 0);
        ZLimit watch = StripFinder.widthLimit(map, new RunField(f, null), 0.25, 0.3, List.of(cut), null);
        assertThat(watch.eMm()).isCloseTo(0.0933, within(0.002));
        ZLimit fix = StripFinder.widthLimit(map, new RunField(f, null), 0.15, 0.3, List.of(cut), null);
        assertThat(fix.eMm()).isCloseTo(0.2799, within(0.002));
        assertThat(StripFinder.widthLimit(map, new RunField(f, null), 0.25, 0.09, List.of(cut), null))
                .isNull();
    }
}
