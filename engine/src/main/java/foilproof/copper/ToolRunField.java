package foilproof.copper;

/**
 * The Z error at which one tool run, or all of them together, would just clear each place: e* = E + z0 - (S - t), mm,
 * + = really deeper (design section 1, idea 4). Copper at error e is where e* &gt; e and every other run leaves copper.
 *
 * <p>{@link #marginRow} and {@link #exactMarginMm} give e*; {@link #capMm()} is where the envelope's headroom ends: no
 * run reaches such a place within the headroom, whatever the error. What the other runs leave is asked apart.
 */
public interface ToolRunField extends MarginField {
    /** Whether other runs cut this side at all. */
    boolean hasOthers();

    /**
     * Margins that the other runs leave, each at its own set-up, mm above the glue plane; copper where above 0.
     *
     * @param row 0 to {@code rows() - 1}
     * @param into at least {@code columns()} long
     */
    void othersRow(int row, float[] into);

    /** What the other runs leave at a place, mm above the glue plane. */
    double exactOthersMm(double xMm, double yMm);

    /** How far the Z error can be thought to move before the envelope ends, mm; beyond it nothing is known. */
    double headroomMm();

    /**
     * The same run on a blank whose surface is flat at its nominal height, touched off on it: what is left of an empty
     * Z window when the blank is pressed flat. This field itself where it is flat already.
     */
    ToolRunField flattened();

    /** Whether no other run comes into a tile: {@link #othersRow} is above 0 all over it. False where it is not known. */
    default boolean untouchedByOthers(int tileX, int tileY) {
        return false;
    }
}
