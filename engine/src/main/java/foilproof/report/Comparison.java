package foilproof.report;

import foilproof.findings.Finding;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What changed since an earlier result: inputs by their hash, the set-up, findings, Z windows, tools and times.
 *
 * @param oldVerdict verdict of the earlier result, as it has it
 * @param inputs files that changed, came or went
 * @param setUp lines of the set-up and of the tools that differ
 * @param appeared findings that the earlier result does not have
 * @param gone findings of the earlier result that are no longer there
 * @param unchanged how many findings both have
 * @param windows Z windows that moved, came or went
 * @param oldTotalS total time of the earlier result, seconds, or null where it has none
 * @param totalS total time now, seconds
 */
public record Comparison(
        @Nullable String oldVerdict,
        List<InputChange> inputs,
        List<Difference> setUp,
        List<Told> appeared,
        List<Told> gone,
        int unchanged,
        List<Difference> windows,
        @Nullable Double oldTotalS,
        double totalS) {
    private static final double SAME_PLACE_MM = 0.05;
    private static final double SAME_TIME_S = 0.0005;

    /** Copies the lists. */
    public Comparison {
        inputs = List.copyOf(inputs);
        setUp = List.copyOf(setUp);
        appeared = List.copyOf(appeared);
        gone = List.copyOf(gone);
        windows = List.copyOf(windows);
    }

    /**
     * A file that differs.
     *
     * @param file its name
     * @param change {@code changed}, {@code added} or {@code removed}
     * @param oldSha256 its earlier hash, or null
     * @param sha256 its hash now, or null
     */
    public record InputChange(
            String file,
            String change,
            @Nullable String oldSha256,
            @Nullable String sha256) {}

    /**
     * A value that differs.
     *
     * @param what what it is of
     * @param before earlier, or null where it was not there
     * @param now now, or null where it is not there any more
     */
    public record Difference(
            String what, @Nullable String before, @Nullable String now) {}

    /**
     * A finding as far as two results can be held side by side.
     *
     * @param kind kind
     * @param severity severity
     * @param message message
     * @param program program, or null
     * @param line line, or null
     * @param side side, or null
     * @param tool tool, or null
     * @param atMm place, or null
     */
    public record Told(
            String kind,
            String severity,
            String message,
            @Nullable String program,
            @Nullable Integer line,
            @Nullable Integer side,
            @Nullable String tool,
            double @Nullable [] atMm) {
        static Told of(Finding f) {
            return new Told(
                    f.kind(), f.severity().word(), f.message(), f.program(), f.line(), f.side(), f.tool(), f.atMm());
        }

        /** The same fault at the same place; lines move when a program is edited, so a place counts more. */
        private boolean same(Told o) {
            if (!kind.equals(o.kind)
                    || !severity.equals(o.severity)
                    || !Objects.equals(side, o.side)
                    || !Objects.equals(program, o.program)) {
                return false;
            }
            if (atMm != null && o.atMm != null && Double.isFinite(atMm[0]) && Double.isFinite(o.atMm[0])) {
                return StrictMath.hypot(atMm[0] - o.atMm[0], atMm[1] - o.atMm[1]) <= SAME_PLACE_MM;
            }
            return atMm == null == (o.atMm == null) && (Objects.equals(line, o.line) || message.equals(o.message));
        }
    }

    /** Whether nothing at all differs. */
    public boolean nothing() {
        return inputs.isEmpty()
                && setUp.isEmpty()
                && appeared.isEmpty()
                && gone.isEmpty()
                && windows.isEmpty()
                && oldTotalS != null
                && Math.abs(oldTotalS - totalS) < SAME_TIME_S;
    }

    /**
     * Holds a result against the text of an earlier {@code result.json}.
     *
     * @throws IllegalArgumentException where the text is no result of ours, with the reason
     */
    public static Comparison of(String oldJson, ResultDocument now) {
        Object old;
        try {
            old = JsonValue.parse(oldJson);
        } catch (JsonValue.NoJsonException e) {
            throw new IllegalArgumentException("it is no JSON: " + e.getMessage(), e);
        }
        if (JsonValue.whole(old, "schema") == null || JsonValue.text(old, "verdict") == null) {
            throw new IllegalArgumentException("it is no result of a dry run: \"schema\" or \"verdict\" is missing");
        }
        Differ findings = new Differ(told(old), now.findings());
        return new Comparison(
                JsonValue.text(old, "verdict"),
                inputs(old, now),
                setUp(old, now),
                findings.appeared,
                findings.gone,
                findings.unchanged,
                differences(oldWindows(old), windows(now)),
                JsonValue.number(JsonValue.get(old, "time"), "total_s"),
                now.time().totalS());
    }

    /** Pairs old findings with new ones, in order, each at most once. */
    private static final class Differ {
        private final List<Told> appeared = new ArrayList<>();
        private final List<Told> gone;
        private int unchanged;

        Differ(List<Told> old, List<Finding> now) {
            gone = new ArrayList<>(old);
            for (Finding finding : now) {
                Told told = Told.of(finding);
                int found = -1;
                for (int i = 0; i < gone.size() && found < 0; i++) {
                    found = gone.get(i).same(told) ? i : -1;
                }
                if (found < 0) {
                    appeared.add(told);
                } else {
                    gone.remove(found);
                    unchanged++;
                }
            }
        }
    }

    private static List<Told> told(@Nullable Object old) {
        List<Told> out = new ArrayList<>();
        for (Object f : JsonValue.list(old, "findings")) {
            out.add(new Told(
                    Objects.requireNonNullElse(JsonValue.text(f, "kind"), ""),
                    Objects.requireNonNullElse(JsonValue.text(f, "severity"), ""),
                    Objects.requireNonNullElse(JsonValue.text(f, "message"), ""),
                    JsonValue.text(f, "program"),
                    JsonValue.whole(f, "line"),
                    JsonValue.whole(f, "side"),
                    JsonValue.text(f, "tool"),
                    JsonValue.numbers(f, "at_mm")));
        }
        return out;
    }

    private static List<InputChange> inputs(@Nullable Object old, ResultDocument now) {
        Map<String, String> before = new LinkedHashMap<>();
        for (Object input : JsonValue.list(old, "inputs")) {
            String file = JsonValue.text(input, "file");
            if (file != null) {
                before.put(file, Objects.requireNonNullElse(JsonValue.text(input, "sha256"), ""));
            }
        }
        List<InputChange> out = new ArrayList<>();
        for (ResultDocument.InputFile input : now.inputs()) {
            String hash = before.remove(input.file());
            if (hash == null) {
                out.add(new InputChange(input.file(), "added", null, input.sha256()));
            } else if (!hash.equals(input.sha256())) {
                out.add(new InputChange(input.file(), "changed", hash, input.sha256()));
            }
        }
        before.forEach((file, hash) -> out.add(new InputChange(file, "removed", hash, null)));
        return out;
    }

    private static List<Difference> setUp(@Nullable Object old, ResultDocument now) {
        Map<String, String> before = new LinkedHashMap<>();
        for (Object line : JsonValue.list(old, "set_up")) {
            String what = JsonValue.text(line, "what");
            if (what != null) {
                before.put(what, Objects.requireNonNullElse(JsonValue.text(line, "value"), ""));
            }
        }
        for (Object tool : JsonValue.list(old, "tools")) {
            Double seconds = JsonValue.number(tool, "time_s");
            before.put(
                    "tool " + JsonValue.text(tool, "name"),
                    tool(
                            JsonValue.whole(tool, "number"),
                            JsonValue.text(tool, "shape"),
                            JsonValue.text(tool, "duty"),
                            JsonValue.number(tool, "deepest_mm"),
                            seconds == null ? 0 : seconds));
        }
        before.put("cells", cells(JsonValue.number(old, "cell_um")));
        Map<String, String> after = new LinkedHashMap<>();
        now.setUp().forEach(line -> after.put(line.what(), line.value()));
        for (ResultDocument.ToolFacts tool : now.tools()) {
            after.put(
                    "tool " + tool.name(),
                    tool(tool.number(), tool.shape(), tool.duty(), tool.deepestMm(), tool.timeS()));
        }
        after.put("cells", cells(now.cellUm()));
        return differences(before, after);
    }

    private static String cells(@Nullable Double cellUm) {
        return cellUm == null ? "not told" : Decimals.plain(cellUm, 3) + " um";
    }

    private static String tool(
            @Nullable Integer number,
            @Nullable String shape,
            @Nullable String duty,
            @Nullable Double deepestMm,
            double timeS) {
        return (number == null ? "" : "T" + number + ", ") + (shape == null ? "shape not known" : shape)
                + (duty == null ? "" : ", reserved for " + duty)
                + (deepestMm == null
                        ? ", cuts nothing"
                        : ", deepest Z " + HumanText.signedLength(Math.rint(deepestMm * 1e6) / 1e6))
                + ", " + HumanText.clock(timeS);
    }

    private static Map<String, String> windows(ResultDocument now) {
        Map<String, String> out = new LinkedHashMap<>();
        for (ResultDocument.ZWindow w : now.zWindows()) {
            Double from = w.fromMm();
            Double to = w.toMm();
            out.put(
                    "run " + w.run() + ", " + w.tool() + ", side " + w.side(),
                    window(
                            w.empty(),
                            from == null || !Double.isFinite(from) ? null : Double.valueOf(Decimals.upToUm(from)),
                            to == null || !Double.isFinite(to) ? null : Double.valueOf(Decimals.downToUm(to))));
        }
        return out;
    }

    private static Map<String, String> oldWindows(@Nullable Object old) {
        Map<String, String> out = new LinkedHashMap<>();
        for (Object w : JsonValue.list(old, "z_window")) {
            out.put(
                    "run " + JsonValue.whole(w, "run") + ", " + JsonValue.text(w, "tool") + ", side "
                            + JsonValue.whole(w, "side"),
                    window(
                            Boolean.TRUE.equals(JsonValue.get(w, "empty")),
                            JsonValue.number(w, "from_mm"),
                            JsonValue.number(w, "to_mm")));
        }
        return out;
    }

    private static String window(boolean empty, @Nullable Double fromMm, @Nullable Double toMm) {
        return HumanText.window(empty, fromMm, toMm);
    }

    private static List<Difference> differences(Map<String, String> before, Map<String, String> after) {
        List<Difference> out = new ArrayList<>();
        Map<String, String> left = new LinkedHashMap<>(before);
        after.forEach((what, value) -> {
            String was = left.remove(what);
            if (!value.equals(was)) {
                out.add(new Difference(what, was, value));
            }
        });
        left.forEach((what, value) -> out.add(new Difference(what, value, null)));
        return out;
    }

    /** The whole comparison as lines of text, the first a summary. */
    public List<String> lines() {
        List<String> out = new ArrayList<>();
        if (nothing()) {
            out.add("Nothing changed: the same inputs, set-up, findings, Z windows and times.");
            return out;
        }
        out.add(String.format(
                Locale.ROOT,
                "Verdict before: %s. Findings: %d appeared, %d gone, %d unchanged. Inputs that differ: %d.",
                oldVerdict,
                appeared.size(),
                gone.size(),
                unchanged,
                inputs.size()));
        for (InputChange input : inputs) {
            out.add("input " + input.change() + ": " + input.file()
                    + (input.oldSha256() == null ? "" : ", SHA-256 before " + shortHash(input.oldSha256()))
                    + (input.sha256() == null ? "" : ", now " + shortHash(input.sha256())));
        }
        appeared.forEach(f -> out.add("appeared: " + said(f)));
        gone.forEach(f -> out.add("gone: " + said(f)));
        setUp.forEach(d -> out.add(d.what() + ": before " + or(d.before()) + "; now " + or(d.now())));
        windows.forEach(d -> out.add("Z window, " + d.what() + ": before " + or(d.before()) + "; now " + or(d.now())));
        if (oldTotalS != null && Math.abs(oldTotalS - totalS) >= SAME_TIME_S) {
            out.add("time: before " + HumanText.clock(oldTotalS) + ", now " + HumanText.clock(totalS));
        }
        return out;
    }

    private static String said(Told f) {
        return f.severity() + " " + f.kind() + ": " + f.message()
                + (f.program() == null ? "" : " (" + f.program() + (f.line() == null ? "" : " line " + f.line()) + ")");
    }

    private static String or(@Nullable String value) {
        return value == null ? "not there" : value;
    }

    private static String shortHash(String hash) {
        return hash.length() <= 12 ? hash : hash.substring(0, 12) + "...";
    }
}
