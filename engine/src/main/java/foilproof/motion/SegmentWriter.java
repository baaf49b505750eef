package foilproof.motion;

import foilproof.geom.ArcSweep;
import foilproof.language.CanonicalProgram;
import foilproof.language.PathMode;

/** Writes the moves of one program as segments, and knows where the cutter stands. */
final class SegmentWriter {
    /** Moves shorter than this go nowhere, mm: below the rounding of any program text. */
    private static final double NOWHERE_MM = 2e-9;
    /** Start and end of an arc nearer than this are one point, and the arc is a full turn, mm; as in the interpreter. */
    private static final double SAME_POINT_MM = 1e-6;
    /** Height above the foil that a retreat to a place nobody knows is taken to reach, mm. */
    static final double SAFE_HEIGHT_MM = 10;
    /** Largest distance between a chord and its arc in the XZ and YZ planes, mm: 0.5 um. */
    private static final double CHORD_ERROR_MM = 0.0005;

    private final SegmentsBuilder out;
    private final int program;
    private final double ownDeviationMm;
    private final boolean machineKnown;

    double x;
    double y;
    double z;
    int run;
    int line;
    int commandFlags;
    double feedMmPerMin;
    double moveS;
    float spindleRpm = Float.NaN;
    int spindleTurn;
    boolean unitsSaid;
    /** Axes (1 X, 2 Y, 4 Z) of which nobody knows where they stood when the program began. */
    private int startUnknown;

    private boolean placeUnknown;
    private byte pathMode = (byte) PathMode.UNSET.ordinal();
    private float deviationMm;

    SegmentWriter(SegmentsBuilder out, int program, double ownDeviationMm, boolean machineKnown) {
        this.out = out;
        this.program = program;
        this.ownDeviationMm = ownDeviationMm;
        this.machineKnown = machineKnown;
        this.deviationMm = (float) ownDeviationMm;
    }

    void standAt(double xMm, double yMm, double zMm, boolean known) {
        x = xMm;
        y = yMm;
        z = zMm;
        startUnknown = known ? 0 : 7;
    }

    void path(PathMode mode, double toleranceMm) {
        pathMode = (byte) mode.ordinal();
        deviationMm = (float) (Double.isNaN(toleranceMm) || toleranceMm <= 0 ? ownDeviationMm : toleranceMm);
    }

    void straight(SegmentKind kind, double toX, double toY, double toZ) {
        double dx = toX - x;
        double dy = toY - y;
        double dz = toZ - z;
        double squared = dx * dx + dy * dy + dz * dz;
        if (squared < NOWHERE_MM * NOWHERE_MM) {
            // Stays where it was to the last bit, so that every move begins exactly where the one before ended.
            startUnknown &= unknownAxes();
            return;
        }
        int i = begin(kind, toX, toY, toZ);
        if (kind != SegmentKind.RAPID) {
            feed(i, Math.sqrt(squared), 1);
        }
        arrive(toX, toY, toZ);
    }

    void arcXy(double toX, double toY, double toZ, double cx, double cy, int turn) {
        double sweep = ArcSweep.sweepRad(x - cx, y - cy, toX - cx, toY - cy, turn, SAME_POINT_MM);
        double rx = x - cx;
        double ry = y - cy;
        double plan = Math.abs(sweep) * Math.sqrt(rx * rx + ry * ry);
        double dz = toZ - z;
        double length = Math.sqrt(plan * plan + dz * dz);
        if (length < NOWHERE_MM) {
            startUnknown &= unknownAxes();
            return;
        }
        int i = begin(SegmentKind.FEED, toX, toY, toZ);
        out.cxMm[i] = cx;
        out.cyMm[i] = cy;
        out.sweepRad[i] = sweep;
        feed(i, length, 1);
        arrive(toX, toY, toZ);
    }

