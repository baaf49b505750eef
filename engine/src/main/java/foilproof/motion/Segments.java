package foilproof.motion;

import foilproof.language.PathMode;

/**
 * All moves of a job in time order, as columns of primitive values: immutable, safe to share between threads.
 *
 * <p>Frames: X and Y are in the blank's frame of the side in force as the blank lies then, lower-left corner (0, 0).
 * Z is the height of the cutter's tip above the Z zero of the segment's tool run, down negative; a wrong or missing
 * length offset is already in it (see {@link ToolRun#residualZMm()}).
 *
 * <p>An arc turns about (cx, cy) by {@code sweepRad}, counter-clockwise positive seen from above, its Z changing
 * linearly with the turn (a helix). A sweep of 0 is a straight line. Arcs in the other planes have become chords
 * within 0.5 um.
 */
public final class Segments {
    /** The move belongs to a canned cycle. */
    public static final int CANNED_CYCLE = 1;
    /** Where the move begins or ends is not known: it was programmed in machine coordinates that the job leaves open. */
    public static final int POSITION_UNKNOWN = 2;
    /** The move was programmed in machine coordinates (G53, G28, G30). */
    public static final int MACHINE_COORDINATES = 4;
    /** Where the cutter stood when its program began is not known, and this move begins there in X, Y or Z. */
    public static final int START_UNKNOWN = 8;
    /** The feed was never set when the move was commanded, so that its speed is a stand-in. */
    public static final int FEED_UNSET = 16;
    /** The feed was given as inverse time (G93). */
    public static final int INVERSE_TIME = 32;
    /** Cutter radius compensation is on. */
    public static final int RADIUS_COMPENSATED = 64;
    /** A chord of an arc in the XZ or YZ plane. */
    public static final int ARC_CHORD = 128;
    /** Units (G20, G21) had not been said when the move was commanded. */
    public static final int UNITS_UNSET = 256;

    private static final SegmentKind[] KINDS = SegmentKind.values();
    private static final PathMode[] PATH_MODES = PathMode.values();

    private final int size;
    private final byte[] kind;
    private final double[] x0Mm;
    private final double[] y0Mm;
    private final double[] z0Mm;
    private final double[] x1Mm;
    private final double[] y1Mm;
    private final double[] z1Mm;
    private final double[] cxMm;
    private final double[] cyMm;
    private final double[] sweepRad;
    private final double[] startS;
    private final double[] durationS;
    private final float[] entryMmPerS;
    private final float[] exitMmPerS;
    private final double[] feedMmPerMin;
    private final double[] peakMmPerMin;
    private final float[] spindleRpm;
    private final byte[] spindleTurn;
    private final byte[] pathMode;
    private final int[] program;
    private final int[] line;
    private final int[] run;
    private final short[] flags;

    Segments(SegmentsBuilder b) {
        size = b.size;
        b.trim();
        kind = b.kind;
        x0Mm = b.x0Mm;
        y0Mm = b.y0Mm;
        z0Mm = b.z0Mm;
        x1Mm = b.x1Mm;
        y1Mm = b.y1Mm;
        z1Mm = b.z1Mm;
        cxMm = b.cxMm;
        cyMm = b.cyMm;
        sweepRad = b.sweepRad;
        startS = b.startS;
        durationS = b.durationS;
        entryMmPerS = b.entryMmPerS;
        exitMmPerS = b.exitMmPerS;
        feedMmPerMin = b.feedMmPerMin;
        peakMmPerMin = b.peakMmPerMin;
        spindleRpm = b.spindleRpm;
        spindleTurn = b.spindleTurn;
        pathMode = b.pathMode;
        program = b.program;
        line = b.line;
        run = b.run;
        flags = b.flags;
    }

    /** How many segments there are. */
    public int size() {
        return size;
    }

    /** What segment {@code i} does. */
    public SegmentKind kind(int i) {
        return KINDS[kind[i]];
    }

    /** Whether segment {@code i} is a rapid. */
    public boolean isRapid(int i) {
        return kind[i] == 0;
    }

    /** Whether segment {@code i} moves at a programmed feed (probing moves are not meant). */
    public boolean isFeed(int i) {
        return kind[i] == 1;
    }

    /** Start, X in mm, blank's frame. */
    public double x0Mm(int i) {
        return x0Mm[i];
    }

    /** Start, Y in mm, blank's frame. */
    public double y0Mm(int i) {
        return y0Mm[i];
    }

