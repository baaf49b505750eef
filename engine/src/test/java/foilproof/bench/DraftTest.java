package foilproof.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.source.InputException;
import foilproof.source.InputLimits;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DraftTest {
    private static final String ISOLATION =
            "(isolation, V-shaped 30 deg tip 0.12)\nG21 G90 G17\nT1 M6\nG0 X0 Y0 Z2\nG1 Z-0.1 F90\nG1 X30 F300\nG1 Y20\nG1 X0\nG1 Y0\nG0 Z2\nM2\n";
    private static final String OUTLINE =
            "G21 G90 G17\n(end mill 1/32 in)\nT2 M6\nG0 X-2 Y-2 Z2\nG1 Z-1.7 F90\nG1 X32\nG1 Y22\nG1 X-2\nG1 Y-2\nG0 Z2\nM2\n";

    private static Job read(MemoryFiles files, String text) throws InputException {
        return JobReader.read(new JobSource(files.with("job.toml", text), "job.toml"), ReadOptions.DEFAULT);
    }

    @Test
    void shouldDraftAJobThatReadsAndHoldsWhatTheProgramsCut() throws Exception {
        MemoryFiles files = new MemoryFiles().with("b-outline.ngc", OUTLINE).with("z-isolation.ngc", ISOLATION);
        String text = Draft.text(files, "lamp", InputLimits.DEFAULT);
        Job job = read(files, text);
        assertThat(job.blank().widthMm()).isEqualTo(34 + 10);
        assertThat(job.blank().heightMm()).isEqualTo(24 + 10);
        assertThat(job.blank().thicknessKnown()).isFalse();
        Side side = job.sides().get(0);
        assertThat(side.workZeroMm()).isEqualTo(new XyMm(7, 7));
        assertThat(side.programs()).extracting(ProgramEntry::file).containsExactly("z-isolation.ngc", "b-outline.ngc");
        assertThat(side.programs()).extracting(ProgramEntry::work).containsExactly(Work.ISOLATION, Work.OUTLINE);
        Tool engraver = job.toolNumbered(1);
        assertThat(engraver.shape()).isEqualTo(ToolShape.V);
        assertThat(engraver.tipWidthMm()).hasValue(0.12);
        assertThat(job.toolNumbered(2).diameterMm()).isCloseTo(0.79375, within(1e-9));
    }

    @Test
    void shouldMarkEveryGuess() throws Exception {
        MemoryFiles files = new MemoryFiles().with("a.nc", ISOLATION);
        String text = Draft.text(files, "lamp", InputLimits.DEFAULT);
        List<String> facts = List.of("number", "file", "job");
        assertThat(text.lines().filter(l -> l.contains(" = ") && !l.strip().startsWith("#")))
                .allMatch(
                        l -> l.contains("# guess: ") || facts.contains(l.strip().split(" ", 2)[0]));
    }

    @Test
    void shouldFindTheDesignAndPlaceItOverWhatIsCut() throws Exception {
        MemoryFiles files = new MemoryFiles()
                .with("a.nc", ISOLATION)
                .with(
                        "x.gbr",
                        "%TF.FileFunction,Copper,L2,Bot*%\n%FSLAX46Y46*%\n%MOMM*%\nX0Y0D02*\nX30000000Y20000000D01*\nM02*\n")
                .with("holes.drl", "M48\nMETRIC\nT1C0.8\n%\nT1\nX1.0Y2.0\nM30\n")
                .with(
                        "n.ipc",
                        "P  UNITS CUST 1\n317NET1             J1    -1    D0800PA00X+001000Y+002000X1600Y0000R000 S0\n999\n");
        Job job = read(files, Draft.text(files, "lamp", InputLimits.DEFAULT));
        DesignFiles design = job.design();
        assertThat(design).isNotNull();
        assertThat(design.bottomCopper()).isNotNull();
        assertThat(design.drill()).isNotNull();
        assertThat(design.netlist()).isNotNull();
        assertThat(design.placedAtMm()).isEqualTo(new XyMm(5, 5));
    }

    @Test
    void shouldMakeTwoSidesOfProgramsForBothFaces() throws Exception {
        MemoryFiles files = new MemoryFiles().with("top.ngc", ISOLATION).with("bottom.ngc", ISOLATION);
        Job job = read(files, Draft.text(files, "lamp", InputLimits.DEFAULT));
        assertThat(job.sides()).extracting(Side::face).containsExactly(Face.BOTTOM, Face.TOP);
        assertThat(job.sides().get(1).turned()).isEqualTo(Turn.ABOUT_Y);
        assertThat(job.blank().bothSides()).isTrue();
    }

    @Test
    void shouldNeverOverwriteAJobFile(@TempDir Path folder) throws Exception {
        Files.writeString(folder.resolve("a.ngc"), ISOLATION, StandardCharsets.UTF_8);
        Path written = Draft.writeInto(folder, InputLimits.DEFAULT);
        String before = Files.readString(written);
        assertThat(before).contains("guess");
        assertThatThrownBy(() -> Draft.writeInto(folder, InputLimits.DEFAULT))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("never overwrites");
        assertThat(Files.readString(written)).isEqualTo(before);
        try (var left = Files.list(folder)) {
            assertThat(left.map(p -> p.getFileName().toString())).containsExactlyInAnyOrder("a.ngc", "job.toml");
        }
    }

    @Test
    void shouldRefuseAFolderWithoutAProgram(@TempDir Path folder) {
        assertThatThrownBy(() -> Draft.text(new MemoryFiles().with("readme.txt", "hello"), "x", InputLimits.DEFAULT))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> Draft.writeInto(folder.resolve("none"), InputLimits.DEFAULT))
                .isInstanceOf(InputException.class);
    }

    @Test
    void shouldPutABareProgramOnABenchAndSayWhatWasAssumed() throws Exception {
        MemoryFiles files = new MemoryFiles().with("a.ngc", ISOLATION);
        Job job = JobReader.read(
                new JobSource(files, "a.ngc"),
                ReadOptions.DEFAULT.withSettings(List.of("tool.T1.tip_width=0.2 mm", "blank.foil=1 oz")));
        assertThat(job.blank().sizeKnown()).isFalse();
        assertThat(job.blank().widthMm()).isEqualTo(40);
        assertThat(job.blank().foilMm()).isCloseTo(0.0348, within(1e-12));
        assertThat(job.sides().get(0).workZeroMm()).isEqualTo(new XyMm(5, 5));
        assertThat(job.tools().get(0).tipWidthMm()).hasValue(0.2);
        assertThat(job.assumed().get(0)).isEqualTo("no job file: the program runs on a default bench");
        assertThat(job.assumed()).anyMatch(s -> s.startsWith("tool T1: V, included angle 30 deg, tip width 0.12 mm"));
        assertThat(job.inputs()).hasSize(1);
    }

    @Test
    void shouldRunAnyRubbishAsABareProgram() throws Exception {
        for (byte[] rubbish : List.of(
                new byte[0], new byte[] {0, (byte) 0xFF, 'G', '1'}, "G1 X9\nX\"\n".getBytes(StandardCharsets.UTF_8))) {
            MemoryFiles files = new MemoryFiles().with("we \"ird.ngc", rubbish);
            Job job = JobReader.read(new JobSource(files, "we \"ird.ngc"), ReadOptions.DEFAULT);
            assertThat(job.sides().get(0).programs()).hasSize(1);
        }
    }
}
