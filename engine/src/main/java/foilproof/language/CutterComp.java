package foilproof.language;

/** Cutter radius compensation. */
public enum CutterComp {
    /** G40. */
    OFF,
    /** G41: the tool runs left of the programmed path. */
    LEFT,
    /** G42: the tool runs right of the programmed path. */
    RIGHT
}
