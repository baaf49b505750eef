package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Tool;
import foilproof.bench.ToolShape;
import foilproof.language.CanonicalProgram;
import foilproof.language.CommandKind;
import foilproof.motion.PlannedProgram;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Comments that name another cutter than the job has under that number (A12). Only comments that clearly name a cutter
 * count: a diameter, an angle or a tip right beside a word for a cutter. Where one of the sizes named fits, the comment
 * fits.
 */
final class ToolComments implements Check {
    private static final String NUMBER = "(\\d+\\s*/\\s*\\d+|\\d*\\.?\\d+)";
    /** What stands before a number that is a size: not the T of a tool's number, nor a part of the number. */
    private static final String NO_NUMBER_OF_A_TOOL = "(?<!\\bt\\s{0,2}#?)(?<!\\btool\\s{0,2}#?\\s{0,2})(?<![\\d.])";

    private static final String UNIT =
            "\\s*(mm|millimet(?:er|re)s?|in\\b|inch(?:es)?|\"|thou|deg(?:rees?)?\\b|\u00b0)?";
    private static final String MILL =
            "end\\s*-?\\s*mill|flat\\s+mill|square\\s+mill|router\\s+bit|mill\\s+bit|milling\\s+(?:bit|cutter)|corn\\s+bit|cutter|mill\\b";
    private static final String POINTED =
            "v\\s*-?\\s*(?:bit|cutter|tool)|engrav\\w*(?:\\s+(?:bit|cutter|tool))?|cone\\b";
    private static final String DRILL = "(?:twist\\s+)?drill(?:\\s+bit)?\\b";
    private static final String FILLER =
            "(?:\\s*[,;:=_-]?\\s*(?:flat|square|dia(?:meter|m)?\\.?|carbide|ball|nose|\\d\\s*-?\\s*flutes?|\\d\\s*fl\\b|v|of|a|an|the))*\\s*[,;:=_-]?\\s*";
    private static final Pattern BEFORE = Pattern.compile(
            NO_NUMBER_OF_A_TOOL + NUMBER + UNIT + FILLER + "(?:(" + POINTED + ")|(" + MILL + ")|(" + DRILL + "))");
    private static final Pattern AFTER =
            Pattern.compile("(?:(" + POINTED + ")|(" + MILL + ")|\\b(" + DRILL + "))" + FILLER + NUMBER + UNIT);
    private static final Pattern DIAMETER = Pattern.compile(
            "(?:\\bd\\s*[=:]\\s*|\\bd(?=\\d*\\.\\d)|\\bdia(?:m(?:eter)?)?\\b\\s*[.=:]*\\s*)" + NUMBER + UNIT);
    /** "T2: 0.8 mm"; not where the length is said to be something else. */
    private static final Pattern SIZE = Pattern.compile(
            "\\bt(?:ool)?\\s*#?\\s*\\d*\\s*[:=-]\\s*" + NUMBER
                    + "\\s*(mm|in\\b|inch|thou)\\b(?!\\s*(?:deep|depth|cut|pass|step|wide|width|high|above|below|over|up|down|z))");

    /** "3.175 mm shank", "shank 1/8 in", "1/8 in shaft": no size of what cuts. */
    private static final Pattern SHANK =
            Pattern.compile(NUMBER + UNIT + "\\s*-?\\s*(?:dia(?:m(?:eter)?)?\\.?\\s*)?sha(?:nk|ft)\\b"
                    + "|\\bsha(?:nk|ft)\\b\\s*(?:dia(?:m(?:eter)?)?\\.?)?\\s*[:=]?\\s*" + NUMBER + UNIT);

