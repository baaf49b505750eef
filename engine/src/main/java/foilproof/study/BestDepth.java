package foilproof.study;

import foilproof.bench.Work;
import foilproof.copper.ZWindow;
import foilproof.findings.CopperFacts;
import foilproof.findings.Examination;
import foilproof.findings.RunFacts;
import foilproof.motion.PlannedProgram;
import foilproof.motion.Segments;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The depth of copper work that gives a tool run's Z window the widest margin, and the lines of its programs that would
 * have to be edited, as a unified difference to be read by a person. Nothing is written.
 *
 * @param tool the cutter
 * @param side from 1
 * @param run index of the tool run
 * @param shiftMm how much deeper (+) or shallower the copper work would be
 * @param depthMm deepest copper work after that, below the run's zero
 * @param marginMm the margin that the Z window then has; negative where no depth works
 * @param edits one unified difference for each program that changes
 * @param complete false where some line's Z does not stand in it as a plain number, so that a person must edit it
 */
public record BestDepth(
        String tool,
        int side,
        int run,
        double shiftMm,
        double depthMm,
        double marginMm,
        List<Edit> edits,
        boolean complete) {
    private static final Pattern Z_WORD = Pattern.compile("[Zz]\\s*([+-]?(?:\\d+\\.?\\d*|\\.\\d+))");

    /** Copies the list. */
    public BestDepth {
        edits = List.copyOf(edits);
    }

    /**
     * The edited lines of one program.
     *
     * @param program file of the program
     * @param difference unified difference, without context lines
     */
    public record Edit(String program, String difference) {}

    /** The best depth of each run whose window ends on both sides, in the order of the sides and runs. */
    public static List<BestDepth> of(Examination x) {
        List<BestDepth> all = new ArrayList<>();
        for (CopperFacts copper : x.copper()) {
            for (Map.Entry<Integer, ZWindow> entry : copper.windows().entrySet()) {
                BestDepth best = of(x, x.run(entry.getKey()), entry.getValue());
                if (best != null) {
                    all.add(best);
                }
            }
        }
        return List.copyOf(all);
    }

    private static @Nullable BestDepth of(Examination x, RunFacts run, ZWindow window) {
        Double exact = window.bestShiftMm();
        if (exact == null) {
            return null;
        }
        double shift = Math.rint(exact * 1000) / 1000;
        Edited e = edited(x, run, shift);
        double from = window.fromMm() == null ? 0 : window.fromMm();
        double to = window.toMm() == null ? 0 : window.toMm();
        double margin = Math.min(window.spreadFromMm() - (from - shift), to - shift - window.spreadToMm());
        return new BestDepth(
                run.toolName(),
                run.side().number(),
                run.run().index(),
                shift,
                e.depthMm(),
                Math.rint(margin * 1e6) / 1e6,
                e.edits(),
                e.complete());
    }

    /**
     * The copper work of a run, milled deeper.
     *
     * @param depthMm deepest copper work then, below the run's zero; the shift alone where there is none
     * @param edits one unified difference for each program that changes
     * @param complete false where some line's Z does not stand in it as a plain number
     */
    public record Edited(double depthMm, List<Edit> edits, boolean complete) {
        /** Copies the list. */
        public Edited {
            edits = List.copyOf(edits);
        }
    }

    /** The lines of a run's copper work edited to go deeper (+) or shallower by {@code shift}, mm; nothing is written. */
    public static Edited edited(Examination x, RunFacts run, double shift) {
        Segments s = x.plan().segments();
        Map<Integer, TreeSet<Integer>> lines = new TreeMap<>();
        Map<Long, Double> heights = new TreeMap<>();
        double deepest = 0;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            Work work = x.workOf(i);
            if (work == null || !work.copper() || !s.isFeed(i) || run.depthMm(s.z1Mm(i)) - run.zErrorMm() <= 0) {
                continue;
            }
            deepest = Math.max(deepest, run.depthMm(s.lowestMm(i)) - run.zErrorMm());
            // Only the line that goes to a height says it; level moves after it go on there.
            if (s.z1Mm(i) != s.z0Mm(i) || s.planLengthMm(i) == 0) {
                lines.computeIfAbsent(s.program(i), p -> new TreeSet<>()).add(s.line(i));
                heights.put(key(s.program(i), s.line(i)), s.z1Mm(i));
            }
        }
        List<Edit> edits = new ArrayList<>();
        boolean complete = shift == 0 || !lines.isEmpty();
        for (Map.Entry<Integer, TreeSet<Integer>> entry : lines.entrySet()) {
            PlannedProgram program = x.plan().programs().get(entry.getKey());
            String[] text = program.entry().source().latin1().split("\r\n|\r|\n", -1);
            StringBuilder hunks = new StringBuilder();
            for (int line : entry.getValue()) {
                String old = line >= 1 && line <= text.length ? text[line - 1] : "";
                double z = heights.getOrDefault(key(entry.getKey(), line), Double.NaN);
                String edited = edited(old, z, shift);
                if (edited == null) {
                    complete = false;
                } else if (!edited.equals(old)) {
                    hunks.append("@@ -").append(line).append(" +").append(line).append(" @@\n");
                    hunks.append('-').append(old).append("\n+").append(edited).append('\n');
                }
            }
            if (hunks.length() > 0) {
                edits.add(new Edit(program.file(), "--- " + program.file() + "\n+++ " + program.file() + "\n" + hunks));
            }
        }
        return new Edited(deepest + shift, edits, complete);
    }

    private static long key(int program, int line) {
        return program * 10_000_000L + line;
    }

    /**
     * The line with its Z word moved; null where the Z is not there as the plain number of millimetres or inches that
     * the move goes to.
     */
    private static @Nullable String edited(String line, double zMm, double shiftMm) {
        Matcher m = Z_WORD.matcher(line);
        if (!m.find() || line.indexOf('#') >= 0 || line.indexOf('[') >= 0) {
            return null;
        }
        double value = Double.parseDouble(m.group(1));
        double scale = Math.abs(value - zMm) < 1e-6 ? 1 : Math.abs(value * 25.4 - zMm) < 1e-5 ? 25.4 : 0;
        if (scale == 0) {
            return null;
        }
        String number = String.format(Locale.ROOT, scale == 1 ? "%.3f" : "%.5f", value - shiftMm / scale);
        return line.substring(0, m.start(1)) + number + line.substring(m.end(1));
    }
}
