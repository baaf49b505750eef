package foilproof.geom;

import org.jspecify.annotations.Nullable;

/** Thrown where a text is no quantity of the wanted dimension: says where in the text, what is wrong, what was expected. */
public final class QuantityFormatException extends Exception {
    private static final long serialVersionUID = 1L;
    private final int offset;
    private final int endOffset;
    private final String expected;
    private final @Nullable String nearestUnit;

    QuantityFormatException(int offset, int endOffset, String message, String expected, @Nullable String nearestUnit) {
        super(message);
        this.offset = offset;
        this.endOffset = endOffset;
        this.expected = expected;
        this.nearestUnit = nearestUnit;
    }

    /** First char of the trouble in the parsed text, 0-based. */
    public int offset() {
        return offset;
    }

    /** One past the last char of the trouble; at least {@link #offset()}. */
    public int endOffset() {
        return endOffset;
    }

    /** What was expected, one sentence with an example. */
    public String expected() {
        return expected;
    }

    /** The valid unit that was most likely meant, or null. */
    public @Nullable String nearestUnit() {
        return nearestUnit;
    }

    /** What is wrong, one sentence; never null. */
    public String problem() {
        String message = getMessage();
        return message == null ? "" : message;
    }
}