    private static final Pattern ANGLE = Pattern.compile(NUMBER + "\\s*(?:deg(?:rees?)?\\b|\u00b0)");
    private static final Pattern TIP = Pattern.compile(
            "\\btip\\s*(?:width|flat|dia(?:meter)?)?\\s*[=:]?\\s*" + NUMBER + "\\s*(mm|in\\b|inch|thou)");
    private static final Pattern CALLED = Pattern.compile("\\bt(?:ool)?\\s*(?:no\\.?|nr\\.?|number|#)?\\s*0*(\\d+)\\b");
    private static final double MM_PER_INCH = 25.4;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.TOOL_UNKNOWN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("A12");
    }

    /** A comment and where it stands. */
    private record Said(String text, int line) {}

    @Override
    public void examine(Examination x, FindingCollector out) {
        for (PlannedProgram program : x.plan().programs()) {
            one(x, program, out);
        }
    }

    private static void one(Examination x, PlannedProgram program, FindingCollector out) {
        CanonicalProgram commands = program.interpretation().commands();
        Set<String> told = new HashSet<>();
        List<Said> waiting = new ArrayList<>();
        int inSpindle = -1;
        for (int i = 0; i < commands.size(); i++) {
            CommandKind kind = commands.kind(i);
            if (kind == CommandKind.COMMENT || kind == CommandKind.MESSAGE) {
                Said said = new Said(commands.text(i).toLowerCase(Locale.ROOT), commands.line(i));
                int number = called(said.text());
                if (number > 0) {
                    judge(x, program, x.job().toolNumbered(number), said, told, out);
                } else {
                    waiting.add(said);
                }
            } else if (kind == CommandKind.CHANGE_TOOL) {
                inSpindle = (int) commands.value(i);
            } else if (kind.isMotion() && kind != CommandKind.STRAIGHT_TRAVERSE && !waiting.isEmpty()) {
                Tool tool = inSpindle > 0 ? x.job().toolNumbered(inSpindle) : ofEntry(x, program, inSpindle);
                for (Said said : waiting) {
                    judge(x, program, tool, said, told, out);
                }
                waiting.clear();
            }
        }
    }

    private static @Nullable Tool ofEntry(Examination x, PlannedProgram program, int inSpindle) {
        String named = program.entry().tool();
        return inSpindle >= 0 || named == null ? null : x.job().toolNamed(named);
    }

    /** The tool number that a comment names, or 0: none, or more than one. */
    private static int called(String text) {
        Matcher m = CALLED.matcher(text);
        int number = 0;
        while (m.find()) {
            int next = m.group(1).length() > 5 ? 0 : Integer.parseInt(m.group(1));
            if (number > 0 && next != number) {
                return 0;
            }
            number = next;
        }
        return number;
    }

    private static void judge(
            Examination x,
            PlannedProgram program,
            @Nullable Tool tool,
            Said said,
            Set<String> told,
            FindingCollector out) {
        if (tool == null) {
            return;
        }
        String fault = mismatch(x, tool, said.text());
        if (fault == null || !told.add(tool.name())) {
            return;
        }
        int line = said.line();
        out.add(x.at(
                        Finding.of(Kinds.TOOL_UNKNOWN, Severity.FIX, Certainty.GEOMETRY),
                        x.firstSegmentFrom(program, line))
                .side(program.side().number())
                .line(program.file(), line)
                .tool(tool.name())
                .says("The comment \"" + said.text().strip() + "\" speaks of " + fault + ", but the job has "
                        + described(tool) + " there: one of them is wrong.")
                .doThis("Look which cutter the program was made for; mend the job's tool or the program.")
                .build());
    }

    private static String described(Tool tool) {
        String called =
                Examination.called(Words.quoted(tool.name()), tool.number().orElse(0));
        return switch (tool.shape()) {
            case V ->
                called + ", a V-shaped engraving bit of "
                        + Words.number(StrictMath.toDegrees(tool.includedAngleRad()), 0) + " deg included angle";
            case DRILL -> called + ", a drill of " + Words.mm(tool.diameterMm());
            default -> called + ", an end mill of " + Words.mm(tool.diameterMm());
        };
    }

    /** What the comment names that the tool is not, in words; null where it fits or names nothing clearly. */
    private static @Nullable String mismatch(Examination x, Tool tool, String said) {
        double share = x.limit(LimitKey.COMMENT_DIAMETER);
        boolean pointed = tool.shape() == ToolShape.V;
        List<double[]> sizes = new ArrayList<>();
        String text = pointed ? said : SHANK.matcher(said).replaceAll(" ");
        boolean mill = false;
        boolean drill = false;
        for (Pattern pattern : List.of(BEFORE, AFTER)) {
            Matcher m = pattern.matcher(text);
            while (m.find()) {
                boolean first = pattern == BEFORE;
                String number = m.group(first ? 1 : 4);
                String unit = m.group(first ? 2 : 5);
                int noun = first ? 3 : 1;
                boolean angle = unit != null && (unit.startsWith("deg") || unit.equals("\u00b0"));
                if (angle || m.group(noun) != null || isCount(text, m.end(first ? 1 : 4))) {
                    continue;
                }
                mill |= m.group(noun + 1) != null;
                drill |= m.group(noun + 2) != null;
                sizes.add(lengths(number, unit));
            }
        }
        boolean nounThere = Pattern.compile(MILL + "|" + DRILL + "|\\btool\\b|\\bbit\\b|\\bt\\d")
                .matcher(text)
                .find();
        Matcher d = DIAMETER.matcher(text);
        while (d.find() && nounThere) {
            sizes.add(lengths(d.group(1), d.group(2)));
        }
        Matcher named = SIZE.matcher(text);
        while (named.find()) {
            sizes.add(lengths(named.group(1), named.group(2)));
        }
        String angle = angle(tool, text, share);
        if (angle != null) {
            return angle;
        }
        if (pointed) {
            boolean angled = ANGLE.matcher(text).find()
                    || Pattern.compile(POINTED).matcher(text).find();
            String tip = tip(tool, text, share);
            return tip != null
                    ? tip
                    : mill && !angled && !sizes.isEmpty() && !fits(tool, sizes, share)
                            ? "an end mill of " + shown(sizes.get(0))
                            : null;
        }
        boolean judged = !sizes.isEmpty() && (tool.shape() == ToolShape.DRILL || mill || !drill);
        return judged && !fits(tool, sizes, share) ? "a cutter of " + shown(sizes.get(0)) : null;
    }

    /** Whether a number counts flutes. */
    private static boolean isCount(String text, int end) {
        return text.substring(end).matches("\\s*-?\\s*(?:flutes?|fl)\\b.*");
    }

    private static @Nullable String angle(Tool tool, String text, double share) {
        boolean cutter = Pattern.compile(POINTED + "|" + MILL + "|" + DRILL + "|\\bbit\\b")
                .matcher(text)
                .find();
        Matcher m = ANGLE.matcher(text);
        if (!cutter || !m.find()) {
            return null;
        }
        double said = value(m.group(1));
        double own = StrictMath.toDegrees(tool.includedAngleRad());
        boolean half = text.contains("taper") || text.contains("half") || text.contains("side");
        if (tool.shape() == ToolShape.FLAT || tool.shape() == ToolShape.BALL) {
            return said < 100 && Pattern.compile(POINTED).matcher(text).find()
                    ? "a V-shaped bit of " + Words.number(said, 0) + " deg"
                    : null;
        }
        boolean fits = near(said, own, share) || half && near(2 * said, own, share);
        while (!fits && m.find()) {
            fits = near(value(m.group(1)), own, share);
        }
        return fits ? null : Words.number(said, 0) + " deg";
    }

    private static @Nullable String tip(Tool tool, String text, double share) {
        Matcher m = TIP.matcher(text);
        if (!m.find() || tool.tipWidthMm().isEmpty()) {
            return null;
        }
        double said = lengths(m.group(1), m.group(2))[0];
        return near(said, tool.tipWidthMm().getAsDouble(), share) ? null : "a tip of " + Words.mm(said);
    }

    private static boolean fits(Tool tool, List<double[]> sizes, double share) {
        boolean pointed = tool.shape() == ToolShape.V;
        for (double[] readings : sizes) {
            for (double said : readings) {
                // the shank is a V-shaped bit's largest diameter, and no size of another cutter
                if (near(said, tool.diameterMm(), share)
                        || pointed
                                && tool.shankMm().isPresent()
                                && near(said, tool.shankMm().getAsDouble(), share)
                        || tool.tipWidthMm().isPresent()
                                && near(said, tool.tipWidthMm().getAsDouble(), share)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean near(double said, double own, double share) {
        return Math.abs(said - own) <= share * own + 1e-9;
    }

    private static String shown(double[] readings) {
        return Words.mm(readings[0]);
    }

    /** The lengths that a number may mean, mm: one with a unit, mm and inch without. */
    private static double[] lengths(String number, @Nullable String unit) {
        double value = value(number);
        if (unit == null) {
            return number.contains("/")
                    ? new double[] {value * MM_PER_INCH}
                    : new double[] {value, value * MM_PER_INCH};
        }
        return new double[] {
            unit.startsWith("mm") || unit.startsWith("millim")
                    ? value
                    : unit.startsWith("thou") ? value * MM_PER_INCH / 1000 : value * MM_PER_INCH
        };
    }

    private static double value(String number) {
        int slash = number.indexOf('/');
        if (slash < 0) {
            return Double.parseDouble(number);
        }
        double below = Double.parseDouble(number.substring(slash + 1).strip());
        return below == 0
                ? Double.NaN
                : Double.parseDouble(number.substring(0, slash).strip()) / below;
    }
}
