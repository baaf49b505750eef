package foilproof.findings;

import foilproof.bench.Job;
import foilproof.bench.JobReader;
import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import foilproof.bench.ReadOptions;
import foilproof.source.InputException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A small job in memory for tests of checks. The bench begins sound: a one-sided FR-1 blank of 20 x 15 mm, 1.5 mm
 * thick, half-ounce foil, on 0.1 mm of tape and 6 mm of spoil board, Z errors within +/- 0.03 mm, and five cutters; a
 * test changes what it is about. Lengths are TOML text with their unit, as a person writes them.
 *
 * <p>Cutters: T1 "engraver" (V, 30 deg, flat tip 0.12 mm, copper only), T2 "cutter" (flat, 0.8 mm, any duty), T3
 * "isolator" (flat, 0.8 mm, copper only), T4 "drill" (1.0 mm, 118 deg), T5 "pencil" (V, 30 deg, flat tip 0.10 mm, any
 * duty).
 */
public final class Bench {
    /** Cell that is fine enough for depths, heights, feeds: all that does not depend on widths, mm. */
    public static final double COARSE_MM = 0.02;

    private final Map<String, Map<String, String>> tables = new LinkedHashMap<>();
    private final Map<String, Map<String, String>> tools = new LinkedHashMap<>();
    private final List<Map<String, String>> sides = new ArrayList<>();
    private final List<List<Map<String, String>>> programs = new ArrayList<>();
    private final MemoryFiles files = new MemoryFiles();
    private final Map<String, String> texts = new LinkedHashMap<>();
    private final List<String> settings = new ArrayList<>();
    private final StringBuilder extra = new StringBuilder();
    private double cellMm = COARSE_MM;
    private int threads = 1;
    private ExamineOptions.@Nullable Restart restart;

    private Bench() {}

    /** A sound bench without programs. */
    public static Bench job() {
        Bench b = new Bench();
        b.table("blank")
                .putAll(keys(
                        "substrate",
                        "FR-1",
                        "thickness",
                        "1.5 mm",
                        "foil",
                        "0.5 oz",
                        "copper",
                        "one side",
                        "width",
                        "20 mm",
                        "height",
                        "15 mm",
                        "hold",
                        "full tape",
                        "tape",
                        "0.1 mm",
                        "surface",
                        "flat"));
        b.table("spoil_board").putAll(keys("thickness", "6 mm"));
        b.table("machine")
                .putAll(keys(
                        "units",
                        "mm",
                        "on_tool_change",
                        "stop",
                        "max_feed",
                        "1200 mm/min",
                        "rapid",
                        "2500 mm/min",
                        "acceleration",
                        "250 mm/s2",
                        "repeatability",
                        "0.02 mm",
                        "extraction",
                        "true",
                        "spindle",
                        "[\"8000 rpm\", \"24000 rpm\"]"));
        b.table("spread").putAll(keys("z", "[\"-0.030 mm\", \"0.030 mm\"]"));
        String[] common = {"shank", "3.175 mm", "stick_out", "10 mm", "runout", "0 mm", "centre_cutting", "true"};
        b.tool("engraver", "number", "1", "shape", "V", "included_angle", "30 deg", "tip_width", "0.12 mm");
        b.tool("engraver", "flutes", "1", "flute_length", "6 mm", "duty", "copper only")
                .tool("engraver", common);
        b.tool("cutter", "number", "2", "shape", "flat", "diameter", "0.8 mm", "flutes", "2", "flute_length", "4 mm");
        b.tool("cutter", "duty", "any").tool("cutter", common);
        b.tool("isolator", "number", "3", "shape", "flat", "diameter", "0.8 mm", "flutes", "2");
        b.tool("isolator", "flute_length", "4 mm", "duty", "copper only").tool("isolator", common);
        b.tool("drill", "number", "4", "shape", "drill", "diameter", "1.0 mm", "included_angle", "118 deg");
        b.tool("drill", "flutes", "2", "flute_length", "9 mm", "duty", "any").tool("drill", common);
        b.tool("pencil", "number", "5", "shape", "V", "included_angle", "30 deg", "tip_width", "0.10 mm");
        b.tool("pencil", "flutes", "1", "flute_length", "6 mm", "duty", "any").tool("pencil", common);
        b.sides.add(keys(
                "face",
                "bottom",
                "turned",
                "no",
                "z_zero",
                "foil",
                "work_zero",
                "[\"0 mm\", \"0 mm\"]",
                "touch_off",
                "[\"18.5 mm\", \"13.5 mm\"]"));
        b.programs.add(new ArrayList<>());
        return b;
    }

    /** Sets keys of [blank]. */
    public Bench blank(String... keysAndValues) {
        table("blank").putAll(keys(keysAndValues));
        return this;
    }

    /** Sets keys of [spoil_board]. */
    public Bench spoilBoard(String thickness) {
        table("spoil_board").put("thickness", thickness);
        return this;
    }

    /** Sets keys of [machine]. */
    public Bench machine(String... keysAndValues) {
        table("machine").putAll(keys(keysAndValues));
        return this;
    }

    /** Sets keys of [spread]. */
    public Bench spread(String... keysAndValues) {
        table("spread").putAll(keys(keysAndValues));
        return this;
    }

    /** Takes a key out of a table. */
    public Bench without(String table, String key) {
        table(table).remove(key);
        return this;
    }

    /** Sets keys of a tool; a new name is a new tool. */
    public Bench tool(String name, String... keysAndValues) {
        tools.computeIfAbsent(name, n -> new LinkedHashMap<>()).putAll(keys(keysAndValues));
        return this;
    }

