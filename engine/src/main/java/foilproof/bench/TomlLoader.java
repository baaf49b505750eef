package foilproof.bench;

import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/** Turns TOML text into a tree of {@link Node}s whose places are those of the values. */
final class TomlLoader {
    /** Largest job or shop file, bytes: tens of thousands of touched points fit. */
    static final int MOST_BYTES = 2 * 1024 * 1024;

    /** Longest line, characters. */
    static final int MOST_LINE_CHARS = 64 * 1024;

    private final SourceFile file;
    private final String text;
    private final String[] lines;
    private final Problems problems;

    private TomlLoader(SourceFile file, String text, Problems problems) {
        this.file = file;
        this.text = text;
        this.lines = text.split("\r\n|\n|\r", -1);
        this.problems = problems;
    }

    /** The root table, or null where the file cannot be read at all; what is wrong goes to {@code problems}. */
    static Node.@Nullable Tab load(SourceFile file, InputLimits limits, Problems problems) {
        problems.know(file, "");
        if (file.size() > MOST_BYTES) {
            problems.add(
                    SourceSpan.ofFile(file.name()),
                    "file-too-large",
                    "The file has " + file.size() + " bytes.",
                    "At most " + MOST_BYTES + " bytes are read.",
                    null);
            return null;
        }
        String text = decode(file, problems);
        if (text == null) {
            return null;
        }
        problems.know(file, text);
        TomlLoader loader = new TomlLoader(file, text, problems);
        return loader.withinLimits(limits) ? loader.parse() : null;
    }

    /** Reads one TOML value of a command line setting, or null where it is none. */
    static @Nullable Node value(String source, String name, int column, Problems problems) {
        TomlParseResult result = Toml.parse("v = " + source);
        if (result.hasErrors()) {
            return null;
        }
        Object value = result.get(List.of("v"));
        SourceSpan span = new SourceSpan(name, 1, column, column + source.length());
        return value == null || result.size() != 1 ? null : plain(value, span);
    }

    private static Node plain(Object value, SourceSpan span) {
        if (value instanceof TomlArray array) {
            List<Node> items = new ArrayList<>();
            for (int i = 0; i < array.size(); i++) {
                items.add(plain(array.get(i), span));
            }
            return new Node.Arr(items, span);
        }
        if (value instanceof TomlTable table) {
            Node.Tab tab = new Node.Tab(span);
            for (String key : table.keySet()) {
                Object inner = table.get(List.of(key));
                if (inner != null) {
                    tab.put(key, plain(inner, span), span);
                }
            }
            return tab;
        }
        return new Node.Scalar(value, null, span);
    }

    private static @Nullable String decode(SourceFile file, Problems problems) {
        byte[] bytes = file.bytes();
        if (bytes.length >= 2
                && (bytes[0] == (byte) 0xFF && bytes[1] == (byte) 0xFE
                        || bytes[0] == (byte) 0xFE && bytes[1] == (byte) 0xFF)) {
            problems.add(
                    SourceSpan.ofFile(file.name()),
                    "encoding",
                    "The file is UTF-16 text.",
                    "Save it again as UTF-8.",
                    null);
            return null;
        }
        int from = bytes.length >= 3 && bytes[0] == (byte) 0xEF && bytes[1] == (byte) 0xBB && bytes[2] == (byte) 0xBF
                ? 3
                : 0;
        int line = 1;
        int lineStart = from;
        for (int i = from; i < bytes.length; i++) {
            if (bytes[i] == 0) {
                SourceSpan span = new SourceSpan(file.name(), line, i - lineStart + 1, i - lineStart + 2);
                problems.add(
                        span, "encoding", "A zero byte: this is no text file.", "Expected a job file in UTF-8.", null);
                return null;
            }
            if (bytes[i] == '\n') {
                line++;
                lineStart = i + 1;
            }
        }
        CharBuffer out = CharBuffer.allocate(bytes.length + 1);
        ByteBuffer in = ByteBuffer.wrap(bytes, from, bytes.length - from);
        try {
            var decoder = StandardCharsets.UTF_8.newDecoder().onMalformedInput(CodingErrorAction.REPORT);
            var result = decoder.decode(in, out, true);
            if (result.isError()) {
                result.throwException();
            }
        } catch (CharacterCodingException e) {
            String before = out.flip().toString();
            int badLine = 1 + (int) before.chars().filter(c -> c == '\n').count();
            int column = before.length() - before.lastIndexOf('\n');
            SourceSpan span = new SourceSpan(file.name(), badLine, column, column + 1);
            problems.add(span, "encoding", "A byte that is not UTF-8.", "Save the file again as UTF-8.", null);
            return null;
        }
        return out.flip().toString();
    }

