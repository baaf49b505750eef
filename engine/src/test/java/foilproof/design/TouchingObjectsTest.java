package foilproof.design;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Check value F15 (Gerber Layer Format 2021.02, 4.14.2): a reader may move points by half a micrometre, so objects that
 * overlap or miss each other by less than 1 um deserve a word. Distances by elementary geometry.
 */
class TouchingObjectsTest {
    private static final String HEAD = "%FSLAX46Y46*%\n%MOMM*%\n%ADD10R,1X1*%\n%ADD11C,1*%\n%ADD12C,0.2*%\n";

    private static List<Diagnostic> told(String body) throws InputException {
        return DesignReader.readLayer(SourceFile.ofText("a.gbr", HEAD + body + "M02*\n"), InputLimits.DEFAULT)
                .warnings()
                .stream()
                .filter(d -> d.code().equals("layer-touch"))
                .toList();
    }

    private static String flash(int aperture, double x, double y) {
        return String.format(Locale.ROOT, "D%d*\nX%dY%dD03*\n", aperture, Math.round(x * 1e6), Math.round(y * 1e6));
    }

    private static void fires(double overlapUm, double ux, double uy, int aperture) throws InputException {
        double d = 1 - overlapUm / 1000;
        for (int way = 0; way < 2; way++) {
            int s = way == 0 ? 1 : -1;
            String body = flash(aperture, 0.3, 0.2) + flash(aperture, 0.3 + s * d * ux, 0.2 + s * d * uy);
            assertThat(told(body))
                    .as("%.2f um along %.2f, %.2f", overlapUm, ux, uy)
                    .hasSize(1);
        }
    }

    private static void silent(double overlapUm, double ux, double uy, int aperture) throws InputException {
        double d = 1 - overlapUm / 1000;
        String body = flash(aperture, 0.3, 0.2) + flash(aperture, 0.3 + d * ux, 0.2 + d * uy);
        assertThat(told(body)).as("%.2f um along %.2f, %.2f", overlapUm, ux, uy).isEmpty();
    }

    @Test
    void shouldTellSquaresThatOnlyMeetAlongAnEdge() throws InputException {
        for (double overlap : new double[] {0, 0.5, 0.9, -0.5, -0.9}) {
            fires(overlap, 1, 0, 10);
            fires(overlap, 0, 1, 10);
        }
        for (double overlap : new double[] {1.1, 5, -1.1, -50}) {
            silent(overlap, 1, 0, 10);
            silent(overlap, 0, 1, 10);
        }
    }

    @Test
    void shouldTellDiscsThatOnlyMeetAtAnyAngle() throws InputException {
        Random dice = new Random(15);
        for (int k = 0; k < 40; k++) {
            double a = 2 * Math.PI * dice.nextDouble();
            double ux = StrictMath.cos(a);
            double uy = StrictMath.sin(a);
            fires(0.9 * (2 * dice.nextDouble() - 1), ux, uy, 11);
            silent(1.2 + 5 * dice.nextDouble(), ux, uy, 11);
            silent(-1.2 - 5 * dice.nextDouble(), ux, uy, 11);
        }
    }

    @Test
    void shouldTellSquaresThatMeetInACorner() throws InputException {
        assertThat(told(flash(10, 0, 0) + flash(10, 1, 1))).hasSize(1);
        assertThat(told(flash(10, 0, 0) + flash(10, -1, 1))).hasSize(1);
        assertThat(told(flash(10, 0, 0) + flash(10, 0.99, 0.99))).isEmpty();
        assertThat(told(flash(10, 0, 0) + flash(10, 1.01, 1.01))).isEmpty();
    }

    @Test
    void shouldNameBothLines() throws InputException {
        Diagnostic d = told(flash(10, 0, 0) + flash(10, 1, 0)).get(0);
        assertThat(d.span().line()).isEqualTo(9);
        assertThat(d.message()).contains("line 7");
    }

    @Test
    void shouldNotMindWhereSomethingElseJoinsTheTwo() throws InputException {
        String stroke = "D12*\nX0Y0D02*\nX1000000D01*\n";
        assertThat(told(flash(10, 0, 0) + flash(10, 1, 0) + stroke)).isEmpty();
    }

    @Test
    void shouldNotMindWhereTheMeetingPlaceIsCleared() throws InputException {
        String cleared = "%LPC*%\nD12*\nX500000Y-600000D02*\nY600000D01*\n%LPD*%\n";
        assertThat(told(flash(10, 0, 0) + flash(10, 1, 0) + cleared)).isEmpty();
    }

    @Test
    void shouldNotMindTracesThatEndInTheirPads() throws InputException {
        // the own minimal file (F16) and a trace that turns
        assertThat(told(flash(10, 0, 0)
                        + flash(11, 10, 0)
                        + "D12*\nX0Y0D02*\nX5000000D01*\nY2000000D01*\nX10000000Y0D01*\n"))
                .isEmpty();
    }
}
