package foilproof.design;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Images of very many flashes: pads by place agree with the whole list. */
class MillionFlashesTest {
    @Test
    void shouldFindTheSamePadsByPlaceAsInTheWholeList() throws InputException {
        long seed = 11;
        Random dice = new Random(seed);
        StringBuilder t = new StringBuilder("%FSLAX46Y46*%\n%MOMM*%\n%ADD10C,0.3*%\n%ADD11R,2.0X0.4*%\n%ADD12C,30*%\n");
        for (int k = 0; k < 3000; k++) {
            t.append('D').append(k == 7 ? 12 : 10 + k % 2).append("*\nX");
            t.append((int) (50e6 * dice.nextDouble())).append('Y').append((int) (40e6 * dice.nextDouble()));
            t.append("D03*\n");
        }
        LayerImage image = DesignReader.readLayer(SourceFile.ofText("many.gbr", t + "M02*\n"), InputLimits.DEFAULT)
                .value();
        for (int k = 0; k < 500; k++) {
            double x = 60 * dice.nextDouble() - 5;
            double y = 50 * dice.nextDouble() - 5;
            double reach = dice.nextInt(3) * 0.5 * dice.nextDouble();
            List<Pad> near = image.pads().stream()
                    .filter(p -> x >= p.bounds().minXMm() - reach
                            && x <= p.bounds().maxXMm() + reach
                            && y >= p.bounds().minYMm() - reach
                            && y <= p.bounds().maxYMm() + reach)
                    .toList();
            assertThat(image.padsNear(x, y, reach))
                    .as("seed %d, place %d", seed, k)
                    .isEqualTo(near);
        }
    }
}
