package foilproof.findings;

/** Told how far a run has come, and asked whether it should go on. Called from the running thread. */
public interface Progress {
    /** Tells nobody and never cancels. */
    Progress NONE = (what, fraction) -> true;

    /**
     * Tells how far the run is.
     *
     * @param what what is being done, in words
     * @param fraction share of the whole run, 0 to 1
     * @return false to cancel the run
     */
    boolean at(String what, double fraction);
}
