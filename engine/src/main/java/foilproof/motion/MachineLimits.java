package foilproof.motion;

/**
 * What the machine can do, as the timing needs it.
 *
 * @param rapidXMmPerMin fastest X, mm/min
 * @param rapidYMmPerMin fastest Y, mm/min
 * @param rapidZMmPerMin fastest Z, mm/min
 * @param maxFeedMmPerMin fastest programmed feed that is carried out, mm/min; infinite where not known
 * @param accelerationMmPerS2 acceleration along the path, mm/s2; infinite where not known, and then speeds change at
 *     once and the time is a floor
 * @param feedStandInMmPerMin what is taken for a feed that was never set, mm/min, so that time goes on
 */
record MachineLimits(
        double rapidXMmPerMin,
        double rapidYMmPerMin,
        double rapidZMmPerMin,
        double maxFeedMmPerMin,
        double accelerationMmPerS2,
        double feedStandInMmPerMin) {}
