package foilproof.bench;

import org.jspecify.annotations.Nullable;

/**
 * A finding that a person accepted for a reason. It is meant for one finding and for the very bytes of the inputs at
 * that time: a change of any of them voids it.
 *
 * @param kind kind of the finding
 * @param severity its severity, e.g. {@code fix}
 * @param program program file, or null where the finding names none
 * @param line physical line, from 1, or null
 * @param side from 1, or null
 * @param atMm x, y in the blank's frame of that side, or null
 * @param reason why it was accepted, in the person's words
 * @param inputs hash over all inputs, lower-case hexadecimal
 */
public record Acceptance(
        String kind,
        String severity,
        @Nullable String program,
        @Nullable Integer line,
        @Nullable Integer side,
        @Nullable XyMm atMm,
        String reason,
        String inputs) {}
