package foilproof.language;

/** Which programs are accepted. */
public enum Dialect {
    /** RS274/NGC exactly as NISTIR 6556 publishes it; everything else is an error. */
    STRICT,
    /** The strict language plus what desktop controllers commonly accept; {@code package-info} lists the additions. */
    COMMON
}
