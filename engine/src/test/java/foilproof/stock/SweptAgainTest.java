package foilproof.stock;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;

/** A path of which a move changed is swept where that move cuts, and nowhere else; the heights are those of a fresh sweep. */
class SweptAgainTest {
    private static final long SEED = Long.getLong("foilproof.seed", 20_261_126L);
    private static final SweepSettings SETTINGS = SweepSettings.forBlank(0.02, 40, 30);

    private static double[][] corners(SplittableRandom random) {
        double[][] all = new double[80][];
        double x = 20;
        double y = 15;
        for (int i = 0; i < all.length; i++) {
            x = Math.max(1, Math.min(39, x + random.nextDouble(-5, 5)));
            y = Math.max(1, Math.min(29, y + random.nextDouble(-5, 5)));
            all[i] = new double[] {x, y, random.nextInt(6) == 0 ? -0.15 : -0.1};
        }
        return all;
    }

    private static CutPath path(double[][] corners) {
        CutPath.Builder b = CutPath.builder();
        for (int i = 1; i < corners.length; i++) {
            double[] a = corners[i - 1];
            double[] c = corners[i];
            b.line(a[0], a[1], a[2], c[0], c[1], c[2]);
        }
        return b.build();
    }

    @RepeatedTest(6)
    void shouldGiveTheHeightsOfAFreshSweepWhereAMoveWasEdited(RepetitionInfo info) {
        long seed = SEED + info.getCurrentRepetition();
        SplittableRandom random = new SplittableRandom(seed);
        ToolProfile bit = random.nextBoolean()
                ? ToolProfile.vFlatTip(StrictMath.toRadians(30), 0.1, 3.175, 0)
                : ToolProfile.flat(0.8, 0.01);
        double[][] corners = corners(random);
        Memo memo = new Memo(1L << 28);
        Envelope before = Envelope.sweep(memo, path(corners), bit, SETTINGS, 0);
        for (int edit = 0; edit < 4; edit++) {
            int at = 1 + random.nextInt(corners.length - 2);
            corners[at] = new double[] {
                Math.min(39, corners[at][0] + random.nextDouble(0, 0.5)),
                corners[at][1],
                random.nextBoolean() ? -0.1 : 1
            };
            Envelope again = Envelope.sweep(memo, path(corners), bit, SETTINGS, 0);
            assertThat(again.tiles().fingerprint())
                    .as("seed " + seed + ", edit " + edit)
                    .isEqualTo(Envelope.sweep(path(corners), bit, SETTINGS, 0)
                            .tiles()
                            .fingerprint());
            assertThat(shared(before.tiles(), again.tiles()))
                    .as("tiles taken over")
                    .isPositive();
            before = again;
        }
    }

    private static int shared(HeightTiles a, HeightTiles b) {
        int count = 0;
        for (int y = b.tileY0(); y < b.tileY0() + b.tilesY(); y++) {
            for (int x = b.tileX0(); x < b.tileX0() + b.tilesX(); x++) {
                float[] tile = b.sharedTile(x, y);
                count += tile != null && tile == a.sharedTile(x, y) ? 1 : 0;
            }
        }
        return count;
    }

    @Test
    void shouldTakeTheVeryTilesWhereOnlyTheMomentsChanged() {
        double[][] corners = corners(new SplittableRandom(SEED));
        ToolProfile bit = ToolProfile.flat(0.8, 0);
        Memo memo = new Memo(1L << 28);
        Envelope before = Envelope.sweep(memo, path(corners), bit, SETTINGS, 0);
        Envelope again = Envelope.sweep(memo, path(corners), ToolProfile.flat(0.8, 0), SETTINGS, 0);
        assertThat(again.tiles()).isSameAs(before.tiles());
        assertThat(memo.found()).isPositive();
    }

    @Test
    void shouldForgetWhatWasNotAskedForLongest() {
        Memo memo = new Memo(100);
        String first = Memo.of(memo, "a", s -> 60, () -> new String("one"));
        Memo.of(memo, "b", s -> 30, () -> "two");
        assertThat(Memo.of(memo, "a", s -> 60, () -> "made again")).isSameAs(first);
        Memo.of(memo, "c", s -> 40, () -> "three");
        assertThat(memo.bytes()).isLessThanOrEqualTo(100);
        assertThat(Memo.of(memo, "b", s -> 30, () -> "again")).isEqualTo("again");
    }

    @Test
    void shouldKeepNothingThatIsTooLarge() {
        Memo memo = new Memo(0);
        assertThat(Memo.of(memo, "a", s -> 1, () -> "one")).isEqualTo("one");
        assertThat(Memo.of(memo, "a", s -> 1, () -> "two")).isEqualTo("two");
        assertThat(memo.bytes()).isZero();
    }
}
