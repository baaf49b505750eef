package foilproof.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceFile;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The job file's contract, key by key; "every-key.toml" is the contract's own example. */
class JobReaderTest {
    private static final String SMALL = """
            job = "small"
            [blank]
            width = "60 mm"
            height = "40 mm"
            [[tool]]
            name = "engraver"
            number = 1
            shape = "V"
            included_angle = "30 deg"
            tip_width = "0.10 mm"
            [[side]]
            face = "bottom"
            [[side.program]]
            file = "a.ngc"
            tool = "engraver"
            """;

    private static MemoryFiles files(String job) {
        return new MemoryFiles()
                .with("job.toml", job)
                .with("a.ngc", "G21\nM2\n")
                .with("b.ngc", "G21\nM2\n");
    }

    private static Job read(String job) throws InputException {
        return JobReader.read(new JobSource(files(job), "job.toml"), ReadOptions.DEFAULT);
    }

    private static Job readSet(String... settings) throws InputException {
        return JobReader.read(
                new JobSource(files(SMALL), "job.toml"), ReadOptions.DEFAULT.withSettings(List.of(settings)));
    }

    private static List<Diagnostic> problems(String job) {
        try {
            read(job);
        } catch (InputException e) {
            return e.diagnostics();
        }
        throw new AssertionError("the job was accepted:\n" + job);
    }

    private static Diagnostic problem(String job) {
        List<Diagnostic> all = problems(job);
        assertThat(all)
                .as(() -> all.stream().map(Diagnostic::render).toList().toString())
                .hasSize(1);
        return all.get(0);
    }

