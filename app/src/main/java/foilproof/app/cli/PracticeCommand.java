package foilproof.app.cli;

import foilproof.app.practice.Answer;
import foilproof.app.practice.Exercise;
import foilproof.app.practice.Exercises;
import foilproof.app.practice.Practice;
import foilproof.app.practice.Score;
import foilproof.bench.DiskFiles;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.report.ResultDocument;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code practice}: the exercises: list, start, predict, check, repair. */
final class PracticeCommand implements Command {
    private static final double CELL_MM = 0.010;

    private final DryRunner runner = DryRunner.engine();

    @Override
    public CommandSpec spec() {
        CommandSpec spec = Specs.command(
                "practice",
                "The exercises: find planted faults before the blank pays for them. Without a word: lists them;"
                        + " window opens them on the bench."
                        + " start E3 --out DIR writes one; predict DIR records your filled-in answer.toml; check DIR runs"
                        + " the dry run and scores it; repair DIR tries the job as you mended it.");
        spec.addPositional(Specs.word("STEP", "list, window, start, predict, check or repair.", false));
        spec.addPositional(PositionalParamSpec.builder()
                .paramLabel("WHAT")
                .index("1")
                .arity("0..1")
                .type(String.class)
                .description("The exercise to start, or the exercise's folder.")
                .build());
        spec.addOption(Specs.value("DIR", "Where start writes the exercise: a new or empty folder.", "--out", "-o"));
        return spec;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException, IOException {
        String step = given.matchedPositionalValue(0, "list");
        String what = given.matchedPositionalValue(1, "");
        if (step.equals("list")) {
            return list(console.out());
        }
        if (step.equals("window")) {
            return GraphicsDoor.open(console, Screens::practice);
        }
        if (!List.of("start", "predict", "check", "repair").contains(step)) {
            throw refused("There is no step \"" + step + "\": list, window, start, predict, check or repair.");
        }
        if (what.isEmpty()) {
            throw refused(step.equals("start") ? "Say which exercise, e.g. start E3 --out DIR." : "Say which folder.");
        }
        try {
            if (step.equals("start")) {
                return start(what, given.matchedOptionValue("--out", null), console.out());
            }
            Practice practice = Practice.open(JobOptions.path(what));
            return switch (step) {
                case "predict" -> predict(practice, console.out());
                case "check" -> check(practice, console);
                default -> repair(practice, console);
            };
        } catch (Practice.RefusedException | Answer.NotFilledInException e) {
            throw refused(String.valueOf(e.getMessage()));
        }
    }

    private static int list(PrintStream out) {
        for (Exercise exercise : Exercises.all()) {
            out.println(
                    exercise.id() + " (level " + exercise.level() + ") " + exercise.title() + ": " + exercise.story());
        }
        out.println("How many faults there are is never told; there may be none. Begin: practice start E1 --out DIR");
        return ExitCode.FINE;
    }

    private static int start(String id, @org.jspecify.annotations.Nullable String folder, PrintStream out)
            throws InputException, IOException, Practice.RefusedException {
        if (folder == null) {
            throw refused("Say where: start " + id + " --out DIR.");
        }
        Path path = JobOptions.path(folder);
        Exercise exercise = Practice.start(id, path);
        out.println(exercise.id() + ", " + exercise.title() + ". " + exercise.story());
        out.println(
                "Written to " + path + ". Read job and programs, fill in answer.toml, then: practice predict " + path);
        return ExitCode.FINE;
    }

    private static int predict(Practice practice, PrintStream out)
            throws IOException, Practice.RefusedException, Answer.NotFilledInException {
        Answer answer = practice.predict();
        out.println("Recorded: "
                + (answer.clean()
                        ? "clean, " + answer.cleanConfidence() + " % sure"
                        : answer.marks().size() + " marked")
                + ", " + answer.numbers().size() + " of "
                + practice.exercise().numbers().size()
                + " numbers predicted. It counts as it stands. Now: practice check " + practice.folder());
        return ExitCode.FINE;
    }

    private int check(Practice practice, Console console)
            throws InputException, IOException, Practice.RefusedException, Answer.NotFilledInException {
        Answer answer = practice.recorded();
        practice.mustBeUntouched();
        ResultDocument result = dryRun(practice.checked(), console);
        PrintStream out = console.out();
        new ResultText(out).print(result);
        Score score = Score.of(practice.exercise(), answer);
        out.println();
        told(out, "What you saw:", score.saw());
        told(out, "What you missed:", score.missed());
        told(out, "What you cried wolf about:", score.cried());
        told(out, "Numbers:", score.told());
        out.println("Detecting " + percent(score.detecting()) + ", explaining " + percent(score.explaining())
                + ", predicting a number " + percent(score.predicting())
                + ", repairing: mend the job, then practice repair "
                + practice.folder());
        out.println(String.format(
                Locale.ROOT,
                "Score %.2f of %.0f: hits %.2f, false alarms -%.2f, calibration %+.2f.",
                score.total(),
                score.most(),
                score.hits(),
                score.falseAlarms(),
                score.calibration()));
        return ExitCode.FINE;
    }

    private int repair(Practice practice, Console console)
            throws InputException, IOException, Practice.RefusedException, Answer.NotFilledInException {
        practice.recorded();
        if (practice.exercise().afterTheFact()) {
            throw refused("There is nothing to repair after the fact: what was wrong stood in no file.");
        }
        List<String> changed = practice.changedFacts();
        Practice.Repair repair =
                practice.judge(dryRun(DiskFiles.source(practice.folder()), console), dryRun(practice.sound(), console));
        PrintStream out = console.out();
        told(out, "Changed on paper, though it lies on the bench as it did (no repair):", changed);
        told(out, "Still there:", repair.remaining());
        told(out, "New faults:", repair.added());
        told(out, "No longer made:", repair.missing());
        boolean good = changed.isEmpty()
                && repair.remaining().isEmpty()
                && repair.added().isEmpty()
                && repair.missing().isEmpty();
        out.println("Repairing without new faults: " + (good ? "100 %. " + Practice.READY : "0 %."));
        return good ? ExitCode.FINE : ExitCode.FINDINGS;
    }

    private ResultDocument dryRun(JobSource source, Console console) throws InputException {
        int threads = Runtime.getRuntime().availableProcessors();
        try (ProgressLine progress = new ProgressLine(console, true)) {
            return runner.run(source, ReadOptions.DEFAULT, new DryRunner.Settings(CELL_MM, threads, false), progress)
                    .result();
        }
    }

    private static void told(PrintStream out, String head, List<String> lines) {
        out.println(head + (lines.isEmpty() ? " nothing." : ""));
        lines.forEach(line -> out.println("  - " + line));
    }

    private static String percent(double share) {
        return Double.isNaN(share) ? "not asked" : String.format(Locale.ROOT, "%.0f %%", 100 * share);
    }

    private static InputException refused(String message) {
        return new InputException(Diagnostic.of(SourceSpan.ofFile("practice"), "practice", message));
    }
}