    /** An arc across the XY plane, as chords: {@code first} and {@code second} are the plane's axes in turn order. */
    void arcAcross(double toX, double toY, double toZ, double cFirst, double cSecond, int turn, int first, int second) {
        double[] from = {x, y, z};
        double[] to = {toX, toY, toZ};
        int axial = 3 - first - second;
        double f0 = from[first] - cFirst;
        double s0 = from[second] - cSecond;
        double f1 = to[first] - cFirst;
        double s1 = to[second] - cSecond;
        double r0 = Math.sqrt(f0 * f0 + s0 * s0);
        double r1 = Math.sqrt(f1 * f1 + s1 * s1);
        double sweep = ArcSweep.sweepRad(f0, s0, f1, s1, turn, SAME_POINT_MM);
        double radius = Math.max(r0, r1);
        int chords = 1;
        if (radius > CHORD_ERROR_MM) {
            // Sagitta of a chord that spans the angle 2 h: R (1 - cos h) <= error.
            double half = StrictMath.acos(1 - CHORD_ERROR_MM / radius);
            chords = (int) Math.max(1, Math.min(100_000, Math.ceil(Math.abs(sweep) / (2 * half))));
        }
        double start = StrictMath.atan2(s0, f0);
        double[] point = new double[3];
        for (int k = 1; k <= chords; k++) {
            double share = (double) k / chords;
            double angle = start + sweep * share;
            double r = r0 + (r1 - r0) * share;
            point[first] = cFirst + r * StrictMath.cos(angle);
            point[second] = cSecond + r * StrictMath.sin(angle);
            point[axial] = from[axial] + (to[axial] - from[axial]) * share;
            double[] end = k == chords ? to : point;
            double dx = end[0] - x;
            double dy = end[1] - y;
            double dz = end[2] - z;
            if (dx * dx + dy * dy + dz * dz < NOWHERE_MM * NOWHERE_MM) {
                continue;
            }
            int i = begin(SegmentKind.FEED, end[0], end[1], end[2]);
            out.flags[i] |= (short) Segments.ARC_CHORD;
            feed(i, Math.sqrt(dx * dx + dy * dy + dz * dz), chords);
            arrive(end[0], end[1], end[2]);
        }
    }

    private int begin(SegmentKind kind, double toX, double toY, double toZ) {
        int i = out.add();
        out.kind[i] = (byte) kind.ordinal();
        out.x0Mm[i] = x;
        out.y0Mm[i] = y;
        out.z0Mm[i] = z;
        out.x1Mm[i] = toX;
        out.y1Mm[i] = toY;
        out.z1Mm[i] = toZ;
        out.sweepRad[i] = 0;
        out.program[i] = program;
        out.line[i] = line;
        out.run[i] = run;
        out.spindleRpm[i] = spindleRpm;
        out.spindleTurn[i] = (byte) spindleTurn;
        out.pathMode[i] = pathMode;
        out.deviationMm[i] = deviationMm;
        out.feedMmPerMin[i] = Double.NaN;
        int flags = 0;
        if ((commandFlags & CanonicalProgram.IN_CYCLE) != 0) {
            flags |= Segments.CANNED_CYCLE;
        }
        if ((commandFlags & CanonicalProgram.MACHINE_COORDINATES) != 0) {
            flags |= Segments.MACHINE_COORDINATES;
        }
        if ((commandFlags & CanonicalProgram.COMPENSATED) != 0) {
            flags |= Segments.RADIUS_COMPENSATED;
        }
        if (!unitsSaid) {
            flags |= Segments.UNITS_UNSET;
        }
        if (startUnknown != 0) {
            flags |= Segments.START_UNKNOWN;
        }
        boolean endUnknown = (unknownAxes() & ~startUnknown) != 0
                || (!machineKnown && (commandFlags & CanonicalProgram.MACHINE_COORDINATES) != 0 && unknownAxes() != 0);
        if (placeUnknown || endUnknown) {
            flags |= Segments.POSITION_UNKNOWN;
        }
        placeUnknown = endUnknown;
        out.flags[i] = (short) flags;
        return i;
    }

    /** Axes (1 X, 2 Y, 4 Z) whose end nobody knows. */
    private int unknownAxes() {
        return ((commandFlags & CanonicalProgram.END_X_UNKNOWN) != 0 ? 1 : 0)
                | ((commandFlags & CanonicalProgram.END_Y_UNKNOWN) != 0 ? 2 : 0)
                | ((commandFlags & CanonicalProgram.END_Z_UNKNOWN) != 0 ? 4 : 0);
    }

    private void feed(int i, double lengthMm, int parts) {
        if (!Double.isNaN(moveS) && moveS > 0) {
            out.feedMmPerMin[i] = lengthMm / (moveS / parts) * 60;
            out.flags[i] |= (short) Segments.INVERSE_TIME;
        } else if (feedMmPerMin > 0) {
            out.feedMmPerMin[i] = feedMmPerMin;
        } else {
            out.feedMmPerMin[i] = Double.NaN;
            out.flags[i] |= (short) Segments.FEED_UNSET;
        }
    }

    private void arrive(double toX, double toY, double toZ) {
        startUnknown &= unknownAxes();
        x = toX;
        y = toY;
        z = toZ;
    }
}
