package foilproof.language;

import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Collects the facts of a run, a bounded number of each kind. */
final class Notes {
    private static final int MOST_OF_A_KIND = 1000;

    private final String file;
    private final List<LanguageNote> notes = new ArrayList<>();
    private final int[] counts = new int[NoteKind.values().length];
    private final Map<NoteKind, SourceSpan> firstLeftOut = new EnumMap<>(NoteKind.class);

    Notes(String file) {
        this.file = file;
    }

    void add(NoteKind kind, int line, int columnSpan, double value, String text) {
        SourceSpan span = new SourceSpan(file, line, columnSpan >>> 16, columnSpan & 0xffff);
        if (counts[kind.ordinal()]++ < MOST_OF_A_KIND) {
            notes.add(new LanguageNote(kind, span, value, text));
        } else {
            firstLeftOut.putIfAbsent(kind, span);
        }
    }

    boolean has(NoteKind kind) {
        return counts[kind.ordinal()] > 0;
    }

    List<LanguageNote> finish() {
        for (Map.Entry<NoteKind, SourceSpan> entry : firstLeftOut.entrySet()) {
            NoteKind kind = entry.getKey();
            double leftOut = counts[kind.ordinal()] - (double) MOST_OF_A_KIND;
            notes.add(new LanguageNote(NoteKind.NOTES_LEFT_OUT, entry.getValue(), leftOut, kind.name()));
        }
        return notes;
    }
}