    /** Start, tip height in mm in the run's own zero. */
    public double z0Mm(int i) {
        return z0Mm[i];
    }

    /** End, X in mm, blank's frame. */
    public double x1Mm(int i) {
        return x1Mm[i];
    }

    /** End, Y in mm, blank's frame. */
    public double y1Mm(int i) {
        return y1Mm[i];
    }

    /** End, tip height in mm in the run's own zero. */
    public double z1Mm(int i) {
        return z1Mm[i];
    }

    /** Centre of the arc, X in mm; 0 for a line. */
    public double cxMm(int i) {
        return cxMm[i];
    }

    /** Centre of the arc, Y in mm; 0 for a line. */
    public double cyMm(int i) {
        return cyMm[i];
    }

    /** Turn of the arc in radians, counter-clockwise positive seen from above; 0 for a line. */
    public double sweepRad(int i) {
        return sweepRad[i];
    }

    /** Whether segment {@code i} is an arc or a helix in the XY plane. */
    public boolean isArc(int i) {
        return sweepRad[i] != 0;
    }

    /** Radius of the arc at its start, mm; 0 for a line. */
    public double radiusMm(int i) {
        return sweepRad[i] == 0 ? 0 : Plane2.length(x0Mm[i] - cxMm[i], y0Mm[i] - cyMm[i]);
    }

    /** Start, seconds since the job's start. */
    public double startS(int i) {
        return startS[i];
    }

    /** How long the move takes, seconds. */
    public double durationS(int i) {
        return durationS[i];
    }

    /** End, seconds since the job's start. */
    public double endS(int i) {
        return startS[i] + durationS[i];
    }

    /** Speed at the start, mm/s along the path. */
    public double entryMmPerS(int i) {
        return entryMmPerS[i];
    }

    /** Speed at the end, mm/s along the path. */
    public double exitMmPerS(int i) {
        return exitMmPerS[i];
    }

    /**
     * Programmed speed along the path, mm/min: the F word for feeds (inverse time already converted), the speed that
     * the axes' rapid limits allow for rapids. NaN where a feed was never set.
     */
    public double feedMmPerMin(int i) {
        return feedMmPerMin[i];
    }

    /** Largest speed along the path that the move reaches, mm/min: acceleration and the machine's limits applied. */
    public double peakMmPerMin(int i) {
        return peakMmPerMin[i];
    }

    /** Commanded spindle speed, rpm; NaN where no S word came yet. It turns only where {@link #spindleTurn} is not 0. */
    public double spindleRpm(int i) {
        return spindleRpm[i];
    }

    /** 1 clockwise (M3), -1 counter-clockwise (M4), 0 not commanded to turn. */
    public int spindleTurn(int i) {
        return spindleTurn[i];
    }

    /** The path mode in force; unset runs as continuous with the machine's own corner deviation. */
    public PathMode pathMode(int i) {
        return PATH_MODES[pathMode[i]];
    }

    /** Index of the program entry in {@link MotionPlan#programs()}. */
    public int program(int i) {
        return program[i];
    }

    /** Physical line in the program file, from 1. */
    public int line(int i) {
        return line[i];
    }

    /** Index of the tool run. */
    public int run(int i) {
        return run[i];
    }

    /** All flags of segment {@code i}, a sum of the constants of this class. */
    public int flags(int i) {
        return flags[i] & 0xffff;
    }

    /** Whether segment {@code i} has {@code flag}. */
    public boolean has(int i, int flag) {
        return (flags[i] & flag) != 0;
    }

    /** Length of the path in mm: along the helix for helices. */
    public double lengthMm(int i) {
        double dz = z1Mm[i] - z0Mm[i];
        return Math.sqrt(planLengthSquared(i) + dz * dz);
    }

    /** Length of the path's plan view in mm, Z left out. */
    public double planLengthMm(int i) {
        return Math.sqrt(planLengthSquared(i));
    }

    private double planLengthSquared(int i) {
        if (sweepRad[i] != 0) {
            double along = radiusMm(i) * sweepRad[i];
            return along * along;
        }
        double dx = x1Mm[i] - x0Mm[i];
        double dy = y1Mm[i] - y0Mm[i];
        return dx * dx + dy * dy;
    }

    /** Lower of the two end heights, mm in the run's own zero (Z changes linearly along a segment). */
    public double lowestMm(int i) {
        return Math.min(z0Mm[i], z1Mm[i]);
    }

