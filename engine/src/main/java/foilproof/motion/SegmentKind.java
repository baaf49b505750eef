package foilproof.motion;

/** What a segment does. */
public enum SegmentKind {
    /** A traverse at the machine's rapid speeds (G0, the fast moves of canned cycles, G28, G30). */
    RAPID,
    /** A move at a programmed feed: line, arc or helix (G1, G2, G3, the slow moves of canned cycles). */
    FEED,
    /** A probing move at a programmed feed (G38.2 to G38.5), up to where it tripped. */
    PROBE
}