    private static String everyKey() throws Exception {
        try (InputStream in = JobReaderTest.class.getResourceAsStream("every-key.toml")) {
            if (in == null) {
                throw new AssertionError("every-key.toml is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static Job everyKeyJob() throws Exception {
        MemoryFiles files = new MemoryFiles()
                .with("job.toml", everyKey())
                .with("shop.toml", "[machine]\nmax_feed = \"900 mm/min\"\n[limits]\nhair_width = \"0.06 mm\"\n")
                .with("isolation.ngc", "G21\nM2\n")
                .with("bottom.gbr", "x")
                .with("holes.drl", "x")
                .with("board.ipc", "x")
                .with("outline.gbr", "x");
        return JobReader.read(new JobSource(files, "job.toml"), ReadOptions.DEFAULT);
    }

    @Test
    void shouldReadBlankMachineAndSpreadOfTheContractsExample() throws Exception {
        Job job = everyKeyJob();
        assertThat(job.name()).isEqualTo("Soil probe front end");
        Blank blank = job.blank();
        assertThat(blank.substrate()).isEqualTo(Substrate.FR_1);
        assertThat(blank.thicknessMm()).isEqualTo(1.5);
        assertThat(blank.thicknessKnown()).isTrue();
        assertThat(blank.foilMm()).isCloseTo(0.0174, within(1e-12));
        assertThat(blank.foilKnown()).isTrue();
        assertThat(blank.bothSides()).isFalse();
        assertThat(blank.widthMm()).isEqualTo(60);
        assertThat(blank.heightMm()).isEqualTo(40);
        assertThat(blank.hold()).isEqualTo(Hold.FULL_TAPE);
        assertThat(blank.tapeMm()).isEqualTo(0.1);
        assertThat(blank.surface().flat()).isTrue();
        assertThat(job.spoilBoard().thicknessMm()).hasValue(6);
        Machine m = job.machine();
        assertThat(m.travelMm()).isEqualTo(new XyzMm(160, 100, 45));
        assertThat(m.blankAtMm()).isEqualTo(new XyzMm(10, 10, -38));
        assertThat(m.language()).isEqualTo(Machine.Language.COMMON);
        assertThat(m.units()).isEqualTo(Machine.Units.UNKNOWN);
        assertThat(m.dwell()).isEqualTo(Machine.Dwell.SECONDS);
        assertThat(m.blockDelete()).isFalse();
        assertThat(m.onToolChange()).isEqualTo(Machine.OnToolChange.STOP);
        assertThat(m.appliesHeightMap()).isFalse();
        assertThat(m.cornerDeviationMm()).isEqualTo(0.01);
        assertThat(m.maxFeedMmPerMin())
                .as("the job's own key wins over the shop's")
                .hasValue(1200);
        assertThat(m.rapidMmPerMin()).isEqualTo(new Machine.AxisFeeds(2500, 2500, 1000));
        assertThat(m.accelerationMmPerS2()).isEqualTo(250);
        assertThat(m.spindleMinRpm()).hasValue(8000);
        assertThat(m.spindleMaxRpm()).hasValue(24000);
        assertThat(m.backlashMm()).isEqualTo(new XyMm(0.04, 0.04));
        assertThat(m.repeatabilityMm()).isEqualTo(0.02);
        assertThat(m.colletNut()).isEqualTo(new Machine.ColletNut(16, 18));
        assertThat(m.toolChangeS()).isEqualTo(120);
        assertThat(m.extraction()).isTrue();
        assertThat(job.spread()).isEqualTo(new Spread(0.03, 0.05, null, Map.of(), 0.05));
        assertThat(job.spread().zErrorMm("engraver", 60)).isEqualTo(new IntervalMm(-(0.03 + 0.05 * 60 / 100), 0.03));
    }

    @Test
    void shouldReadToolsSidesAndDesignOfTheContractsExample() throws Exception {
        Job job = everyKeyJob();
        Tool engraver = job.tools().get(0);
        assertThat(engraver.number()).isEqualTo(OptionalInt.of(1));
        assertThat(engraver.shape()).isEqualTo(ToolShape.V);
        assertThat(engraver.includedAngleRad()).isCloseTo(Math.PI / 6, within(1e-15));
        assertThat(engraver.tipWidthMm()).hasValue(0.1);
        assertThat(engraver.tipRadiusMm()).isEmpty();
        assertThat(engraver.diameterMm()).isEqualTo(3.175);
        assertThat(engraver.flutes()).hasValue(1);
        assertThat(engraver.fluteLengthMm()).hasValue(6);
        assertThat(engraver.stickOutMm()).hasValue(12);
        assertThat(engraver.runoutMm()).isEqualTo(0.015);
        assertThat(engraver.centreCutting()).isTrue();
        assertThat(engraver.lengthMm()).isEmpty();
        assertThat(engraver.duty()).isEqualTo(Duty.COPPER_ONLY);
        Tool cutter = job.tools().get(1);
        assertThat(cutter.diameterMm()).isEqualTo(0.79375);
        assertThat(cutter.duty()).isEqualTo(Duty.ANY);
        Side side = job.sides().get(0);
        assertThat(side.face()).isEqualTo(Face.BOTTOM);
        assertThat(side.turned()).isEqualTo(Turn.NO);
        assertThat(side.workZeroMm()).isEqualTo(new XyMm(2, 2));
        assertThat(side.zZero()).isEqualTo(ZZero.FOIL);
        assertThat(side.touchOffMm()).isEqualTo(new XyMm(2, 38));
        assertThat(side.probeClipMm()).isEqualTo(new XyMm(58, 38));
        assertThat(side.deburred()).isTrue();
        assertThat(side.pinsMm()).containsExactly(new XyMm(5, 20), new XyMm(55, 20));
        ProgramEntry program = side.programs().get(0);
        assertThat(program.file()).isEqualTo("isolation.ngc");
        assertThat(program.tool()).isEqualTo("engraver");
        assertThat(program.work()).isEqualTo(Work.ISOLATION);
        assertThat(program.workZeroMm()).isEqualTo(side.workZeroMm());
        assertThat(program.retouch()).isTrue();
        assertThat(job.keepOuts()).containsExactly(new KeepOut("left clamp", -20, 10, 3, 30, 8));
        DesignFiles design = job.design();
        assertThat(design).isNotNull();
        assertThat(design.bottomCopper().name()).isEqualTo("bottom.gbr");
        assertThat(design.topCopper()).isNull();
        assertThat(design.drill().name()).isEqualTo("holes.drl");
        assertThat(design.netlist().name()).isEqualTo("board.ipc");
        assertThat(design.outline().name()).isEqualTo("outline.gbr");
        assertThat(design.placedAtMm()).isEqualTo(XyMm.ZERO);
        assertThat(design.finishedSizeMm()).isEqualTo(new XyMm(40, 30));
        assertThat(job.nets()).containsExactly(new Net("VIN", OptionalDouble.of(1.2), OptionalDouble.of(9), false));
        Join join = job.joins().get(0);
        assertThat(join.through()).isTrue();
        assertThat(join.from().atMm()).isEqualTo(new XyMm(12, 8));
        assertThat(join.wireMm()).hasValue(0.6);
        assertThat(job.limits().value(LimitKey.TRACE_WIDTH)).isEqualTo(0.25);
        assertThat(job.limits().value(LimitKey.HAIR_WIDTH))
                .as("from the shop file")
                .isEqualTo(0.06);
    }

    @Test
    void shouldHashEveryFileOnceTheJobFileFirst() throws Exception {
        Job job = everyKeyJob();
        assertThat(job.inputs().stream().map(SourceFile::name))
                .containsExactly(
                        "job.toml",
                        "shop.toml",
                        "isolation.ngc",
                        "bottom.gbr",
                        "holes.drl",
                        "board.ipc",
                        "outline.gbr");
        assertThat(job.inputs().get(3).sha256())
                .as("SHA-256 of the letter x, by coreutils sha256sum")
                .isEqualTo("2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881");
    }

    @Test
    void shouldListEveryDefaultThatASmallJobUses() throws Exception {
        Job job = read(SMALL);
        assertThat(job.assumed())
                .contains("blank.thickness = 1.5 mm, as nothing was stated")
                .contains("machine.acceleration = 250 mm/s2, as nothing was stated")
                .contains("spread.z_touch = 0.03 mm, as nothing was stated")
                .contains("runout 0 mm, as none was stated, for the tools: engraver");
        assertThat(everyKeyAssumed())
                .isEqualTo(List.of(
                        "runout 0 mm, as none was stated, for the tools: cutter",
                        "centre cutting, as nothing was stated, for the flat end mills: cutter"));
    }

    private static List<String> everyKeyAssumed() throws Exception {
        return everyKeyJob().assumed();
    }

    @Test
    void shouldKeepUnknownUnknown() throws Exception {
        Job job = read(
                SMALL.replace("height = \"40 mm\"", "height = \"40 mm\"\nthickness = \"unknown\"\nfoil = \"unknown\"")
                        .replace("tip_width = \"0.10 mm\"", "tip_width = \"unknown\""));
        assertThat(job.blank().thicknessKnown()).isFalse();
        assertThat(job.blank().foilKnown()).isFalse();
        assertThat(job.tools().get(0).tipUnknown()).isTrue();
        assertThat(job.assumed()).anyMatch(line -> line.startsWith("blank.thickness is unknown"));
        assertThat(job.machine().maxFeedMmPerMin()).isEmpty();
        assertThat(job.machine().travelMm()).isNull();
        List<Tool> readings = job.tools().get(0).readings(job.limits());
        assertThat(readings).hasSize(2);
        assertThat(readings.get(0).tipWidthMm()).hasValue(0.10);
        assertThat(readings.get(1).tipRadiusMm()).hasValue(0.127);
    }

    @Test
    void shouldNameTheUnknownKeyWithItsPlaceAndTheNearestWord() {
        Diagnostic d = problem(SMALL.replace("width = \"60 mm\"", "width = \"60 mm\"\n  thikness = \"1.5 mm\""));
        assertThat(d.code()).isEqualTo("unknown-key");
        assertThat(d.span().toString()).isEqualTo("job.toml:4:3");
        assertThat(d.span().endColumn()).isEqualTo(11);
        assertThat(d.nearest()).isEqualTo("thickness");
        assertThat(d.render()).contains("  thikness = \"1.5 mm\"").contains("^^^^^^^^");
    }

    @Test
    void shouldPointAtTheWrongUnitInsideTheString() {
        Diagnostic d = problem(SMALL.replace("width = \"60 mm\"", "width = \"60 mils\""));
        assertThat(d.code()).isEqualTo("bad-quantity");
        assertThat(d.span().toString()).isEqualTo("job.toml:3:13");
        assertThat(d.nearest()).isEqualTo("thou");
    }

    @Test
    void shouldRefuseABareNumberAndSayHowToWriteIt() {
        Diagnostic d = problem(SMALL.replace("width = \"60 mm\"", "width = 60"));
        assertThat(d.code()).isEqualTo("wrong-type");
        assertThat(d.span().toString()).isEqualTo("job.toml:3:9");
        assertThat(d.expected()).contains("\"1.5 mm\"");
    }

    @Test
    void shouldRefuseZeroAndNegativeSizes() {
        for (String bad : List.of("0 mm", "-60 mm")) {
            assertThat(problem(SMALL.replace("\"60 mm\"", "\"" + bad + "\"")).code())
                    .isEqualTo("out-of-range");
        }
        assertThat(problem(SMALL.replace("30 deg", "180 deg")).code()).isEqualTo("out-of-range");
        assertThat(problem(SMALL.replace("\"0.10 mm\"", "\"-0.10 mm\"")).code()).isEqualTo("out-of-range");
    }

    @Test
    void shouldTellAllThatIsWrongAtOnceInTheOrderOfTheFile() {
        List<Diagnostic> all = problems(SMALL.replace("\"60 mm\"", "60")
                .replace("shape = \"V\"", "shape = \"W\"")
                .replace("a.ngc", "c.ngc")
                .replace("tool = \"engraver\"", "tool = \"engravr\""));
        assertThat(all)
                .extracting(Diagnostic::code)
                .contains("wrong-type", "unknown-word", "missing-file", "unknown-tool");
        assertThat(all)
                .isSortedAccordingTo(
                        (a, b) -> Integer.compare(a.span().line(), b.span().line()));
        assertThat(all.get(all.size() - 1).nearest()).isEqualTo("engraver");
        assertThat(all.get(all.size() - 2).nearest()).isEqualTo("a.ngc");
    }

    @Test
    void shouldRefusePathsThatLeaveTheFolderUnlessAllowed() throws Exception {
        String job = SMALL.replace("a.ngc", "../a.ngc");
        assertThat(problem(job).code()).isEqualTo("outside");
        assertThat(problem(SMALL.replace("a.ngc", "sub/../../a.ngc")).code()).isEqualTo("outside");
        assertThat(problem(SMALL.replace("a.ngc", "/etc/hosts")).code()).isEqualTo("outside");
        assertThat(problem(SMALL.replace("a.ngc", "C:\\\\a.ngc")).code()).isEqualTo("outside");
        MemoryFiles files = files(job).with("../a.ngc", "G21\nM2\n");
        ReadOptions allowed = new ReadOptions(true, null, null, List.of(), foilproof.source.InputLimits.DEFAULT);
        assertThat(JobReader.read(new JobSource(files, "job.toml"), allowed)
                        .sides()
                        .get(0)
                        .programs())
                .hasSize(1);
    }

    @Test
    void shouldRefuseFacesThatDisagreeWithTheTurns() throws Exception {
        String second = "[[side]]\nface = \"%s\"\nturned = \"%s\"\n[[side.program]]\nfile = \"b.ngc\"\n";
        Diagnostic d = problem(SMALL + String.format(second, "bottom", "about X"));
        assertThat(d.code()).isEqualTo("face-disagrees");
        assertThat(d.span().toString()).isEqualTo("job.toml:17:8");
        assertThat(d.nearest()).isEqualTo("top");
        assertThat(problem(SMALL + String.format(second, "top", "no")).code()).isEqualTo("face-disagrees");
        assertThat(read(SMALL + String.format(second, "top", "about Y")).sides())
                .hasSize(2);
        assertThat(problem(SMALL.replace("face = \"bottom\"", "face = \"bottom\"\nturned = \"about X\""))
                        .code())
                .isEqualTo("out-of-range");
    }

    @Test
    void shouldRefuseDuplicateNamesAndNumbers() {
        String again = "[[tool]]\nname = \"%s\"\nnumber = %d\nshape = \"flat\"\ndiameter = \"1 mm\"\n";
        Diagnostic name = problem(SMALL + String.format(again, "engraver", 2));
        assertThat(name.code()).isEqualTo("duplicate");
        assertThat(name.span().toString()).isEqualTo("job.toml:17:8");
        assertThat(problem(SMALL + String.format(again, "cutter", 1)).span().line())
                .isEqualTo(18);
    }

    @Test
    void shouldSayWhatIsMissing() {
        assertThat(problem(SMALL.replace("width = \"60 mm\"\n", "")).span().toString())
                .isEqualTo("job.toml:2:1");
        assertThat(problem(SMALL.replace("included_angle = \"30 deg\"\n", "")).message())
                .contains("included_angle");
        assertThat(problems("job = \"x\"\n")).extracting(Diagnostic::code).containsOnly("missing-key");
    }

    @Test
    void shouldReadTouchedPointsAndRefuseThoseThatMakeNoSurface() throws Exception {
        String surface = SMALL.replace("height = \"40 mm\"", "height = \"40 mm\"\nsurface = %s");
        Job job = read(
                String.format(
                        surface,
                        "[[\"0 mm\", \"0 mm\", \"-0.02 mm\"],\n ['60 mm', '0 mm', '0 mm'], # here\n\n ['0 mm', '40 mm', '10 um']]"));
        assertThat(job.blank().surface().touches())
                .containsExactly(new Touch(0, 0, -0.02), new Touch(60, 0, 0), new Touch(0, 40, 0.01));
        assertThat(job.sides().get(0).surface()).isEqualTo(job.blank().surface());
        Diagnostic d = problem(String.format(
                surface,
                "[[\"0 mm\", \"0 mm\", \"0 mm\"],\n  [\"1 mm\", \"0 mils\", \"0 mm\"], [\"0 mm\",\"1 mm\",\"0 mm\"]]"));
        assertThat(d.span().toString()).isEqualTo("job.toml:6:15");
        assertThat(problem(String.format(
                                surface, "[['0 mm','0 mm','0 mm'],['1 mm','1 mm','0 mm'],['2 mm','2 mm','0 mm']]"))
                        .message())
                .contains("one line");
        assertThat(problem(String.format(surface, "[['0 mm','0 mm','0 mm'],['1 mm','1 mm','0 mm']]"))
                        .message())
                .contains("2 points");
        assertThat(problem(
                                String.format(
                                        surface,
                                        "[['0 mm','0 mm','0 mm'],['1 mm','0 mm','0 mm'],['0 mm','0 mm','1 mm'],['0 mm','2 mm','0 mm']]"))
                        .code())
                .isEqualTo("duplicate");
        assertThat(problem(String.format(surface, "\"flatt\"")).nearest()).isEqualTo("flat");
    }

    @Test
    void shouldRefuseRubbishWithAPlaceAndNoStackTrace() {
        assertThat(problem("job = \n").span().toString()).isEqualTo("job.toml:1:7");
        assertThat(problem("job = \"a\"\n[blank]\nwidth = 1,5\n").expected()).contains("1.5 mm");
        assertThat(problem("a = " + "[".repeat(100_000)).code()).isEqualTo("line-too-long");
        assertThat(problem("a = " + "[\n".repeat(1000)).code()).isEqualTo("nesting");
        assertThat(problem("a = " + "9".repeat(1000)).code()).isEqualTo("number-too-long");
        assertThat(problems("\u0000").get(0).code()).isEqualTo("encoding");
        assertThat(problems("blank = nan\n")).extracting(Diagnostic::code).contains("wrong-type");
        for (byte[] bytes : List.of(
                new byte[] {(byte) 0xFF, (byte) 0xFE, 'a', 0},
                new byte[] {'a', ' ', '=', (byte) 0xC3, '\n'},
                new byte[3 * 1024 * 1024])) {
            assertThatThrownBy(() -> JobReader.read(
                            new JobSource(new MemoryFiles().with("job.toml", bytes), "job.toml"), ReadOptions.DEFAULT))
                    .isInstanceOf(InputException.class);
        }
    }

    @Test
    void shouldReadTheSameWithByteOrderMarkAndCarriageReturns() throws Exception {
        Job plain = read(SMALL);
        Job dressed = read("\uFEFF" + SMALL.replace("\n", "\r\n"));
        assertThat(dressed.blank()).isEqualTo(plain.blank());
        assertThat(dressed.tools()).isEqualTo(plain.tools());
        Diagnostic d = problem("\uFEFF" + SMALL.replace("\"60 mm\"", "\"60\"").replace("\n", "\r\n"));
        assertThat(d.span().line()).isEqualTo(3);
    }

    @Test
    void shouldSetEveryKindOfValueFromTheCommandLine() throws Exception {
        Job job = readSet(
                "blank.width=80 mm",
                "blank.foil=\"1 oz\"",
                "machine.block_delete=true",
                "machine.travel=[\"1 mm\", \"2 mm\", \"3 mm\"]",
                "tool.engraver.tip_width=0.13 mm",
                "tool.engraver.flutes=2",
                "tool.engraver.duty=[\"isolation\", \"text\"]",
                "side.1.work_zero=[\"3 mm\", \"4 mm\"]",
                "side.1.program.1.work=text",
                "limits.trace_width=10 thou",
                "spread.z=[\"-0.05 mm\", \"0.03 mm\"]",
                "spread.tool.engraver.z=[\"-0.04 mm\", \"0.02 mm\"]",
                "net.VIN.current=2 A",
                "job=7");
        assertThat(job.blank().widthMm()).isEqualTo(80);
        assertThat(job.blank().foilMm()).isCloseTo(0.0348, within(1e-12));
        assertThat(job.machine().blockDelete()).isTrue();
        assertThat(job.machine().travelMm()).isEqualTo(new XyzMm(1, 2, 3));
        Tool tool = job.tools().get(0);
        assertThat(tool.tipWidthMm()).hasValue(0.13);
        assertThat(tool.flutes()).hasValue(2);
        assertThat(tool.duty().works()).isEqualTo(Set.of(Work.ISOLATION, Work.TEXT));
        assertThat(tool.duty().copperOnly()).isTrue();
        assertThat(job.sides().get(0).workZeroMm()).isEqualTo(new XyMm(3, 4));
        assertThat(job.sides().get(0).programs().get(0).work()).isEqualTo(Work.TEXT);
        assertThat(job.limits().value(LimitKey.TRACE_WIDTH)).isCloseTo(0.254, within(1e-12));
        assertThat(job.spread().zErrorMm("other", 10)).isEqualTo(new IntervalMm(-0.05, 0.03));
        assertThat(job.spread().zErrorMm("engraver", 10)).isEqualTo(new IntervalMm(-0.04, 0.02));
        assertThat(job.nets().get(0).currentA()).hasValue(2);
        assertThat(job.name()).isEqualTo("7");
    }

    @Test
    void shouldLetTheTipThatIsSetReplaceTheOtherKind() throws Exception {
        Tool tool = readSet("tool.engraver.tip_radius=5 thou").tools().get(0);
        assertThat(tool.tipWidthMm()).isEmpty();
        assertThat(tool.tipRadiusMm().getAsDouble()).isCloseTo(0.127, within(1e-12));
    }

    @Test
    void shouldCollectWhatIfsApartFromTheJobsValues() throws Exception {
        Job job = readSet("z_error.engraver=0.05 mm", "bow=80 um", "in_collet.1=engraver", "z_error.engraver=-0.02 mm");
        assertThat(job.whatIf().zErrorMm("engraver")).isEqualTo(-0.02);
        assertThat(job.whatIf().bowMm()).isCloseTo(0.08, within(1e-15));
        assertThat(job.toolInCollet(1)).isEqualTo(job.tools().get(0));
        assertThat(job.whatIf().inCollet()).isEqualTo(Map.of(1, "engraver"));
    }

    @Test
    void shouldRefuseSettingsThatSetNothing() {
        for (String bad : List.of(
                "blank.thikness=1.5 mm",
                "tool.engravr.tip_width=0.1 mm",
                "side.2.face=top",
                "blank.width",
                "=1",
                "blank=3",
                "tool.engraver=3",
                "z_error.engravr=0.1 mm",
                "z_error=0.1 mm",
                "in_collet.x=engraver",
                "limits.trace_widht=1 mm",
                "side.1.program.3.work=text",
                "blank.width=",
                "bow=1",
                "machine.travel=[1,2",
                "in_collet.1=nobody",
                "tool=1")) {
            assertThatThrownBy(() -> readSet(bad))
                    .as(bad)
                    .isInstanceOf(InputException.class)
                    .satisfies(e -> assertThat(((InputException) e)
                                    .diagnostics()
                                    .get(0)
                                    .span()
                                    .file())
                            .startsWith("--set"));
        }
    }

    @Test
    void shouldMergeTheShopFileKeyByKeyAndToolsByName() throws Exception {
        String shop = """
                [machine]
                max_feed = "900 mm/min"
                extraction = true
                [spread]
                z = ["-0.1 mm", "0.1 mm"]
                tool.spare.z = ["-0.2 mm", "0.2 mm"]
                [limits]
                trace_width = "0.3 mm"
                [[tool]]
                name = "engraver"
                number = 5
                tip_radius = "0.1 mm"
                runout = "0.02 mm"
                [[tool]]
                name = "cutter"
                number = 1
                shape = "flat"
                diameter = "1/32 in"
                """;
        MemoryFiles files = files("shop = \"shop.toml\"\n" + SMALL
                        + "[spread]\nbow = \"0.1 mm\"\n[limits]\nhair_width = \"0.04 mm\"\n")
                .with("shop.toml", shop);
        Job job = JobReader.read(new JobSource(files, "job.toml"), ReadOptions.DEFAULT);
        assertThat(job.machine().maxFeedMmPerMin()).hasValue(900);
        assertThat(job.machine().extraction()).isTrue();
        assertThat(job.limits().changed()).isEqualTo(Map.of(LimitKey.TRACE_WIDTH, 0.3, LimitKey.HAIR_WIDTH, 0.04));
        Tool engraver = job.tools().get(0);
        assertThat(engraver.number()).hasValue(1);
        assertThat(engraver.tipWidthMm()).as("the job's tip wins whole").hasValue(0.1);
        assertThat(engraver.tipRadiusMm()).isEmpty();
        assertThat(engraver.runoutMm()).isEqualTo(0.02);
        assertThat(job.tools().get(1).name()).isEqualTo("cutter");
        assertThat(job.tools().get(1).number())
                .as("the job's own tool keeps number 1")
                .isEmpty();
        assertThat(job.spread().zMm()).as("the job says its bow itself").isNull();
        assertThat(job.spread().toolZMm()).containsKey("spare");
        Job set = JobReader.read(
                new JobSource(files, "job.toml"),
                ReadOptions.DEFAULT.withSettings(List.of("tool.cutter.runout=0.03 mm", "machine.max_feed=800 mm/min")));
        assertThat(set.tools().get(1).runoutMm()).isEqualTo(0.03);
        assertThat(set.machine().maxFeedMmPerMin()).hasValue(800);
    }

    @Test
    void shouldUseTheUsersShopFileOnlyWhereTheJobNamesNone() throws Exception {
        SourceFile user = SourceFile.ofText("user/shop.toml", "[limits]\nhair_width = \"0.07 mm\"\n");
        SourceFile line = SourceFile.ofText("line.toml", "[limits]\nhair_width = \"0.08 mm\"\n");
        ReadOptions options = new ReadOptions(false, null, user, List.of(), foilproof.source.InputLimits.DEFAULT);
        Job job = JobReader.read(new JobSource(files(SMALL), "job.toml"), options);
        assertThat(job.limits().value(LimitKey.HAIR_WIDTH)).isEqualTo(0.07);
        assertThat(job.inputs()).contains(user);
        assertThat(job.assumed()).anyMatch(s -> s.contains("user/shop.toml"));
        MemoryFiles own = files("shop = \"s.toml\"\n" + SMALL).with("s.toml", "[limits]\n");
        assertThat(JobReader.read(new JobSource(own, "job.toml"), options)
                        .limits()
                        .value(LimitKey.HAIR_WIDTH))
                .isEqualTo(0.05);
        ReadOptions both = new ReadOptions(false, line, user, List.of(), foilproof.source.InputLimits.DEFAULT);
        assertThat(JobReader.read(new JobSource(own, "job.toml"), both).limits().value(LimitKey.HAIR_WIDTH))
                .isEqualTo(0.08);
    }

    @Test
    void shouldPointIntoTheShopFileThatIsWrong() {
        MemoryFiles files = files("shop = \"shop.toml\"\n" + SMALL)
                .with("shop.toml", "[machine]\nmax_fed = \"9 mm/min\"\n[blank]\nwidth = \"1 mm\"\n");
        assertThatThrownBy(() -> JobReader.read(new JobSource(files, "job.toml"), ReadOptions.DEFAULT))
                .isInstanceOfSatisfying(InputException.class, e -> assertThat(e.diagnostics())
                        .extracting(d -> d.span().toString())
                        .containsExactly("shop.toml:2:1", "shop.toml:3:2"));
    }

    @Test
    void shouldReadWiresBetweenTwoPlaces() throws Exception {
        Job job = read(
                SMALL + "[[join]]\nfrom = [\"12 mm\", \"8 mm\", \"top\"]\nto = [\"20 mm\", \"8 mm\", \"bottom\"]\n");
        assertThat(job.joins().get(0).through()).isFalse();
        assertThat(job.joins().get(0).to().face()).isEqualTo(Face.BOTTOM);
        Diagnostic d = problem(
                SMALL + "[[join]]\nfrom = [\"12 mm\", \"8 mm\", \"topp\"]\nto = [\"20 mm\", \"8 mm\", \"bottom\"]\n");
        assertThat(d.span().toString()).isEqualTo("job.toml:17:26");
        assertThat(d.nearest()).isEqualTo("top");
    }

    @Test
    void shouldLetAProgramSayItsOwnZeroAndGoOnWithoutTouchOff() throws Exception {
        Job job = read(SMALL
                + "[[side.program]]\nfile = \"b.ngc\"\nretouch = false\nwork_zero = [\"1 mm\", \"2 mm\"]\n"
                + "z_zero = \"spoil board\"\ntouch_off = [\"70 mm\", \"1 mm\"]\n");
        ProgramEntry second = job.sides().get(0).programs().get(1);
        assertThat(second.retouch()).isFalse();
        assertThat(second.workZeroMm()).isEqualTo(new XyMm(1, 2));
        assertThat(second.zZero()).isEqualTo(ZZero.SPOIL_BOARD);
        assertThat(second.touchOffMm())
                .as("off the blank is right on the spoil board")
                .isEqualTo(new XyMm(70, 1));
        assertThat(problem(SMALL + "retouch = false\n").message()).contains("first program");
        assertThat(problem(SMALL.replace("face = \"bottom\"", "touch_off = [\"70 mm\", \"1 mm\"]"))
                        .message())
                .contains("off the blank");
    }

    @Test
    void shouldGiveEveryLimitAKeyAUnitAndAMeaning() throws Exception {
        for (LimitKey key : LimitKey.values()) {
            Job job = read(SMALL + "[limits]\n" + key.key() + " = \"" + key.defaultText() + "\"\n");
            assertThat(job.limits().value(key)).as(key.key()).isCloseTo(key.defaultValue(), within(1e-12));
            assertThat(key.meaning()).as(key.key()).isNotBlank();
            assertThat(key.needs()).as(key.key()).matches("[A-L]\\d+a?( [A-L]\\d+a?)*");
        }
        Diagnostic d = problem(SMALL + "[limits]\nsliver_widht = \"0.1 mm\"\n");
        assertThat(d.nearest()).isEqualTo("sliver_width");
        assertThat(problem(SMALL + "[limits]\nhair_width = \"0.1 s\"\n").code()).isEqualTo("bad-quantity");
        assertThat(problem(SMALL + "[limits]\nhair_width = \"-0.1 mm\"\n").code())
                .isEqualTo("out-of-range");
    }
}
