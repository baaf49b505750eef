package foilproof.electrical;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** Current, spacing, resistance and solder formulas against check-values 3 and 4 (source named at each test). */
class FormulasTest {
    private static final double THOU = 0.0254;
    private static final Offset<Double> PRINTED = within(6e-5);

    private static void row(double width, double foil, double at10, double at20, double at30) {
        double area = width * THOU * foil * THOU;
        double[] rise = {10, 20, 30};
        double[] expected = {at10, at20, at30};
        for (int i = 0; i < 3; i++) {
            double current = TemperatureRise.currentA(TemperatureRise.EXTERNAL, rise[i], area);
            assertThat(current).isCloseTo(expected[i], PRINTED);
            assertThat(TemperatureRise.currentA(TemperatureRise.INTERNAL, rise[i], area))
                    .isCloseTo(current / 2, within(1e-12));
            assertThat(TemperatureRise.riseK(TemperatureRise.EXTERNAL, current, area))
                    .isCloseTo(rise[i], within(1e-9));
        }
    }

    @Test
    void shouldFollowTheFitToTheCharts() {
        // IPC-2221 fit, rows I1-I9 (agreeing public transcriptions; values by the formula)
        row(10, 0.685, 0.5335, 0.7237, 0.8651);
        row(20, 0.685, 0.8818, 1.1962, 1.4299);
        row(50, 0.685, 1.7134, 2.3245, 2.7785);
        row(100, 0.685, 2.8322, 3.8421, 4.5925);
        row(10, 1.37, 0.8818, 1.1962, 1.4299);
        row(20, 1.37, 1.4575, 1.9773, 2.3634);
        row(50, 1.37, 2.8322, 3.8421, 4.5925);
        row(100, 1.37, 4.6813, 6.3506, 7.5910);
        row(100, 2.74, 7.7377, 10.4970, 12.5471);
    }

    private static void width(double k, double current, double rise, double foil, double thou) {
        assertThat(TemperatureRise.widthMm(k, current, rise, foil * THOU) / THOU)
                .isCloseTo(thou, within(thou * 1e-4));
    }

    @Test
    void shouldGiveTheWidthForACurrent() {
        // rows I10, I11
        width(TemperatureRise.EXTERNAL, 5, 10, 1.37, 109.51);
        width(TemperatureRise.EXTERNAL, 5, 10, 0.685, 219.02);
        width(TemperatureRise.EXTERNAL, 5, 20, 1.37, 71.91);
        width(TemperatureRise.EXTERNAL, 5, 20, 0.685, 143.81);
        width(TemperatureRise.INTERNAL, 5, 10, 1.37, 284.89);
        width(TemperatureRise.EXTERNAL, 1, 10, 1.37, 11.895);
        width(TemperatureRise.EXTERNAL, 2, 10, 1.37, 30.944);
        width(TemperatureRise.EXTERNAL, 1, 20, 1.37, 7.810);
        width(TemperatureRise.EXTERNAL, 2, 20, 1.37, 20.318);
        assertThat(TemperatureRise.areaMm2(TemperatureRise.EXTERNAL, 5, 10) / THOU / THOU)
                .isCloseTo(150.03, within(0.015));
    }

    @Test
    void shouldRankNeckAndBodyOfThePumpDriver() {
        // needs.md J6: 3.5 A in 2.2 mm: one-ounce 6.5 K, half-ounce 20.5 K; a 0.9 mm neck in half-ounce 89 K
        assertThat(rise(2.2, 0.0348)).isCloseTo(6.5, within(0.06));
        assertThat(rise(2.2, 0.0174)).isCloseTo(20.5, within(0.06));
        assertThat(rise(0.9, 0.0174)).isCloseTo(89, within(0.6));
        assertThat(rise(0.9, 0.0348)).isCloseTo(28.5, within(0.1));
        assertThat(TemperatureRise.withinCharts(3.5, 89)).isTrue();
        assertThat(TemperatureRise.withinCharts(3.5, 120)).isFalse();
    }

    private static double rise(double widthMm, double foilMm) {
        return TemperatureRise.riseK(
                TemperatureRise.EXTERNAL, 3.5, new TraceSection(widthMm, widthMm, foilMm).areaMm2());
    }

