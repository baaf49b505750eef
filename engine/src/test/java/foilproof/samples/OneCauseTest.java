package foilproof.samples;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ReadOptions;
import foilproof.dryrun.DryRun;
import foilproof.findings.ExamineOptions;
import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Progress;
import foilproof.findings.Severity;
import foilproof.findings.Wording;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * One fault put into the sound sample job is one finding that names it, with what follows counted inside (design, idea
 * 6; needs, section 6: "same cause, many effects: fold under cause"); a second fault that has nothing to do with it is
 * told beside it. Which is cause and which is consequence was taken from the rows of the needs by hand.
 */
class OneCauseTest {
    private static final Path JOB = SampleJobsTest.SAMPLES.resolve("thermistor-amplifier");
    private static final double CELL_MM = 0.05;
    private static final String LAST_GROOVE = "G0 X28.500 Y10.500\nG1 Z-0.100 F90\nG1 X28.500 Y13.500 F420\n"
            + "G1 X29.500 Y14.500\nG1 X29.500 Y19.000\nG0 Z2\n";

    /** The files of a job while faults are put into them. */
    private static final class Folder {
        private final Map<String, String> texts = new LinkedHashMap<>();

        static Folder sound() throws Exception {
            Folder files = new Folder();
            try (Stream<Path> all = Files.list(JOB)) {
                for (Path file : (Iterable<Path>) all.sorted()::iterator) {
                    files.texts.put(file.getFileName().toString(), Files.readString(file));
                }
            }
            return files;
        }

        Folder edit(String file, UnaryOperator<String> change) {
            String before = texts.get(file);
            String after = change.apply(before);
            assertThat(after).as("a fault changes " + file).isNotEqualTo(before);
            texts.put(file, after);
            return this;
        }

        Folder replace(String file, String what, String by) {
            return edit(file, t -> t.replace(what, by));
        }

        Folder first(String file, String what, String by) {
            return edit(file, t -> {
                int at = t.indexOf(what);
                return at < 0 ? t : t.substring(0, at) + by + t.substring(at + what.length());
            });
        }

        List<Finding> run() throws Exception {
            MemoryFiles files = new MemoryFiles();
            texts.forEach(files::with);
            return DryRun.run(
                            new JobSource(files, "job.toml"),
                            ReadOptions.DEFAULT,
                            new ExamineOptions(CELL_MM, 1, Progress.NONE))
                    .document()
                    .findings()
                    .stream()
                    .filter(f -> f.severity() != Severity.NOTE)
                    .toList();
        }
    }

    private interface Fault {
        void into(Folder files);
    }

    /** Fault, and the finding that must stand alone for it. */
    private record Case(
            String name,
            String kind,
            Severity severity,
            @Nullable String program,
            int follow,
            Fault fault,
            Fault second,
            String other) {}

    private static void holeMissing(Folder f) {
        f.edit("bores.ngc", t -> {
            int at = t.indexOf("G0 X33.123 Y8.890");
            return t.substring(0, at) + t.substring(t.indexOf("G0 X20.423 Y6.985"));
        });
    }

    private static void grooveMissing(Folder f) {
        f.replace("copper.ngc", LAST_GROOVE, "");
    }

    private static void speed(Folder f) {
        f.replace("outline.ngc", "S16000", "S30000");
    }