    /** Refuses what would cost the parser its stack or its time, before it is called. */
    private boolean withinLimits(InputLimits limits) {
        for (int i = 0; i < lines.length; i++) {
            if (lines[i].length() > MOST_LINE_CHARS) {
                problems.add(
                        SourceSpan.ofLine(file.name(), i + 1),
                        "line-too-long",
                        "The line has " + lines[i].length() + " characters.",
                        "At most " + MOST_LINE_CHARS + " characters a line are read.",
                        null);
                return false;
            }
        }
        int nesting = 0;
        int number = 0;
        char quote = 0;
        int line = 1;
        int lineStart = 0;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '\n') {
                line++;
                lineStart = i + 1;
                quote = 0;
            } else if (quote != 0) {
                if (c == '\\' && quote == '"') {
                    i++;
                } else if (c == quote) {
                    quote = 0;
                }
            } else if (c == '"' || c == '\'') {
                quote = c;
            } else if (c == '#') {
                int end = text.indexOf('\n', i);
                i = (end < 0 ? text.length() : end) - 1;
            } else if (c == '[' || c == '{') {
                nesting++;
            } else if (c == ']' || c == '}') {
                nesting--;
            }
            number = quote == 0 && c >= '0' && c <= '9' ? number + 1 : 0;
            int column = i - lineStart + 1;
            if (nesting > limits.nesting()) {
                problems.add(
                        new SourceSpan(file.name(), line, column, column + 1),
                        "nesting",
                        "Brackets are nested more than " + limits.nesting() + " deep.",
                        null,
                        null);
                return false;
            }
            if (number > limits.numberChars()) {
                problems.add(
                        new SourceSpan(file.name(), line, column, column + 1),
                        "number-too-long",
                        "A number has more than " + limits.numberChars() + " digits.",
                        null,
                        null);
                return false;
            }
        }
        return true;
    }

    private Node.@Nullable Tab parse() {
        TomlParseResult result = Toml.parse(text);
        for (TomlParseError error : result.errors()) {
            SourceSpan span = word(error.position());
            String message = error.getMessage() == null ? "This is no TOML." : error.getMessage() + ".";
            problems.add(span, "toml", message, expectation(span), null);
        }
        return result.hasErrors() ? null : table(result, SourceSpan.ofFile(file.name()));
    }

    /** A bare quantity or a decimal comma is the usual slip: say what to do. */
    private @Nullable String expectation(SourceSpan span) {
        String line = problems.line(file.name(), span.line());
        if (line != null && line.matches("\\s*[A-Za-z0-9_.\"-]+\\s*=\\s*[-+.0-9][^\"']*")) {
            return "Quantities are strings with a unit and a decimal point: \"1.5 mm\".";
        }
        return null;
    }

    private Node.Tab table(TomlTable table, SourceSpan span) {
        Node.Tab tab = new Node.Tab(span);
        for (String key : table.keySet()) {
            Object value = table.get(List.of(key));
            TomlPosition at = table.inputPositionOf(List.of(key));
            if (value == null || at == null) {
                continue;
            }
            tab.put(key, node(value, at, true), keySpan(key, at));
        }
        return tab;
    }

    private Node node(Object value, TomlPosition at, boolean afterKey) {
        if (value instanceof TomlTable inner) {
            return table(inner, word(at));
        }
        int[] place = afterKey ? valueAfterKey(at) : skipBlank(at.line(), at.column());
        SourceSpan span = spanOfValue(place[0], place[1]);
        if (value instanceof TomlArray array) {
            List<Node> items = new ArrayList<>();
            for (int i = 0; i < array.size(); i++) {
                items.add(node(array.get(i), array.inputPositionOf(i), false));
            }
            return new Node.Arr(items, span);
        }
        return new Node.Scalar(value, null, span);
    }

    /** Of a header {@code [a.b]} or a dotted key the part that is the key itself. */
    private SourceSpan keySpan(String key, TomlPosition at) {
        String line = lines[at.line() - 1];
        int end = line.indexOf('=', at.column() - 1);
        int found = line.indexOf(key, at.column() - 1);
        if (found >= 0 && (end < 0 || found < end)) {
            return new SourceSpan(file.name(), at.line(), found + 1, found + 1 + key.length());
        }
        return word(at);
    }

    /** From a key to its value: over the key, quotes in it respected, the equals sign and blanks. */
    private int[] valueAfterKey(TomlPosition at) {
        String line = lines[at.line() - 1];
        char quote = 0;
        for (int i = at.column() - 1; i < line.length(); i++) {
            char c = line.charAt(i);
            if (quote != 0) {
                quote = c == quote ? 0 : quote;
            } else if (c == '"' || c == '\'') {
                quote = c;
            } else if (c == '=') {
                return skipBlank(at.line(), i + 2);
            } else if (c == '[' && i == at.column() - 1) {
                break;
            }
        }
        return new int[] {at.line(), at.column()};
    }

    /** Skips blanks, comments and line ends, which may stand before an item of an array. */
    private int[] skipBlank(int fromLine, int fromColumn) {
        int line = fromLine;
        int column = fromColumn;
        while (line <= lines.length) {
            String s = lines[line - 1];
            while (column <= s.length() && (s.charAt(column - 1) == ' ' || s.charAt(column - 1) == '\t')) {
                column++;
            }
            if (column <= s.length() && s.charAt(column - 1) != '#') {
                return new int[] {line, column};
            }
            line++;
            column = 1;
        }
        return new int[] {fromLine, fromColumn};
    }

    private SourceSpan spanOfValue(int line, int column) {
        String s = lines[line - 1];
        int i = column - 1;
        if (i >= s.length()) {
            return new SourceSpan(file.name(), line, column, column + 1);
        }
        char first = s.charAt(i);
        int end = i + 1;
        if (first == '"' || first == '\'') {
            while (end < s.length() && s.charAt(end) != first) {
                end += s.charAt(end) == '\\' && first == '"' ? 2 : 1;
            }
            end++;
        } else if (first == '[') {
            end = endOfArray(s, i);
        } else {
            while (end < s.length() && " \t,]}#".indexOf(s.charAt(end)) < 0) {
                end++;
            }
        }
        return new SourceSpan(file.name(), line, column, Math.min(s.length(), end) + 1);
    }

    private static int endOfArray(String s, int from) {
        int depth = 0;
        char quote = 0;
        for (int i = from; i < s.length(); i++) {
            char c = s.charAt(i);
            if (quote != 0) {
                quote = c == quote ? 0 : quote;
            } else if (c == '"' || c == '\'') {
                quote = c;
            } else if (c == '[') {
                depth++;
            } else if (c == ']' && --depth == 0) {
                return i + 1;
            }
        }
        return s.length();
    }

    private SourceSpan word(TomlPosition at) {
        int line = Math.max(1, Math.min(at.line(), lines.length));
        String s = lines[line - 1];
        int end = at.column();
        while (end <= s.length() && " \t=,#".indexOf(s.charAt(end - 1)) < 0) {
            end++;
        }
        return new SourceSpan(file.name(), line, at.column(), Math.max(end, at.column() + 1));
    }
}
