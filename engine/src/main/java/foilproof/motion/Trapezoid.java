package foilproof.motion;

/**
 * One move under constant acceleration: speed rises from the entry speed, holds, and falls to the exit speed.
 * Closed forms of uniformly accelerated motion, v^2 = v0^2 + 2 a d.
 */
public final class Trapezoid {
    private Trapezoid() {}

    /**
     * The largest speed that a move reaches: min(v, sqrt((2 a d + v0^2 + v1^2) / 2)).
     *
     * @param distanceMm length of the move, above 0
     * @param limitMmPerS programmed speed
     * @param accelerationMmPerS2 acceleration along the path; infinite where none is taken into account
     * @param entryMmPerS speed at the start
     * @param exitMmPerS speed at the end; must be reachable ({@link #reachable})
     */
    public static double peakMmPerS(
            double distanceMm, double limitMmPerS, double accelerationMmPerS2, double entryMmPerS, double exitMmPerS) {
        double squared = accelerationMmPerS2 * distanceMm + (entryMmPerS * entryMmPerS + exitMmPerS * exitMmPerS) / 2;
        return Math.max(Math.max(entryMmPerS, exitMmPerS), Math.min(limitMmPerS, Math.sqrt(squared)));
    }

    /** How long the move takes, seconds; parameters as for {@link #peakMmPerS}. */
    public static double durationS(
            double distanceMm, double limitMmPerS, double accelerationMmPerS2, double entryMmPerS, double exitMmPerS) {
        double peak = peakMmPerS(distanceMm, limitMmPerS, accelerationMmPerS2, entryMmPerS, exitMmPerS);
        return durationAtPeakS(distanceMm, peak, accelerationMmPerS2, entryMmPerS, exitMmPerS);
    }

    static double durationAtPeakS(double distanceMm, double peak, double acceleration, double entry, double exit) {
        double ramps = (2 * peak * peak - entry * entry - exit * exit) / (2 * acceleration);
        return (2 * peak - entry - exit) / acceleration + Math.max(0, distanceMm - ramps) / peak;
    }

    /** The fastest exit (or, read backwards, entry) that {@code distanceMm} allows: sqrt(v0^2 + 2 a d). */
    public static double reachable(double entryMmPerS, double distanceMm, double accelerationMmPerS2) {
        return Math.sqrt(entryMmPerS * entryMmPerS + 2 * accelerationMmPerS2 * distanceMm);
    }

    /**
     * How much of the path lies behind after {@code afterS} seconds.
     *
     * @return 0 at the start, 1 at the end
     */
    static double fraction(
            double distanceMm,
            double peak,
            double acceleration,
            double entry,
            double exit,
            double durationS,
            double afterS) {
        if (afterS <= 0 || distanceMm <= 0) {
            return 0;
        }
        if (afterS >= durationS) {
            return 1;
        }
        double riseS = (peak - entry) / acceleration;
        double fallS = (peak - exit) / acceleration;
        double done;
        if (afterS < riseS) {
            done = entry * afterS + acceleration * afterS * afterS / 2;
        } else if (afterS > durationS - fallS) {
            double left = durationS - afterS;
            done = distanceMm - (exit * left + acceleration * left * left / 2);
        } else {
            done = (entry + peak) / 2 * riseS + peak * (afterS - riseS);
        }
        return Math.min(1, Math.max(0, done / distanceMm));
    }

    /**
     * Time of a move from rest to rest where the jerk is limited too, for ranges of time: the plan itself knows no jerk.
     * Speed reached: d/v + the ramp's time, which is v/a + a/j where v >= a^2/j (the acceleration is reached) and
     * 2 sqrt(v/j) where not; a ramp covers half its time at v. Speed not reached: the same with the speed at which two
     * ramps fill the distance.
     *
     * @param distanceMm length of the move, above 0
     * @param limitMmPerS programmed speed
     * @param accelerationMmPerS2 largest acceleration along the path
     * @param jerkMmPerS3 largest change of the acceleration
     */
    public static double jerkLimitedS(
            double distanceMm, double limitMmPerS, double accelerationMmPerS2, double jerkMmPerS3) {
        double kneeMmPerS = accelerationMmPerS2 * accelerationMmPerS2 / jerkMmPerS3;
        double speed;
        if (distanceMm >= 2 * kneeMmPerS * accelerationMmPerS2 / jerkMmPerS3) {
            speed = (Math.sqrt(kneeMmPerS * kneeMmPerS + 4 * accelerationMmPerS2 * distanceMm) - kneeMmPerS) / 2;
        } else {
            speed = StrictMath.cbrt(distanceMm * distanceMm * jerkMmPerS3 / 4);
        }
        speed = Math.min(speed, limitMmPerS);
        double ramp = speed >= kneeMmPerS
                ? speed / accelerationMmPerS2 + accelerationMmPerS2 / jerkMmPerS3
                : 2 * Math.sqrt(speed / jerkMmPerS3);
        return distanceMm / speed + ramp;
    }
}