    @Test
    void shouldGiveTheSpacingOfEveryRow() {
        // IPC-2221A table 6-1, public transcription
        double[] volts = {15, 30, 50, 100, 150, 170, 250, 300, 500};
        double[] b2 = {0.1, 0.1, 0.6, 0.6, 0.6, 1.25, 1.25, 1.25, 2.5};
        double[] b1 = {0.05, 0.05, 0.1, 0.1, 0.2, 0.2, 0.2, 0.2, 0.25};
        double[] b3 = {0.1, 0.1, 0.6, 1.5, 3.2, 3.2, 6.4, 12.5, 12.5};
        double[] b4 = {0.05, 0.05, 0.13, 0.13, 0.4, 0.4, 0.4, 0.4, 0.8};
        double[] a5 = {0.13, 0.13, 0.13, 0.13, 0.4, 0.4, 0.4, 0.4, 0.8};
        double[] a6 = {0.13, 0.25, 0.4, 0.5, 0.8, 0.8, 0.8, 0.8, 1.5};
        double[] a7 = {0.13, 0.13, 0.13, 0.13, 0.4, 0.4, 0.4, 0.8, 0.8};
        for (int i = 0; i < volts.length; i++) {
            assertThat(Spacing.B2.leastMm(volts[i])).isEqualTo(b2[i]);
            assertThat(Spacing.B1.leastMm(volts[i])).isEqualTo(b1[i]);
            assertThat(Spacing.B3.leastMm(volts[i])).isEqualTo(b3[i]);
            assertThat(Spacing.B4.leastMm(volts[i])).isEqualTo(b4[i]);
            assertThat(Spacing.A5.leastMm(volts[i])).isEqualTo(a5[i]);
            assertThat(Spacing.A6.leastMm(volts[i])).isEqualTo(a6[i]);
            assertThat(Spacing.A7.leastMm(volts[i])).isEqualTo(a7[i]);
        }
        assertThat(Spacing.B2.leastMm(12)).isEqualTo(0.1);
        assertThat(Spacing.B2.leastMm(31)).isEqualTo(0.6);
        assertThat(Spacing.B2.leastMm(-31)).isEqualTo(0.6);
        assertThat(Spacing.B2.leastMm(600)).isCloseTo(3.0, within(1e-12));
        assertThat(Spacing.powerRuleMm(100)).isCloseTo(1.1, within(1e-12));
        assertThat(Spacing.powerRuleMm(300)).isCloseTo(2.1, within(1e-12));
    }

    @Test
    void shouldRefuseMains() {
        // needs.md L6: above 60 V direct or 30 V alternating
        assertThat(Spacing.refused(60, false)).isFalse();
        assertThat(Spacing.refused(60.1, false)).isTrue();
        assertThat(Spacing.refused(30, true)).isFalse();
        assertThat(Spacing.refused(230, true)).isTrue();
        assertThat(Spacing.refused(-61, false)).isTrue();
    }

    @Test
    void shouldGiveSheetResistanceAndItsTemperature() {
        // rows M7-M9 (IEC 60028), milliohm per square at 20 C
        double[] um = {17.1, 17.4, 34.3, 34.8, 35, 69.6};
        double[] milliohm = {1.00827, 0.99088, 0.50266, 0.49544, 0.49261, 0.24772};
        for (int i = 0; i < um.length; i++) {
            assertThat(CopperMetal.sheetOhm(um[i] / 1000, 20) * 1000).isCloseTo(milliohm[i], within(1e-5));
        }
        assertThat(CopperMetal.factorAt(0)).isCloseTo(0.9214, PRINTED);
        assertThat(CopperMetal.factorAt(25)).isCloseTo(1.0197, PRINTED);
        assertThat(CopperMetal.factorAt(60)).isCloseTo(1.1572, PRINTED);
        assertThat(CopperMetal.factorAt(100)).isCloseTo(1.3144, PRINTED);
        // row R1: 100 mm x 0.254 mm
        double squares = 100 / 0.254;
        assertThat(squares * CopperMetal.sheetOhm(0.0348, 20)).isCloseTo(0.195056, within(5e-7));
        assertThat(squares * CopperMetal.sheetOhm(0.0348, 45)).isCloseTo(0.214220, within(1e-6));
        assertThat(squares * CopperMetal.sheetOhm(0.0348, 100)).isCloseTo(0.256381, within(1e-6));
        assertThat(squares * CopperMetal.sheetOhm(0.0174, 20)).isCloseTo(0.390112, within(1e-6));
    }

    @Test
    void shouldMeasureTheSectionAsMilled() {
        // rows Q9 and R11: trapezium against rectangle
        assertThat(new TraceSection(0.84641, 0.86506, 0.0348).areaMm2()).isCloseTo(0.029780, within(5e-7));
        double bottom = 0.254 + 2 * 0.0348 * Math.tan(Math.toRadians(15));
        assertThat(bottom).isCloseTo(0.272649, within(5e-7));
        double ratio = new TraceSection(0.254, bottom, 0.0348).areaMm2() / (0.254 * 0.0348);
        assertThat(ratio).isCloseTo(1.036711, within(5e-7));
    }

