package foilproof.motion;

/** What the Z zero of a tool run was set on. */
public enum ZeroReference {
    /** The foil top: zero lies on the composed surface at the touch point when the run begins. */
    FOIL,
    /** The top of the spoil board: zero lies at -(thickness + tape) below the nominal foil top. */
    SPOIL_BOARD
}
