package foilproof.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Random jobs and random damage; every failure names its seed, and the seed alone replays it. */
class JobReaderPropertiesTest {
    private static final long SEED = 20_261_125L;

    private static String everyKey() throws Exception {
        try (InputStream in = JobReaderPropertiesTest.class.getResourceAsStream("every-key.toml")) {
            if (in == null) {
                throw new AssertionError("every-key.toml is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static MemoryFiles files(byte[] job) {
        return new MemoryFiles()
                .with("job.toml", job)
                .with("shop.toml", "[machine]\nmax_feed = \"900 mm/min\"\n")
                .with("isolation.ngc", "G21\nM2\n")
                .with("bottom.gbr", "x")
                .with("holes.drl", "x")
                .with("board.ipc", "x")
                .with("outline.gbr", "x");
    }

    /** Damages any byte of the contract's example: the reader reads it or refuses it at a place, and nothing else. */
    @Test
    @Timeout(value = 5, unit = TimeUnit.MINUTES)
    void shouldReadOrRefuseAnyDamagedJobFileWithAPlace() throws Exception {
        byte[] whole = everyKey().getBytes(StandardCharsets.UTF_8);
        int lines = everyKey().split("\n", -1).length;
        for (int round = 0; round < 400; round++) {
            long seed = SEED + round;
            SplittableRandom random = new SplittableRandom(seed);
            byte[] bytes = whole.clone();
            for (int k = random.nextInt(1, 4); k > 0; k--) {
                int at = random.nextInt(bytes.length);
                bytes[at] = switch (random.nextInt(4)) {
                    case 0 -> (byte) random.nextInt(256);
                    case 1 -> (byte) "[]{}\"'=#\n.,-0".charAt(random.nextInt(13));
                    case 2 -> bytes[random.nextInt(bytes.length)];
                    default -> (byte) ' ';
                };
            }
            try {
                JobReader.read(new JobSource(files(bytes), "job.toml"), ReadOptions.DEFAULT);
            } catch (InputException e) {
                for (Diagnostic d : e.diagnostics()) {
                    assertThat(d.span().file()).as("seed " + seed).isIn("job.toml", "shop.toml");
                    assertThat(d.span().line()).as("seed " + seed).isBetween(0, lines + 1);
                    assertThat(d.render()).as("seed " + seed).isNotBlank();
                }
            } catch (RuntimeException | StackOverflowError e) {
                throw new AssertionError("seed " + seed, e);
            }
        }
    }

    @Test
    void shouldReadTheSameLengthInAnyUnit() throws Exception {
        String[] units = {"mm", "um", "cm", "m", "in", "thou"};
        double[] unitMm = {1, 0.001, 10, 1000, 25.4, 0.0254};
        for (int round = 0; round < 60; round++) {
            long seed = SEED + round;
            SplittableRandom random = new SplittableRandom(seed);
            int unit = random.nextInt(units.length);
            double wantedMm = random.nextInt(1_000, 200_000) / 1000.0;
            String number = new BigDecimal(wantedMm / unitMm[unit])
                    .setScale(9, java.math.RoundingMode.HALF_EVEN)
                    .toPlainString();
            String job = String.format(
                    Locale.ROOT,
                    "[blank]\nwidth = \"%s %s\"\nheight = \"300 mm\"\n[[side]]\n[[side.program]]\nfile = \"isolation.ngc\"\n",
                    number,
                    units[unit]);
            Job read = JobReader.read(
                    new JobSource(files(job.getBytes(StandardCharsets.UTF_8)), "job.toml"), ReadOptions.DEFAULT);
            assertThat(read.blank().widthMm()).as("seed " + seed).isCloseTo(wantedMm, within(1e-5));
        }
    }

    /** Whatever is set says the same as if it stood in the file. */
    @Test
    void shouldSetAValueJustAsIfItStoodInTheFile() throws Exception {
        String[][] settings = {
            {"blank.thickness", "thickness = \"1.5 mm\""},
            {"blank.tape", "tape = \"0.1 mm\""},
            {"blank.width", "width = \"60 mm\""},
            {"tool.engraver.tip_width", "tip_width = \"0.10 mm\""},
            {"tool.cutter.diameter", "diameter = \"1/32 in\""},
            {"machine.repeatability", "repeatability = \"0.02 mm\""},
            {"spread.z_touch", "z_touch = \"0.03 mm\""},
            {"limits.trace_width", "trace_width = \"0.25 mm\""}
        };
        for (int round = 0; round < 40; round++) {
            long seed = SEED + round;
            SplittableRandom random = new SplittableRandom(seed);
            String text = everyKey();
            List<String> set = new ArrayList<>();
            for (String[] s : settings) {
                if (random.nextBoolean()) {
                    String value = String.format(
                            Locale.ROOT,
                            "%.3f mm",
                            random.nextDouble(0.2, 0.9) + (s[0].equals("blank.width") ? 59 : 0));
                    set.add(s[0] + "=" + value);
                    text = text.replace(s[1], s[1].substring(0, s[1].indexOf('=') + 1) + " \"" + value + "\"");
                }
            }
            Job file = JobReader.read(
                    new JobSource(files(text.getBytes(StandardCharsets.UTF_8)), "job.toml"), ReadOptions.DEFAULT);
            Job line = JobReader.read(
                    new JobSource(files(everyKey().getBytes(StandardCharsets.UTF_8)), "job.toml"),
                    ReadOptions.DEFAULT.withSettings(set));
            assertThat(line.blank()).as("seed " + seed).isEqualTo(file.blank());
            assertThat(line.tools()).as("seed " + seed).isEqualTo(file.tools());
            assertThat(line.machine()).as("seed " + seed).isEqualTo(file.machine());
            assertThat(line.spread()).as("seed " + seed).isEqualTo(file.spread());
            assertThat(line.limits().changed())
                    .as("seed " + seed)
                    .isEqualTo(file.limits().changed());
        }
    }
}