    /** Takes a key out of a tool. */
    public Bench toolWithout(String name, String key) {
        tools.get(name).remove(key);
        return this;
    }

    /** Sets keys of the last side. */
    public Bench side(String... keysAndValues) {
        sides.get(sides.size() - 1).putAll(keys(keysAndValues));
        return this;
    }

    /** Begins a further side, turned as said, its work zero at the blank's lower-left corner as it lies then. */
    public Bench nextSide(String face, String turned) {
        sides.add(keys(
                "face",
                face,
                "turned",
                turned,
                "z_zero",
                "foil",
                "work_zero",
                "[\"0 mm\", \"0 mm\"]",
                "touch_off",
                "[\"18.5 mm\", \"13.5 mm\"]"));
        programs.add(new ArrayList<>());
        return this;
    }

    /** Adds a program to the last side. */
    public Bench program(String file, String text, String... keysAndValues) {
        Map<String, String> entry = keys("file", file);
        entry.putAll(keys(keysAndValues));
        programs.get(programs.size() - 1).add(entry);
        files.with(file, text);
        texts.put(file, text);
        return this;
    }

    /** Adds the program a.ngc. */
    public Bench runs(String text) {
        return program("a.ngc", text);
    }

    /** Adds a keep-out box, all in mm. */
    public Bench keepOut(String name, double x0, double y0, double x1, double y1, double top) {
        extra.append("\n[[keep_out]]\nname = \"").append(name).append("\"\nbox = [\"");
        extra.append(x0)
                .append(" mm\", \"")
                .append(y0)
                .append(" mm\", \"")
                .append(x1)
                .append(" mm\", \"");
        extra.append(y1).append(" mm\"]\ntop = \"").append(top).append(" mm\"\n");
        return this;
    }

    /** Adds a design file under a key of [design]; the design's zero is the blank's lower-left corner. */
    public Bench design(String key, String file, String text) {
        table("design").put(key, file);
        files.with(file, text);
        return this;
    }

    /** Sets keys of [design]. */
    public Bench designKeys(String... keysAndValues) {
        table("design").putAll(keys(keysAndValues));
        return this;
    }

    /** Adds TOML text at the job's end. */
    public Bench also(String toml) {
        extra.append('\n').append(toml).append('\n');
        return this;
    }

    /** Adds a {@code KEY=VALUE} setting as on the command line. */
    public Bench set(String keyAndValue) {
        settings.add(keyAndValue);
        return this;
    }

    /** Sets the cell, um. */
    public Bench cellUm(double um) {
        cellMm = um / 1000;
        return this;
    }

    /** Asks for a restart of a.ngc at a line. */
    public Bench restartsAt(int line, boolean freshBlank) {
        restart = new ExamineOptions.Restart("a.ngc", line, freshBlank);
        return this;
    }

    /** Sets the number of threads. */
    public Bench threads(int number) {
        threads = number;
        return this;
    }

    /** The job as its reader sees it. */
    public Job read() {
        try {
            return JobReader.read(
                    new JobSource(files.with("job.toml", toml()), "job.toml"),
                    ReadOptions.DEFAULT.withSettings(settings));
        } catch (InputException e) {
            throw new IllegalStateException(e.getMessage() + "\n" + toml(), e);
        }
    }

    /** How the job is examined. */
    public ExamineOptions options() {
        return new ExamineOptions(cellMm, threads, Progress.NONE, restart);
    }

    /** Runs the job and gathers what the checks say. */
    public Verdicts examined() {
        Job job = read();
        try {
            Catalogue.Outcome outcome = Catalogue.judge(Examiner.examine(job, ReadDesign.of(job), options()));
            Wording.holds(outcome.findings());
            return new Verdicts(outcome, texts);
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Shorthand for {@link Verdicts#raises(String, Severity, Certainty)} of the examined job. */
    public Raised raises(String kind, Severity severity, Certainty certainty) {
        return examined().raises(kind, severity, certainty);
    }

    /** Runs the job and asserts that a kind is not raised. */
    public Verdicts isSilentOn(String kind) {
        return examined().isSilentOn(kind);
    }

    /** The job file. */
    public String toml() {
        StringBuilder t = new StringBuilder("job = \"Test bench\"\n");
        tables.forEach((name, keys) -> section(t, "[" + name + "]", keys));
        tools.forEach((name, keys) -> {
            Map<String, String> all = keys("name", name);
            all.putAll(keys);
            section(t, "[[tool]]", all);
        });
        for (int i = 0; i < sides.size(); i++) {
            section(t, "[[side]]", sides.get(i));
            programs.get(i).forEach(p -> section(t, "[[side.program]]", p));
        }
        return t.append(extra).toString();
    }

    private static void section(StringBuilder t, String head, Map<String, String> keys) {
        t.append('\n').append(head).append('\n');
        keys.forEach((k, v) -> {
            boolean bare = v.startsWith("[") || v.equals("true") || v.equals("false") || v.matches("[0-9]+");
            t.append(k).append(" = ").append(bare ? v : "\"" + v + "\"").append('\n');
        });
    }

    private Map<String, String> table(String name) {
        return tables.computeIfAbsent(name, n -> new LinkedHashMap<>());
    }

    private static Map<String, String> keys(String... keysAndValues) {
        Map<String, String> map = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            map.put(keysAndValues[i], keysAndValues[i + 1]);
        }
        return map;
    }
}
