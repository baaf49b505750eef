package foilproof.bench;

import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.NoSuchFileException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;

/**
 * {@code accepted.toml}, the file beside a job that holds accepted findings: one {@code [[accepted]]} table a finding
 * with {@code kind}, {@code severity}, {@code program}, {@code line}, {@code side}, {@code at}, {@code reason} and
 * {@code inputs}, the hash over all inputs. It is no input of the run itself: it never changes what is found.
 */
public final class AcceptedFile {
    /** The file's name in the job's folder. */
    public static final String NAME = "accepted.toml";

    private static final String HEAD = """
            # Findings that a person accepted for a reason. Each holds for the very bytes of the inputs at that time:
            # "inputs" is a hash over all of them, and any change voids the acceptance.
            """;

    private AcceptedFile() {}

    /**
     * Reads the file beside a job; empty where there is none.
     *
     * @throws InputException where it is there and cannot be read
     */
    public static List<Acceptance> read(FileAccess files) throws InputException {
        SourceFile file;
        try {
            file = files.read(NAME, TomlLoader.MOST_BYTES);
        } catch (NoSuchFileException e) {
            return List.of();
        } catch (IOException e) {
            Problems problems = new Problems();
            problems.add(SourceSpan.ofFile(NAME), "unreadable-file", "The file cannot be read.", null, null);
            problems.throwIfAny();
            return List.of();
        }
        return read(file);
    }

    /**
     * Reads such a file.
     *
     * @throws InputException where it is wrong, with every place
     */
    public static List<Acceptance> read(SourceFile file) throws InputException {
        Problems problems = new Problems();
        Node.Tab root = TomlLoader.load(file, InputLimits.DEFAULT, problems);
        problems.throwIfAny();
        List<Acceptance> all = new ArrayList<>();
        if (root != null) {
            Keys keys = new Keys(root, "", problems);
            for (Keys table : keys.tables("accepted")) {
                Acceptance one = one(table);
                if (one != null) {
                    all.add(one);
                }
                table.close();
            }
            keys.close();
        }
        problems.throwIfAny();
        return List.copyOf(all);
    }

    private static @Nullable Acceptance one(Keys table) {
        String kind = needed(table, "kind", "hair");
        String severity = needed(table, "severity", "fix");
        String reason = needed(table, "reason", "measured under a loupe: it is whole");
        String inputs = needed(table, "inputs", "0123abcd...");
        String program = table.has("program") ? table.string("program", "isolation.ngc") : null;
        OptionalInt line = table.has("line") ? table.whole("line", 1, Integer.MAX_VALUE) : OptionalInt.empty();
        OptionalInt side = table.has("side") ? table.whole("side", 1, 99) : OptionalInt.empty();
        XyMm at = table.has("at") ? table.place("at", Keys.Sign.ANY) : null;
        return kind == null || severity == null || reason == null || inputs == null
                ? null
                : new Acceptance(
                        kind,
                        severity,
                        program,
                        line.isPresent() ? line.getAsInt() : null,
                        side.isPresent() ? side.getAsInt() : null,
                        at,
                        reason,
                        inputs);
    }

    private static @Nullable String needed(Keys table, String key, String example) {
        if (!table.has(key)) {
            table.missing(key, "\"" + example + "\"");
            return null;
        }
        return table.string(key, example);
    }

    /** The file's text; reading it gives the same acceptances. */
    public static String write(List<Acceptance> all) {
        StringBuilder out = new StringBuilder(HEAD);
        for (Acceptance one : all) {
            out.append("\n[[accepted]]\n");
            pair(out, "kind", one.kind());
            pair(out, "severity", one.severity());
            if (one.program() != null) {
                pair(out, "program", one.program());
            }
            if (one.line() != null) {
                out.append("line = ").append(one.line()).append('\n');
            }
            if (one.side() != null) {
                out.append("side = ").append(one.side()).append('\n');
            }
            XyMm at = one.atMm();
            if (at != null) {
                out.append(String.format(Locale.ROOT, "at = [\"%.3f mm\", \"%.3f mm\"]%n", at.xMm(), at.yMm())
                        .replace("\r", ""));
            }
            pair(out, "reason", one.reason());
            pair(out, "inputs", one.inputs());
        }
        return out.toString();
    }

    private static void pair(StringBuilder out, String key, String value) {
        out.append(key).append(" = \"");
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            if (c == '"' || c == '\\') {
                out.append('\\').append(c);
            } else if (c < ' ' || c == 0x7f) {
                out.append("\\u00").append(HexFormat.of().toHexDigits((byte) c));
            } else {
                out.append(c);
            }
        }
        out.append("\"\n");
    }

    /**
     * The hash over all inputs of a run: SHA-256 over name and SHA-256 of every file that was read, in the order of their
     * names, and over every setting of the command line in its order.
     */
    public static String hashOf(List<SourceFile> inputs, List<String> settings) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            List<SourceFile> sorted = new ArrayList<>(inputs);
            sorted.sort(Comparator.comparing(SourceFile::name));
            for (SourceFile file : sorted) {
                digest.update((file.name() + "\0" + file.sha256() + "\n").getBytes(StandardCharsets.UTF_8));
            }
            for (String setting : settings) {
                digest.update(("\0set\0" + setting + "\n").getBytes(StandardCharsets.UTF_8));
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
