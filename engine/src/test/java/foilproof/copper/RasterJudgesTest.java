package foilproof.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import boofcv.alg.filter.binary.BinaryImageOps;
import boofcv.struct.ConnectRule;
import boofcv.struct.image.GrayS32;
import boofcv.struct.image.GrayU8;
import ij.plugin.filter.EDM;
import ij.process.ByteProcessor;
import ij.process.FloatProcessor;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Pieces and widths against two libraries for raster images that the product does not use: BoofCV 1.1.7 labels pieces
 * (check value O2), ImageJ 1.54f measures distances (check value O3).
 */
class RasterJudgesTest {
    private static final double CELL_MM = 0.01;

    private static int labelled(GrayU8 image, ConnectRule rule) {
        return BinaryImageOps.contour(image, rule, new GrayS32(image.width, image.height))
                .size();
    }

    @Test
    void shouldTrustTheLabelsThatJudge() {
        // O2: foil with a full cut: 2; a diagonal pair: 2 by four neighbours, 1 by eight
        GrayU8 cut = new GrayU8(21, 11);
        for (int y = 0; y < 11; y++) {
            for (int x = 0; x < 21; x++) {
                cut.set(x, y, x == 10 ? 0 : 1);
            }
        }
        assertThat(labelled(cut, ConnectRule.FOUR)).isEqualTo(2);
        GrayU8 pair = new GrayU8(4, 4);
        pair.set(1, 1, 1);
        pair.set(2, 2, 1);
        assertThat(labelled(pair, ConnectRule.FOUR)).isEqualTo(2);
        assertThat(labelled(pair, ConnectRule.EIGHT)).isEqualTo(1);
    }

    @Test
    void shouldTrustTheDistancesThatJudge() {
        // O3: a bar of 41 x 21 cells: 11 in its middle, 1 at its edge: to the nearest middle of a cell outside
        FloatProcessor d = distances(61, 41, (x, y) -> x >= 10 && x < 51 && y >= 10 && y < 31);
        assertThat(d.getf(30, 20)).isEqualTo(11f);
        assertThat(d.getf(30, 10)).isEqualTo(1f);
    }

    private interface Mask {
        boolean in(int x, int y);
    }

    private static FloatProcessor distances(int width, int height, Mask mask) {
        ByteProcessor image = new ByteProcessor(width, height);
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                image.set(x, y, mask.in(x, y) ? 255 : 0);
            }
        }
        return new EDM().makeFloatEDM(image, 0, false);
    }

    @Test
    void shouldCountThePiecesThatALabellerCountsOnTheSameCells() {
        long seed = 20261126;
        Random dice = new Random(seed);
        int most = 0;
        for (int board = 0; board < 30; board++) {
            GrooveField f = new GrooveField(3, 2, CELL_MM, 0.0348, 0.3);
            for (int k = 0; k < 16; k++) {
                f.flat(
                        3 * dice.nextDouble(),
                        2 * dice.nextDouble(),
                        3 * dice.nextDouble(),
                        2 * dice.nextDouble(),
                        0.1,
                        0.03 + 0.05 * dice.nextDouble());
            }
            GrayU8 image = new GrayU8(f.columns(), f.rows());
            for (int y = 0; y < image.height; y++) {
                for (int x = 0; x < image.width; x++) {
                    image.set(x, y, f.exactMarginMm((x + 0.5) * CELL_MM, (y + 0.5) * CELL_MM) > 0 ? 1 : 0);
                }
            }
            CopperMap map = CopperMap.of(f, 0);
            assertThat(map.pieces().size() + map.crumbs())
                    .as("board %d of seed %d", board, seed)
                    .isEqualTo(labelled(image, ConnectRule.FOUR));
            most = Math.max(most, map.pieces().size());
        }
        assertThat(most).as("boards with something to count").isGreaterThan(4);
    }

    @Test
    void shouldFindTheWidthsThatADistanceMapFinds() {
        long seed = 20261127;
        Random dice = new Random(seed);
        for (int board = 0; board < 12; board++) {
            // an upright strip of copper between two flat cutters' grooves, its middle on a row of cells
            double half = 0.05 + 0.1 * dice.nextDouble();
            double middle = 1.005;
            GrooveField f = new GrooveField(3, 2, CELL_MM, 0.0348, 0.3);
            f.flat(0, middle + half + 0.2, 3, middle + half + 0.2, 0.1, 0.2);
            f.flat(0, middle - half - 0.2, 3, middle - half - 0.2, 0.1, 0.2);
            FloatProcessor d = distances(
                    f.columns(), f.rows(), (x, y) -> f.exactMarginMm((x + 0.5) * CELL_MM, (y + 0.5) * CELL_MM) > 0);
            // O3: width = 2 x distance - 1, in cells; either wall is known to a cell
            double byMap = (2 * d.getf(150, 100) - 1) * CELL_MM;
            double own = new LocalThickness(CopperMap.of(f, 0)).atMm(1.505, middle, 0.8);
            assertThat(own)
                    .as("board %d of seed %d", board, seed)
                    .isCloseTo(byMap, within(CELL_MM + 1e-9))
                    .isCloseTo(2 * half, within(0.002));
        }
    }
}