    private static Stream<Case> cases() {
        return Stream.of(
                new Case(
                        "A2 copper ten times too deep",
                        Kinds.WRONG_Z_REFERENCE,
                        Severity.STOP,
                        "copper.ngc",
                        3,
                        f -> f.replace("copper.ngc", "Z-0.100", "Z-1.000"),
                        OneCauseTest::holeMissing,
                        Kinds.HOLE_MISSING),
                new Case(
                        "A2 copper ten times too shallow",
                        Kinds.WRONG_Z_REFERENCE,
                        Severity.STOP,
                        "copper.ngc",
                        2,
                        f -> f.replace("copper.ngc", "Z-0.100", "Z-0.010"),
                        OneCauseTest::holeMissing,
                        Kinds.HOLE_MISSING),
                new Case(
                        "A2 a lost point",
                        Kinds.DECIMAL_SLIP,
                        Severity.STOP,
                        "copper.ngc",
                        2,
                        f -> f.first("copper.ngc", "G1 X36.880 Y10.500", "G1 X36880 Y10.500"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "A2 a lost point in Z",
                        Kinds.DECIMAL_SLIP,
                        Severity.STOP,
                        "bores.ngc",
                        3,
                        f -> f.first("bores.ngc", "Z-1.65", "Z-165"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "A4 G91 left on",
                        Kinds.DISTANCE_MODE,
                        Severity.STOP,
                        "copper.ngc",
                        2,
                        f -> f.replace("copper.ngc", "(the middle band)", "G91"),
                        OneCauseTest::holeMissing,
                        Kinds.HOLE_MISSING),
                new Case(
                        "A5 a shift by G92",
                        Kinds.WORK_OFFSET,
                        Severity.FIX,
                        "copper.ngc",
                        3,
                        f -> f.replace("copper.ngc", "(the middle band)", "G0 X11.5 Y10.5\nG92 X12.5 Y11.5"),
                        OneCauseTest::holeMissing,
                        Kinds.HOLE_MISSING),
                new Case(
                        "A5 a zero moved by G10",
                        Kinds.WORK_OFFSET,
                        Severity.FIX,
                        "copper.ngc",
                        3,
                        f -> f.replace("copper.ngc", "(the middle band)", "G10 L2 P1 X11 Y9"),
                        OneCauseTest::holeMissing,
                        Kinds.HOLE_MISSING),
                new Case(
                        "A7 a rapid in the foil",
                        Kinds.RAPID_IN_MATERIAL,
                        Severity.STOP,
                        "copper.ngc",
                        2,
                        f -> f.replace(
                                "copper.ngc",
                                "G0 Z2\n(ground below, supply above)",
                                "G0 X20 Y20\nG0 Z2\n(ground below, supply above)"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "A13 nobody is asked to change the cutter",
                        Kinds.LENGTH_OFFSET,
                        Severity.STOP,
                        "copper.ngc",
                        0,
                        f -> oneFile(
                                f.replace("job.toml", "on_tool_change = \"stop\"", "on_tool_change = \"ignored\""), ""),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "A13 the other cutter's length",
                        Kinds.LENGTH_OFFSET,
                        Severity.STOP,
                        "copper.ngc",
                        3,
                        OneCauseTest::wrongLength,
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "A15 a tiny arc that runs as a full circle",
                        Kinds.ARC_SUSPECT,
                        Severity.STOP,
                        "copper.ngc",
                        2,
                        f -> f.replace(
                                "copper.ngc",
                                "G1 X12.500 Y14.500",
                                "G1 X12.0 Y14.0\nG1 X12.1 Y14.1\nG2 X12.1 Y14.1 I4 J0\nG1 X12.500 Y14.500"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "A16 R of a cycle below the foil",
                        Kinds.CYCLE_SUSPECT,
                        Severity.STOP,
                        "bores.ngc",
                        1,
                        f -> cycle(f, "-0.1", ""),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "A16 a cycle left on",
                        Kinds.CYCLE_SUSPECT,
                        Severity.STOP,
                        "bores.ngc",
                        1,
                        f -> cycle(f, "0.6", "X0 Y0\n"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "B1 the job says spoil board, the programs count from the foil",
                        Kinds.WRONG_Z_REFERENCE,
                        Severity.STOP,
                        "copper.ngc",
                        8,
                        f -> f.replace("job.toml", "z_zero = \"foil\"", "z_zero = \"spoil board\""),
                        OneCauseTest::holeMissing,
                        Kinds.HOLE_MISSING),
                new Case(
                        "B1 the job says foil, the programs count from the spoil board",
                        Kinds.WRONG_Z_REFERENCE,
                        Severity.STOP,
                        "copper.ngc",
                        1,
                        OneCauseTest::fromSpoilBoard,
                        OneCauseTest::speed,
                        Kinds.SPINDLE_SPEED),
                new Case(
                        "B2 touched off in a groove",
                        Kinds.TOUCH_OFF_SPOILT,
                        Severity.STOP,
                        "bores.ngc",
                        1,
                        f -> f.replace(
                                "job.toml",
                                "  work = \"boring\"",
                                "  work = \"boring\"\n  touch_off = [\"30 mm\", \"12.4 mm\"]"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "B5 the middle of the blank lies low",
                        Kinds.FOIL_LEFT,
                        Severity.STOP,
                        "copper.ngc",
                        2,
                        f -> f.replace(
                                "job.toml",
                                "surface = \"flat\"",
                                "surface = [[\"0 mm\",\"0 mm\",\"0 mm\"],[\"60 mm\",\"0 mm\",\"0 mm\"],"
                                        + "[\"0 mm\",\"45 mm\",\"0 mm\"],[\"60 mm\",\"45 mm\",\"0 mm\"],[\"30 mm\",\"22 mm\",\"-0.15 mm\"]]"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "B6 the blank is tilted",
                        Kinds.TILT,
                        Severity.FIX,
                        null,
                        1,
                        f -> f.replace(
                                "job.toml",
                                "surface = \"flat\"",
                                "surface = [[\"0 mm\",\"0 mm\",\"0 mm\"],[\"60 mm\",\"0 mm\",\"-0.20 mm\"],"
                                        + "[\"0 mm\",\"45 mm\",\"0 mm\"],[\"60 mm\",\"45 mm\",\"-0.20 mm\"]]"),
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT),
                new Case(
                        "H5 bores after an outline without tabs",
                        Kinds.PART_FREE,
                        Severity.STOP,
                        "outline.ngc",
                        2,
                        OneCauseTest::outlineFirst,
                        OneCauseTest::grooveMissing,
                        Kinds.SHORT));
    }

    @TestFactory
    Stream<DynamicTest> shouldTellOneCauseOnceWithWhatFollowsInside() {
        return cases().map(c -> DynamicTest.dynamicTest(c.name(), () -> {
            Folder files = Folder.sound();
            c.fault().into(files);
            List<Finding> told = files.run();
            Wording.holds(told);
            assertThat(told).as(shown(told)).hasSize(1);
            holdsCause(c, told.get(0), told);
            assertThat(told.get(0).consequences()).as(shown(told)).hasSizeGreaterThanOrEqualTo(c.follow());
        }));
    }

    @TestFactory
    Stream<DynamicTest> shouldTellAnotherFaultBesideTheCause() {
        return cases().map(c -> DynamicTest.dynamicTest(c.name(), () -> {
            Folder files = Folder.sound();
            c.second().into(files);
            c.fault().into(files);
            List<Finding> told = files.run();
            Finding cause = told.stream()
                    .filter(f -> f.kind().equals(c.kind()))
                    .findFirst()
                    .orElseThrow();
            holdsCause(c, cause, told);
            assertThat(told).as(shown(told)).hasSize(2).anyMatch(f -> f.kind().equals(c.other()));
        }));
    }

    /** What a worked-out value was meant to be stands nowhere: the cause is told, and no mend of its line is assumed. */
    @Test
    void shouldAssumeNoMendOfALineWhoseValuesAreWorkedOut() throws Exception {
        List<Finding> told = Folder.sound()
                .replace(
                        "copper.ngc",
                        "G0 Z2\n(ground below, supply above)",
                        "G0 X[10 + 10] Y20\nG0 Z2\n(ground below, supply above)")
                .run();
        assertThat(told).anySatisfy(f -> {
            assertThat(f.kind()).isEqualTo(Kinds.RAPID_IN_MATERIAL);
            assertThat(f.severity()).isEqualTo(Severity.STOP);
            assertThat(f.consequences()).noneMatch(g -> g.message().startsWith("Remains if"));
        });
        assertThat(told).as(shown(told)).noneMatch(f -> f.kind().equals(Kinds.PROGRAM_ERROR));
    }

    private static void holdsCause(Case c, Finding f, List<Finding> told) {
        assertThat(f.kind()).as(shown(told)).isEqualTo(c.kind());
        assertThat(f.severity()).as(shown(told)).isEqualTo(c.severity());
        assertThat(f.program()).as(shown(told)).isEqualTo(c.program());
    }

    private static String shown(List<Finding> told) {
        StringBuilder t = new StringBuilder();
        for (Finding f : told) {
            t.append('\n')
                    .append(f.severity())
                    .append(' ')
                    .append(f.kind())
                    .append(' ')
                    .append(f.program())
                    .append(':')
                    .append(f.line());
            t.append(' ').append(f.message());
            f.consequences().forEach(g -> t.append("\n    > ")
                    .append(g.kind())
                    .append(' ')
                    .append(g.program())
                    .append(':')
                    .append(g.line())
                    .append(' ')
                    .append(g.message()));
        }
        return t.toString();
    }

    /** Bores in the file of the copper, behind a change of the cutter without a stop. */
    private static Folder oneFile(Folder f, String afterM6) {
        String bores = f.texts.get("bores.ngc");
        String rest = bores.substring(bores.indexOf("M5\n"))
                .replaceAll("M0 .*\n", "")
                .replace("T2 M6\n", "T2 M6\n" + afterM6);
        f.edit("copper.ngc", t -> t.replace("M5\nM2\n", "") + rest);
        return f.edit("job.toml", t -> {
            int from = t.indexOf("  [[side.program]]\n  file = \"bores.ngc\"");
            int to = t.indexOf("  [[side.program]]\n  file = \"outline.ngc\"");
            return (t.substring(0, from) + t.substring(to)).replace("  work = \"isolation\"\n", "");
        });
    }

    private static void wrongLength(Folder f) {
        f.replace("job.toml", "on_tool_change = \"stop\"", "on_tool_change = \"measured\"");
        f.first("job.toml", "number = 1\n", "number = 1\nlength = \"32.10 mm\"\n");
        f.first("job.toml", "number = 2\n", "number = 2\nlength = \"33.30 mm\"\n");
        f.first("copper.ngc", "T1 M6\n", "T1 M6\nG43 H1\n");
        f.first("outline.ngc", "G0 Z2\n", "G43 H1\nG0 Z2\n");
        oneFile(f, "G43 H1\n");
    }

    private static void fromSpoilBoard(Folder f) {
        for (String file : List.of("copper.ngc", "bores.ngc", "outline.ngc")) {
            f.edit(file, t -> java.util.regex.Pattern.compile("Z(-?[0-9.]+)")
                    .matcher(t)
                    .replaceAll(
                            m -> String.format(java.util.Locale.ROOT, "Z%.3f", Double.parseDouble(m.group(1)) + 1.6)));
        }
    }

    private static void outlineFirst(Folder f) {
        f.replace("outline.ngc", "G1 Z-1.000\n", "");
        f.replace("outline.ngc", "S16000 M3", "M5\nG0 Z25\nT2 M6\nM0\nS16000 M3");
        f.edit("job.toml", t -> {
            int bores = t.indexOf("  [[side.program]]\n  file = \"bores.ngc\"");
            int outline = t.indexOf("  [[side.program]]\n  file = \"outline.ngc\"");
            int design = t.indexOf("[design]");
            String moved = t.substring(outline, design)
                    .lines()
                    .filter(l -> !l.contains("retouch"))
                    .reduce("", (a, b) -> a + b + "\n");
            return (t.substring(0, bores) + moved + t.substring(bores, outline) + t.substring(design))
                    .replace("hold = \"full tape\"", "hold = \"edge clamps\"")
                    .replace("tape = \"0.1 mm\"", "tape = \"0 mm\"");
        });
    }

    /** The bores as a pecking cycle with a drill of their size. */
    private static void cycle(Folder f, String r, String then) {
        f.edit("bores.ngc", t -> {
            StringBuilder out = new StringBuilder(t.substring(0, t.indexOf("G0 X10.263")));
            boolean[] begun = {false};
            t.lines().filter(l -> l.startsWith("G0 X")).forEach(l -> {
                String[] words = l.split(" ");
                String x = String.format(
                        java.util.Locale.ROOT, "X%.3f", Double.parseDouble(words[1].substring(1)) - 0.103);
                out.append(begun[0] ? "" : "G98 G83 ").append(x).append(' ').append(words[2]);
                out.append(begun[0] ? "" : " Z-2.05 Q0.4 R" + r + " F90").append('\n');
                begun[0] = true;
            });
            return out.append(then).append("G80\nG0 Z25\nM5\nM2\n").toString();
        });
        f.edit("job.toml", t -> t.replace(
                        "tool = \"through mill\"\n  work = \"boring\"", "tool = \"drill\"\n  work = \"boring\"")
                .replace("  retouch = false                  # the same cutter goes on\n", "")
                .replace(
                        "[[side]]",
                        "[[tool]]\nname = \"drill\"\nnumber = 3\nshape = \"drill\"\ndiameter = \"1 mm\"\nincluded_angle = \"118 deg\"\n"
                                + "shank = \"3.175 mm\"\nflutes = 2\nflute_length = \"9 mm\"\nstick_out = \"14 mm\"\nrunout = \"0 mm\"\n"
                                + "centre_cutting = true\nduty = \"any\"\n\n[[side]]"));
        f.edit("bores.ngc", t -> t.replace("T2", "T3").replace("end mill 1/32 in, 0.794 mm", "drill 1 mm"));
        f.replace("outline.ngc", "S16000 M3", "M5\nG0 Z25\nT2 M6\nM0\nS16000 M3");
    }
}
