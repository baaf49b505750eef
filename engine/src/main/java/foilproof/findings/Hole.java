package foilproof.findings;

/**
 * A hole: plunges of any cutter, and bores, that pass through the foil into the substrate; all at one place are one.
 *
 * @param side from 1
 * @param xMm middle, blank's frame
 * @param yMm middle, blank's frame
 * @param run index of the tool run that makes it what it is (the deepest)
 * @param segment the segment that goes deepest
 * @param bored whether it was circled (bored) rather than plunged
 * @param pathRadiusMm radius of the circling path, 0 for a plunge
 * @param tipMm height of the lowest tip, blank's frame, mm
 * @param circledMm height down to which it has its full shape all round, blank's frame, mm (helices end higher)
 * @param entryMm diameter at the foil's top
 * @param exitMm diameter at the blank's underside, 0 where it does not reach it
 * @param longestPlungeMm the deepest single straight way down without coming up, mm
 * @param runs how many tool runs cut at its place
 * @param pecks how many times the cutter went in
 */
public record Hole(
        int side,
        double xMm,
        double yMm,
        int run,
        int segment,
        boolean bored,
        double pathRadiusMm,
        double tipMm,
        double circledMm,
        double entryMm,
        double exitMm,
        double longestPlungeMm,
        int runs,
        int pecks) {
    /** Whether it passes the blank. */
    public boolean through() {
        return exitMm > 0;
    }

    /** Whether it was meant to pass a blank of this thickness: it does, or goes deeper than half of it. */
    boolean meantThrough(double thicknessMm) {
        return through() || -tipMm > thicknessMm / 2;
    }
}