    /**
     * The tip at a fraction of the path of segment {@code i}.
     *
     * @param i the segment
     * @param fraction 0 at its start, 1 at its end
     * @return X, Y in mm in the blank's frame, Z in mm in the run's own zero
     */
    public double[] pointAt(int i, double fraction) {
        double z = z0Mm[i] + (z1Mm[i] - z0Mm[i]) * fraction;
        if (sweepRad[i] == 0) {
            return new double[] {x0Mm[i] + (x1Mm[i] - x0Mm[i]) * fraction, y0Mm[i] + (y1Mm[i] - y0Mm[i]) * fraction, z};
        }
        double a = sweepRad[i] * fraction;
        double c = StrictMath.cos(a);
        double s = StrictMath.sin(a);
        double dx = x0Mm[i] - cxMm[i];
        double dy = y0Mm[i] - cyMm[i];
        // Start and end radii of a legal arc may differ by rounding: the error is spread along the turn.
        double ex = x1Mm[i] - cxMm[i] - (dx * StrictMath.cos(sweepRad[i]) - dy * StrictMath.sin(sweepRad[i]));
        double ey = y1Mm[i] - cyMm[i] - (dx * StrictMath.sin(sweepRad[i]) + dy * StrictMath.cos(sweepRad[i]));
        return new double[] {cxMm[i] + dx * c - dy * s + ex * fraction, cyMm[i] + dx * s + dy * c + ey * fraction, z};
    }

    /**
     * Direction of travel of segment {@code i} as a unit vector.
     *
     * @param i the segment
     * @param atEnd at its end, else at its start
     * @return X, Y, Z parts
     */
    public double[] direction(int i, boolean atEnd) {
        double length = lengthMm(i);
        double dz = (z1Mm[i] - z0Mm[i]) / length;
        if (sweepRad[i] == 0) {
            return new double[] {(x1Mm[i] - x0Mm[i]) / length, (y1Mm[i] - y0Mm[i]) / length, dz};
        }
        double rx = (atEnd ? x1Mm[i] : x0Mm[i]) - cxMm[i];
        double ry = (atEnd ? y1Mm[i] : y0Mm[i]) - cyMm[i];
        double r = Plane2.length(rx, ry);
        double plan = planLengthMm(i) / length * Math.signum(sweepRad[i]);
        return new double[] {-ry / r * plan, rx / r * plan, dz};
    }

    /**
     * How much the path changes direction between segments {@code i - 1} and {@code i}, radians: 0 straight on, pi back
     * the way it came. 0 for the first segment.
     */
    public double cornerTurnRad(int i) {
        if (i == 0) {
            return 0;
        }
        double[] out = direction(i - 1, true);
        double[] in = direction(i, false);
        double mx = out[0] - in[0];
        double my = out[1] - in[1];
        double mz = out[2] - in[2];
        double px = out[0] + in[0];
        double py = out[1] + in[1];
        double pz = out[2] + in[2];
        return 2 * StrictMath.atan2(Math.sqrt(mx * mx + my * my + mz * mz), Math.sqrt(px * px + py * py + pz * pz));
    }

    /** Whether segment {@code i} goes straight down. */
    public boolean isPlunge(int i) {
        return z1Mm[i] < z0Mm[i] && planLengthMm(i) < StrokeReader.SIDEWAYS_MM;
    }

    /** The last segment that begins at or before {@code timeS}; -1 before the first. */
    public int at(double timeS) {
        int low = 0;
        int high = size - 1;
        while (low <= high) {
            int mid = (low + high) >>> 1;
            if (startS[mid] <= timeS) {
                low = mid + 1;
            } else {
                high = mid - 1;
            }
        }
        return high;
    }

    /** The smallest box round the plan view of segment {@code i}: x0, y0, x1, y1 in mm; arcs exactly. */
    public double[] planBox(int i) {
        double[] box = {
            Math.min(x0Mm[i], x1Mm[i]),
            Math.min(y0Mm[i], y1Mm[i]),
            Math.max(x0Mm[i], x1Mm[i]),
            Math.max(y0Mm[i], y1Mm[i])
        };
        if (sweepRad[i] != 0) {
            ArcBox.widen(box, x0Mm[i] - cxMm[i], y0Mm[i] - cyMm[i], cxMm[i], cyMm[i], sweepRad[i]);
        }
        return box;
    }
}
