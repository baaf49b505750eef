package foilproof.copper;

import foilproof.motion.Segments;
import foilproof.motion.ToolRun;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The centre lines of one tool run's feed moves, sampled: paths of points in the blank's frame, in the order of the
 * program. A path is a stretch that the cutter runs without lifting out.
 *
 * <p>A point is <em>judged</em> where the run is meant to cut foil there: on moves that keep their height (they fall or
 * rise by less than {@link #LEVEL_SLOPE}, which a program that follows touched points stays under; ramps, helices and
 * plunges are ways in, no grooves).
 */
public final class CutLines {
    /** Steeper moves are ways in or out, mm per mm; common practice, no source. */
    public static final double LEVEL_SLOPE = 0.02;

    private final double[] xMm;
    private final double[] yMm;
    private final int[] path;
    private final int[] program;
    private final int[] line;
    private final boolean[] judged;
    private final boolean[] closed;

    private CutLines(Builder b) {
        xMm = Arrays.copyOf(b.x.data, b.x.size);
        yMm = Arrays.copyOf(b.y.data, b.y.size);
        path = b.path.toArray();
        program = b.program.toArray();
        line = b.line.toArray();
        judged = new boolean[b.judged.size];
        for (int i = 0; i < judged.length; i++) {
            judged[i] = b.judged.data[i] != 0;
        }
        closed = closedPaths();
    }

    /** A path is closed where it passes its beginning again, within 1 um, after going round. */
    private boolean[] closedPaths() {
        boolean[] result = new boolean[path.length == 0 ? 0 : path[path.length - 1] + 1];
        int from = 0;
        for (int i = 1; i <= path.length; i++) {
            if (i < path.length && path[i] == path[from]) {
                continue;
            }
            result[path[from]] = meetsItself(from, i);
            from = i;
        }
        return result;
    }

    private boolean meetsItself(int from, int to) {
        double gone = 0;
        for (int k = from + 1; k < to; k++) {
            double dx = xMm[k] - xMm[k - 1];
            double dy = yMm[k] - yMm[k - 1];
            double length = Math.sqrt(dx * dx + dy * dy);
            gone += length;
            double s = length == 0
                    ? 0
                    : ((xMm[from] - xMm[k - 1]) * dx + (yMm[from] - yMm[k - 1]) * dy) / (length * length);
            double t = Math.max(0, Math.min(1, s));
            double ex = xMm[k - 1] + t * dx - xMm[from];
            double ey = yMm[k - 1] + t * dy - yMm[from];
            if (gone - (1 - t) * length > 0.05 && ex * ex + ey * ey < 1e-6) {
                return true;
            }
        }
        return false;
    }

    /** How many points there are. */
    public int size() {
        return xMm.length;
    }

    /** Point {@code i}, X in mm, blank's frame. */
    public double xMm(int i) {
        return xMm[i];
    }

    /** Point {@code i}, Y in mm, blank's frame. */
    public double yMm(int i) {
        return yMm[i];
    }

    /** Number of the path that point {@code i} belongs to, rising along the program. */
    public int path(int i) {
        return path[i];
    }

    /** Program of the move that leads to point {@code i}. */
    public int program(int i) {
        return program[i];
    }

    /** Physical line of the move that leads to point {@code i}, from 1. */
    public int line(int i) {
        return line[i];
    }

    /** Whether the foil must be cleared on the way to point {@code i}; never true for a path's first point. */
    public boolean judged(int i) {
        return judged[i];
    }

    /** Whether a path comes round to its own beginning. */
    public boolean closed(int path) {
        return closed[path];
    }

    /** The longer side of the box round the judged points, mm; 0 where there are none. */
    public double longerSideMm() {
        double x0 = Double.POSITIVE_INFINITY;
        double y0 = Double.POSITIVE_INFINITY;
        double x1 = Double.NEGATIVE_INFINITY;
        double y1 = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < size(); i++) {
            if (judged[i] || (i + 1 < size() && judged[i + 1])) {
                x0 = Math.min(x0, xMm[i]);
                y0 = Math.min(y0, yMm[i]);
                x1 = Math.max(x1, xMm[i]);
                y1 = Math.max(y1, yMm[i]);
            }
        }
        return x1 < x0 ? 0 : Math.max(x1 - x0, y1 - y0);
    }

    /**
     * The centre lines of a tool run's feed moves.
     *
     * @param segments all moves of the job
     * @param run the run
     * @param zeroMm where the run's zero nominally lies above the nominal foil top: 0 for one set on the foil,
     *     -(thickness + tape) for one set on the spoil board
     */
    public static CutLines of(Segments segments, ToolRun run, double zeroMm) {
        Builder b = builder();
        boolean down = false;
        for (int i = run.firstSegment(); i < run.endSegment(); i++) {
            boolean known = !segments.has(i, Segments.POSITION_UNKNOWN) && !segments.has(i, Segments.START_UNKNOWN);
            boolean cuts = segments.isFeed(i) && known && segments.lowestMm(i) + zeroMm < -1e-9;
            if (!cuts) {
                down = down && known && segments.planLengthMm(i) == 0 && segments.lowestMm(i) + zeroMm < -1e-9;
                continue;
            }
            if (!down) {
                b.begin(segments.x0Mm(i), segments.y0Mm(i), segments.program(i), segments.line(i));
                down = true;
            }
            addMove(b, segments, i, zeroMm);
            down = segments.z1Mm(i) + zeroMm < 0;
        }
        return b.build();
    }

    private static void addMove(Builder b, Segments segments, int i, double zeroMm) {
        double plan = segments.planLengthMm(i);
        if (plan == 0) {
            return;
        }
        boolean level = Math.abs(segments.z1Mm(i) - segments.z0Mm(i)) <= LEVEL_SLOPE * plan;
        boolean meant = level && Math.max(segments.z0Mm(i), segments.z1Mm(i)) + zeroMm < -1e-9;
        int steps = 1;
        if (segments.isArc(i)) {
            // Chords no further than 1 um from the arc (check-values Q23: sagitta c^2 / 8 R).
            double chord = Math.sqrt(8 * Math.max(segments.radiusMm(i), 1e-6) * 0.001);
            steps = (int) Math.min(20_000, 1 + StrictMath.floor(plan / chord));
        }
        for (int k = 1; k <= steps; k++) {
            double[] p = segments.pointAt(i, (double) k / steps);
            b.add(p[0], p[1], segments.program(i), segments.line(i), meant);
        }
    }

    /**
     * Where a tool run goes deepest below its zero while it cuts.
     *
     * @param zeroMm as in {@link #of}: for a zero on the spoil board the depth counts from the nominal foil top
     * @return null where it cuts nothing
     */
    public static ZWindowSetup.@Nullable Deepest deepest(Segments segments, ToolRun run, double zeroMm) {
        double lowest = 0;
        ZWindowSetup.Deepest deepest = null;
        for (int i = run.firstSegment(); i < run.endSegment(); i++) {
            if (segments.isFeed(i)
                    && !segments.has(i, Segments.POSITION_UNKNOWN)
                    && segments.lowestMm(i) + zeroMm < lowest - 1e-9) {
                lowest = segments.lowestMm(i) + zeroMm;
                double[] p = segments.pointAt(i, segments.z1Mm(i) <= segments.z0Mm(i) ? 1 : 0);
                deepest = new ZWindowSetup.Deepest(-lowest, p[0], p[1], segments.program(i), segments.line(i));
            }
        }
        return deepest;
    }

    /** Several runs' lines as one, in their order. */
    public static CutLines all(List<CutLines> several) {
        Builder b = builder();
        for (CutLines lines : several) {
            for (int i = 0; i < lines.size(); i++) {
                if (i == 0 || lines.path(i) != lines.path(i - 1)) {
                    b.begin(lines.xMm(i), lines.yMm(i), lines.program(i), lines.line(i));
                } else {
                    b.add(lines.xMm(i), lines.yMm(i), lines.program(i), lines.line(i), lines.judged(i));
                }
            }
        }
        return b.build();
    }

    /** Whether other lines run through the same points, of the same lines of the programs. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof CutLines o
                && Arrays.equals(xMm, o.xMm)
                && Arrays.equals(yMm, o.yMm)
                && Arrays.equals(path, o.path)
                && Arrays.equals(program, o.program)
                && Arrays.equals(line, o.line)
                && Arrays.equals(judged, o.judged);
    }

    @Override
    public int hashCode() {
        return 31 * (31 * Arrays.hashCode(xMm) + Arrays.hashCode(yMm)) + Arrays.hashCode(line);
    }

    /** Starts a new set of lines. */
    public static Builder builder() {
        return new Builder();
    }

    /** Collects points. */
    public static final class Builder {
        private final DoubleList x = new DoubleList(256);
        private final DoubleList y = new DoubleList(256);
        private final IntList path = new IntList(256);
        private final IntList program = new IntList(256);
        private final IntList line = new IntList(256);
        private final IntList judged = new IntList(256);
        private int paths;

        private Builder() {}

        /** Begins a path: the cutter comes down here. */
        public Builder begin(double xMm, double yMm, int programIndex, int physicalLine) {
            paths++;
            return add(xMm, yMm, programIndex, physicalLine, false);
        }

        /**
         * Goes on to a point.
         *
         * @param isJudged whether the foil must be cleared on the way there
         */
        public Builder add(double xMm, double yMm, int programIndex, int physicalLine, boolean isJudged) {
            x.add(xMm);
            y.add(yMm);
            path.add(paths - 1);
            program.add(programIndex);
            line.add(physicalLine);
            judged.add(isJudged ? 1 : 0);
            return this;
        }

        /** The finished lines. */
        public CutLines build() {
            return new CutLines(this);
        }
    }
}
