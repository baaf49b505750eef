package foilproof.app.viewer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Closed forms: what is projected must be found again by the line of sight through its pixel. */
class CameraTest {
    @Test
    void shouldFindAgainByTheLineOfSightWhatItProjected() {
        Random random = new Random(7);
        for (int i = 0; i < 500; i++) {
            Camera c = new Camera(
                    random.nextDouble() * 100,
                    random.nextDouble() * 80,
                    0,
                    random.nextDouble() * 6.28,
                    0.1 + random.nextDouble() * 1.4,
                    1 + random.nextDouble() * 100,
                    random.nextBoolean(),
                    1 + random.nextInt(20));
            double x = c.xMm() + (random.nextDouble() - 0.5) * c.heightMm() * 0.4;
            double y = c.yMm() + (random.nextDouble() - 0.5) * c.heightMm() * 0.4;
            double z = -random.nextDouble() * 0.2;
            double[] p = c.project(x, y, z, 800, 600);
            double[] ray = c.ray(p[0], p[1], 800, 600);
            double t = (z - ray[2]) / ray[5];
            assertThat(ray[0] + t * ray[3]).as("seed 7, view %d", i).isCloseTo(x, within(c.heightMm() * 2e-3));
            assertThat(ray[1] + t * ray[4]).as("seed 7, view %d", i).isCloseTo(y, within(c.heightMm() * 2e-3));
        }
    }

    @Test
    void shouldPickThePlaceAndHeightUnderThePointer() {
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_4);
        Camera c = Camera.oblique(b, 800, 600);
        double[] p = c.project(25, 9, -0.3, 800, 600);
        double[] hit = c.pick(b, b.baseConditions(), p[0], p[1], 800, 600);
        assertThat(hit[0]).isCloseTo(25, within(0.02));
        assertThat(hit[1]).isCloseTo(9, within(0.02));
        assertThat(hit[2]).isCloseTo(-0.3, within(0.002));
    }

    @Test
    void shouldKeepTheWholeBlankInThePicture() {
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_4);
        int[][] sizes = {{1920, 1080}, {600, 900}, {320, 200}};
        for (int[] size : sizes) {
            Camera[] all = {Camera.top(b, size[0], size[1]), Camera.oblique(b, size[0], size[1])};
            for (Camera c : all) {
                for (int i = 0; i < 4; i++) {
                    double[] p = c.project((i & 1) * 40, (i >> 1) * 30, 0, size[0], size[1]);
                    assertThat(p[0]).isBetween(0.0, (double) size[0]);
                    assertThat(p[1]).isBetween(0.0, (double) size[1]);
                }
            }
        }
    }

    @Test
    void shouldMeasureAGrooveInASection() {
        BoardSnapshot b = SyntheticBoard.small(BoardSnapshot.Substrate.FR_1);
        // Closed form: tip 0.10, half angle 15 degrees, 0.1 deep: top width 0.10 + 2 x 0.1 tan 15 = 0.1536 mm;
        // at the foil's underside, 17.4 um down: 0.10 + 2 x 0.0826 tan 15 = 0.1443 mm.
        Section s = Section.of(b, b.baseConditions(), 30, 26, 30, 28, 2001);
        Section.Groove g = Objects.requireNonNull(s.grooveNear(1, 0.0174));
        assertThat(g.topWidthMm()).isCloseTo(0.1536, within(0.005));
        assertThat(g.bottomWidthMm()).isCloseTo(0.1443, within(0.005));
        assertThat(g.depthMm()).isCloseTo(0.1, within(0.0006));
    }
}
