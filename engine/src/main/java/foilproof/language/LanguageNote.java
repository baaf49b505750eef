package foilproof.language;

import foilproof.source.SourceSpan;

/**
 * A fact about a program, at its place.
 *
 * @param kind which fact
 * @param span where
 * @param value the number that {@link NoteKind} says, NaN where it says none
 * @param text one sentence, or the thing named
 */
public record LanguageNote(NoteKind kind, SourceSpan span, double value, String text) {}
