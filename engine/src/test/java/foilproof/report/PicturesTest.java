package foilproof.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.List;
import java.util.Random;
import java.util.zip.InflaterInputStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

class PicturesTest {
    @Test
    void shouldPackWhatAnotherUnpackerUnpacks() throws Exception {
        long seed = 42;
        Random random = new Random(seed);
        for (int round = 0; round < 60; round++) {
            byte[] data = new byte[random.nextInt(round < 50 ? 3000 : 200_000)];
            int alphabet = 1 + random.nextInt(round % 5 == 0 ? 256 : 4);
            for (int i = 0; i < data.length; i++) {
                data[i] = i > 300 && random.nextInt(3) > 0
                        ? data[i - 1 - random.nextInt(300)]
                        : (byte) random.nextInt(alphabet);
            }
            byte[] back = new InflaterInputStream(new ByteArrayInputStream(Deflate.zlib(data))).readAllBytes();
            assertThat(back).as("seed %d, round %d", seed, round).isEqualTo(data);
        }
        assertThat(Deflate.zlib(new byte[1_000_000]).length).isLessThan(10_000);
    }

    @Test
    void shouldWritePixelsThatAnotherReaderReadsWithPaletteAndWithTrueColour() throws Exception {
        for (int colours : new int[] {2, 256, 5000}) {
            int[] rgb = new int[120 * 77];
            Random random = new Random(7);
            for (int i = 0; i < rgb.length; i++) {
                rgb[i] = 0x9e3779 * random.nextInt(colours) & 0xffffff;
            }
            BufferedImage image = ImageIO.read(new ByteArrayInputStream(PngWriter.write(120, 77, rgb, 0.01)));
            for (int i = 0; i < rgb.length; i++) {
                assertThat(image.getRGB(i % 120, i / 120) & 0xffffff).isEqualTo(rgb[i]);
            }
        }
    }

    @Test
    void shouldShowThePictureUnscaledWithAScaleBarOfARoundLength() throws Exception {
        FlatPicture picture = new FlatPicture(
                "side-1-copper",
                "Side 1, copper at the foil bottom",
                400,
                300,
                0.1,
                (y, rgb) -> java.util.Arrays.fill(rgb, y < 150 ? 0xb87333 : 0xd8c8a0),
                List.of(new FlatPicture.Legend(0xb87333, "copper"), new FlatPicture.Legend(0xd8c8a0, "substrate")),
                List.of(new FlatPicture.Label(10, 10, "V1 (3.0, 4.5) mm")));
        BufferedImage sheet = ImageIO.read(new ByteArrayInputStream(PictureSheet.png(picture)));
        int copper = 0;
        int substrate = 0;
        for (int y = 0; y < sheet.getHeight(); y++) {
            for (int x = 0; x < sheet.getWidth(); x++) {
                int rgb = sheet.getRGB(x, y) & 0xffffff;
                copper += rgb == 0xb87333 ? 1 : 0;
                substrate += rgb == 0xd8c8a0 ? 1 : 0;
            }
        }
        assertThat(substrate).isBetween(400 * 150, 400 * 150 + 300);
        assertThat(copper).isBetween(400 * 150 - 3000, 400 * 150 + 300);
        assertThat(PictureSheet.barMm(40)).isEqualTo(10);
        assertThat(PictureSheet.barMm(7)).isEqualTo(2);
    }

    @Test
    void shouldRefusePicturesThatNoMemoryHolds() {
        assertThatThrownBy(() -> new FlatPicture("a", "a", 100_000, 100_000, 0.1, (y, rgb) -> {}, List.of(), List.of()))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