    @Test
    void shouldTellWhatSolderAdds() {
        // rows S1, S2, S3, S4, S5
        assertThat(Solder.SN63PB37.timesCopper()).isCloseTo(8.41, within(0.005));
        assertThat(Solder.SN60PB40.timesCopper()).isCloseTo(8.87, within(0.005));
        assertThat(Solder.SAC305.timesCopper()).isCloseTo(7.66, within(0.005));
        assertThat(Solder.SN99CU1.timesCopper()).isCloseTo(7.31, within(0.005));
        assertThat(Solder.SN63PB37.asCopperMm(0.1) * 1000).isCloseTo(11.89, within(0.005));
        assertThat(Solder.SN60PB40.asCopperMm(0.1) * 1000).isCloseTo(11.27, within(0.005));
        assertThat(Solder.SAC305.asCopperMm(0.1) * 1000).isCloseTo(13.06, within(0.005));
        assertThat(Solder.SN99CU1.asCopperMm(0.1) * 1000).isCloseTo(13.68, within(0.005));
        assertThat(Solder.SN63PB37.floodedFactor(0.0174, 0.1)).isCloseTo(0.594047, within(1e-6));
        assertThat(Solder.SN63PB37.floodedFactor(0.0174, 0.25)).isCloseTo(0.369219, within(1e-6));
        assertThat(Solder.SN63PB37.floodedFactor(0.0174, 0.5)).isCloseTo(0.226406, within(1e-6));
        assertThat(Solder.SN63PB37.floodedFactor(0.0348, 0.1)).isCloseTo(0.745332, within(1e-6));
        assertThat(Solder.SN63PB37.floodedFactor(0.0348, 0.25)).isCloseTo(0.539313, within(1e-6));
        assertThat(Solder.SN63PB37.floodedFactor(0.0348, 0.5)).isCloseTo(0.369219, within(1e-6));
        assertThat(Solder.SAC305.floodedFactor(0.0348, 0.25)).isCloseTo(0.515906, within(1e-6));
        // needs.md J6: 0.3 mm of Sn63 is about 36 um of copper, 3.1 times the section of half-ounce foil
        TraceSection body = new TraceSection(2.2, 2.2, 0.0174);
        assertThat(body.floodedAreaMm2(Solder.SN63PB37, 0.3) / body.areaMm2()).isCloseTo(3.05, within(0.05));
    }

    @Test
    void shouldNeedTwiceTheWidthInHalfTheFoil() {
        // row S10 (by I10: only the section counts): a track wide enough in one-ounce foil has half the width that the
        // same current needs in half-ounce foil; 0.25 mm of Sn63 takes its resistance to 0.369
        double oneOunce = 1.37 * THOU;
        double halfOunce = 0.685 * THOU;
        double width = TemperatureRise.widthMm(TemperatureRise.EXTERNAL, 5, 10, oneOunce);
        assertThat(width / THOU).isCloseTo(109.51, within(0.01));
        assertThat(TemperatureRise.widthMm(TemperatureRise.EXTERNAL, 5, 10, halfOunce))
                .isCloseTo(2 * width, within(1e-9));
        assertThat(TemperatureRise.riseK(TemperatureRise.EXTERNAL, 5, width * halfOunce))
                .as("cut in half the foil, by dT ~ A^(-0.725 / 0.44): 3.13 times as warm")
                .isCloseTo(31.33, within(0.05));
        assertThat(Solder.SN63PB37.floodedFactor(0.0174, 0.25)).isCloseTo(0.369, within(5e-4));
    }

    @Test
    void shouldBoundFusingCurrents() {
        // rows S6, S7 (circular mils are mm2 here), S8, S9; the trap of S6, 234 - Ta, would give 178
        double area = 2581 * Math.PI / 4 * THOU * THOU;
        assertThat(Fusing.onderdonkA(area, 5, 25)).isCloseTo(168.864, within(1e-3));
        assertThat(Fusing.onderdonkA(10 * 0.685 * THOU * THOU, 1, 25)).isCloseTo(1.276, within(5e-4));
        assertThat(Fusing.onderdonkA(10 * 0.685 * THOU * THOU, 0.1, 25)).isCloseTo(4.035, within(5e-4));
        assertThat(Fusing.onderdonkA(50 * 1.37 * THOU * THOU, 1, 25)).isCloseTo(12.760, within(5e-4));
        assertThat(Fusing.preeceA(0.0524 * 25.4)).isCloseTo(122.876, within(1e-3));
    }
}
