package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class CutterBeamTest {
    /** Check values P7: solid carbide rod, closed form of the cantilever. */
    @Test
    void shouldBendAsASolidRodWhereCoreAndShankAreOne() {
        assertThat(new CutterBeam(0.79375, 3, 0.79375, 3).tipDeflectionMm(1) * 1000)
                .isCloseTo(0.76982, within(1e-4));
        assertThat(new CutterBeam(0.79375, 5, 0.79375, 5).tipDeflectionMm(1) * 1000)
                .isCloseTo(3.56396, within(4e-4));
        assertThat(new CutterBeam(0.5, 3, 0.5, 3).tipDeflectionMm(1) * 1000).isCloseTo(4.88924, within(5e-4));
    }

    /** Check values P8 and P10: flutes as a rod of 0.8 D, 2.4414 times as soft; L doubled x 8, d doubled / 16. */
    @Test
    void shouldBendFlutesAsAThinnerRodAndScaleWithLengthAndDiameter() {
        assertThat(new CutterBeam(0.8 * 0.79375, 3, 0.8 * 0.79375, 3).tipDeflectionMm(1) * 1000)
                .isCloseTo(1.87943, within(2e-4));
        assertThat(new CutterBeam(0.8 * 0.79375, 5, 0.8 * 0.79375, 5).tipDeflectionMm(1) * 1000)
                .isCloseTo(8.70107, within(9e-4));
        assertThat(new CutterBeam(0.8 * 0.5, 3, 0.8 * 0.5, 3).tipDeflectionMm(1) * 1000)
                .isCloseTo(11.93662, within(12e-4));
        double one = new CutterBeam(0.5, 3, 0.5, 3).tipDeflectionMm(1);
        assertThat(new CutterBeam(0.5, 6, 0.5, 6).tipDeflectionMm(1) / one).isCloseTo(8, within(1e-9));
        assertThat(one / new CutterBeam(1.0, 3, 1.0, 3).tipDeflectionMm(1)).isCloseTo(16, within(1e-9));
    }

    /** Check value P9: stepped beam, flutes 0.79375 x 0.8, 3 mm; shank 3.175, 12 mm more. */
    @Test
    void shouldBendAsASteppedBeam() {
        assertThat(new CutterBeam(0.79375 * 0.8, 3, 3.175, 15).tipDeflectionMm(1) * 1000)
                .isCloseTo(2.25231, within(3e-4));
    }

    /** Worked figures of the needs catalogue, C7: F = k x depth x chip load, k 150 in FR-1, 400 in FR-4. */
    @Test
    void shouldGiveTheBendingStressOfTheWorkedExamples() {
        CutterBeam beam = new CutterBeam(0.7 * 0.79375, 3, 3.175, 12);
        assertThat(beam.stressNPerMm2(150 * 0.4 * 0.02)).isCloseTo(214, within(1.0));
        assertThat(beam.stressNPerMm2(150 * 1.8 * 0.04)).isCloseTo(1925, within(10.0));
        assertThat(beam.stressNPerMm2(400 * 1.8 * 0.04)).isCloseTo(5130, within(20.0));
    }
}
