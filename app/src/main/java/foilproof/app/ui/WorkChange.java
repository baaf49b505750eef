package foilproof.app.ui;

import foilproof.bench.Job;
import foilproof.bench.ProgramEntry;
import foilproof.bench.Side;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A job whose programs run with other feeds and speeds, from another zero, or in another order; nothing is written. */
final class WorkChange {
    private static final Pattern WORD = Pattern.compile("([FfSs])(\\s*)(\\+?(?:\\d+\\.?\\d*|\\.\\d+))");

    private WorkChange() {}

    /** The job so changed. */
    static Job of(Job job, BenchModel.Work w) {
        if (w.equals(BenchModel.Work.NONE)) {
            return job;
        }
        List<Side> sides = new ArrayList<>();
        int first = 0;
        for (Side side : job.sides()) {
            List<ProgramEntry> programs = new ArrayList<>();
            for (int i : order(w.order(), first, side.programs().size())) {
                programs.add(changed(side.programs().get(i), w));
            }
            first += side.programs().size();
            sides.add(side.withPrograms(programs));
        }
        return w.move(job).applied(job.withSides(sides));
    }

    /** Places of a side's programs in the order in which they run. */
    private static List<Integer> order(List<Integer> all, int first, int count) {
        List<Integer> mine = new ArrayList<>();
        for (int i : all) {
            if (i >= first && i < first + count) {
                mine.add(i - first);
            }
        }
        if (mine.size() != count) {
            mine.clear();
            for (int i = 0; i < count; i++) {
                mine.add(i);
            }
        }
        return mine;
    }

    private static ProgramEntry changed(ProgramEntry p, BenchModel.Work w) {
        boolean same = w.feedShare() == 1 && w.speedShare() == 1;
        return same
                ? p
                : p.withSource(SourceFile.of(p.source().name(), text(p.source().latin1(), w)));
    }

    private static byte[] text(String program, BenchModel.Work w) {
        return scaled(program, w.feedShare(), w.speedShare()).getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
    }

    /** A program's text with its F and S words times these factors; comments stay as they are. */
    static String scaled(String program, double feedShare, double speedShare) {
        StringBuilder out = new StringBuilder(program.length() + 64);
        int at = 0;
        while (at < program.length()) {
            char c = program.charAt(at);
            int end = c == '(' ? program.indexOf(')', at) : c == ';' ? lineEnd(program, at) : -1;
            if (c == '(' || c == ';') {
                end = end < 0 ? program.length() - 1 : end;
                out.append(program, at, end + 1);
                at = end + 1;
                continue;
            }
            int stop = at;
            while (stop < program.length() && program.charAt(stop) != '(' && program.charAt(stop) != ';') {
                stop++;
            }
            Matcher m = WORD.matcher(program.substring(at, stop));
            StringBuilder part = new StringBuilder();
            while (m.find()) {
                boolean feed = m.group(1).equalsIgnoreCase("F");
                double v = Double.parseDouble(m.group(3)) * (feed ? feedShare : speedShare);
                m.appendReplacement(part, m.group(1) + m.group(2) + String.format(Locale.ROOT, "%.4f", v));
            }
            m.appendTail(part);
            out.append(part);
            at = stop;
        }
        return out.toString();
    }

    private static int lineEnd(String s, int from) {
        for (int i = from; i < s.length(); i++) {
            if (s.charAt(i) == '\n' || s.charAt(i) == '\r') {
                return i;
            }
        }
        return -1;
    }
}
