package foilproof.samples;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/**
 * What {@code expected.toml} of a sample job says.
 *
 * @param verdict the verdict that the job must get
 * @param othersAtMost severity that findings beside the rows may reach, or null where any may
 * @param silent kinds that must not be raised above a note
 * @param rows findings that must be raised
 * @param windows Z windows that must come out
 * @param holes the holes that must come out
 */
record ExpectedFindings(
        String verdict,
        @Nullable String othersAtMost,
        List<String> silent,
        List<Row> rows,
        List<Window> windows,
        List<Holes> holes) {

    /**
     * A finding that must be raised.
     *
     * @param needs rows of the catalogue of needs
     * @param kind its kind
     * @param severity its severity
     * @param program the program, or null where any
     * @param line the physical line, empty where any
     * @param side the side, empty where any
     * @param atMm the place in the blank's frame, to be met within 1 mm, or null where any
     * @param measured the value, empty where any
     * @param within how near the value must come
     * @param says words that the message must hold
     * @param coming true where the check is not built yet: the row is not held, nor is it an error if it is raised
     */
    record Row(
            String needs,
            String kind,
            String severity,
            @Nullable String program,
            OptionalInt line,
            OptionalInt side,
            double @Nullable [] atMm,
            OptionalDouble measured,
            double within,
            List<String> says,
            boolean coming) {}

    /** A Z window that must come out, as printed. */
    record Window(
            String tool, int side, double fromMm, double toMm, String limitedFrom, String limitedTo, double marginMm) {}

    /** So many holes of these diameters must come out. */
    record Holes(int count, double entryMm, double exitMm, boolean through, double withinMm) {}

    static ExpectedFindings read(Path file) throws IOException {
        TomlParseResult t = Toml.parse(file);
        if (t.hasErrors()) {
            throw new IOException(file + ": " + t.errors().get(0));
        }
        List<Row> rows = new ArrayList<>();
        for (TomlTable r : tables(t, "raise")) {
            rows.add(new Row(
                    text(r, "needs"),
                    text(r, "kind"),
                    text(r, "severity"),
                    r.getString("program"),
                    whole(r, "line"),
                    whole(r, "side"),
                    place(r.getArray("at_mm")),
                    number(r, "measured"),
                    number(r, "within").orElse(0),
                    texts(r.getArray("says")),
                    Boolean.TRUE.equals(r.getBoolean("coming"))));
        }
        List<Window> windows = new ArrayList<>();
        for (TomlTable w : tables(t, "z_window")) {
            windows.add(new Window(
                    text(w, "tool"),
                    whole(w, "side").orElseThrow(),
                    number(w, "from_mm").orElseThrow(),
                    number(w, "to_mm").orElseThrow(),
                    text(w, "limited_from"),
                    text(w, "limited_to"),
                    number(w, "margin_mm").orElseThrow()));
        }
        List<Holes> holes = new ArrayList<>();
        for (TomlTable h : tables(t, "holes")) {
            holes.add(new Holes(
                    whole(h, "count").orElseThrow(),
                    number(h, "entry_mm").orElseThrow(),
                    number(h, "exit_mm").orElseThrow(),
                    Boolean.TRUE.equals(h.getBoolean("through")),
                    number(h, "within_mm").orElseThrow()));
        }
        List<String> silent = texts(t.getArray("silent"));
        return new ExpectedFindings(text(t, "verdict"), t.getString("others_at_most"), silent, rows, windows, holes);
    }

    private static List<String> texts(@Nullable TomlArray array) {
        List<String> texts = new ArrayList<>();
        for (int i = 0; array != null && i < array.size(); i++) {
            texts.add(array.getString(i));
        }
        return texts;
    }

    private static List<TomlTable> tables(TomlTable table, String key) {
        List<TomlTable> found = new ArrayList<>();
        TomlArray array = table.getArray(key);
        for (int i = 0; array != null && i < array.size(); i++) {
            found.add(array.getTable(i));
        }
        return found;
    }

    private static String text(TomlTable table, String key) {
        String text = table.getString(key);
        if (text == null) {
            throw new IllegalArgumentException("the key " + key + " is missing");
        }
        return text;
    }

    private static OptionalInt whole(TomlTable table, String key) {
        Long value = table.getLong(key);
        return value == null ? OptionalInt.empty() : OptionalInt.of((int) (long) value);
    }

    private static OptionalDouble number(TomlTable table, String key) {
        Object value = table.get(List.of(key));
        return value instanceof Number n ? OptionalDouble.of(n.doubleValue()) : OptionalDouble.empty();
    }

    private static double @Nullable [] place(@Nullable TomlArray array) {
        return array == null ? null : new double[] {array.getDouble(0), array.getDouble(1)};
    }
}
