package foilproof.report;

import foilproof.bench.Job;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The lines of a job's programs by physical number; a file is split when first asked for. */
final class ProgramLines {
    private final Map<String, SourceFile> files = new HashMap<>();
    private final Map<String, List<String>> lines = new HashMap<>();

    ProgramLines(Job job) {
        for (SourceFile file : job.inputs()) {
            files.putIfAbsent(file.name(), file);
        }
    }

    @Nullable
    String text(String program, int line) {
        SourceFile file = files.get(program);
        if (file == null) {
            return null;
        }
        List<String> all = lines.computeIfAbsent(program, name -> split(file.latin1()));
        return line >= 1 && line <= all.size() ? all.get(line - 1) : null;
    }

    /** Lines end at LF, CRLF or CR, as the language reads them. */
    private static List<String> split(String text) {
        List<String> out = new ArrayList<>();
        int start = 0;
        for (int at = 0; at < text.length(); at++) {
            char c = text.charAt(at);
            if (c == '\n' || c == '\r') {
                out.add(text.substring(start, at));
                at += c == '\r' && at + 1 < text.length() && text.charAt(at + 1) == '\n' ? 1 : 0;
                start = at + 1;
            }
        }
        out.add(text.substring(start));
        return out;
    }
}
