package foilproof.findings;

/** What each segment did when it ran, replayed in time order over the surface as it was then. */
interface Engagements {
    /** Volumes up to this are nothing: rounding of the replay, mm3. */
    double NOTHING_MM3 = 1e-7;

    /** Volume removed, mm3. */
    double removedMm3(int segment);

    /** Largest depth of the tip below the surface as it was, mm. */
    double depthMm(int segment);

    /** Whether foil was taken. */
    boolean cutsFoil(int segment);
}
