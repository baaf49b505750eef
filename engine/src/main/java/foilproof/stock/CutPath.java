package foilproof.stock;

import foilproof.motion.Segments;
import java.util.Arrays;

/**
 * The moves of one tool run in time order, as columns: what is swept. X and Y in mm in the blank's frame of the run's
 * side; Z is the height of the tip in mm in the run's own zero. Move {@code i} of the path is segment
 * {@code firstSegment + i} of the job. Immutable.
 */
public final class CutPath {
    final int size;
    final int firstSegment;
    final double[] x0Mm;
    final double[] y0Mm;
    final double[] z0Mm;
    final double[] x1Mm;
    final double[] y1Mm;
    final double[] z1Mm;
    final double[] cxMm;
    final double[] cyMm;
    final double[] sweepRad;
    final boolean[] rapid;
    final double[] startS;
    final double[] durationS;
    /** Asked tile by tile: found once. */
    private final double lowestMm;

    private CutPath(Builder b) {
        size = b.size;
        firstSegment = b.firstSegment;
        x0Mm = Arrays.copyOf(b.columns[0], size);
        y0Mm = Arrays.copyOf(b.columns[1], size);
        z0Mm = Arrays.copyOf(b.columns[2], size);
        x1Mm = Arrays.copyOf(b.columns[3], size);
        y1Mm = Arrays.copyOf(b.columns[4], size);
        z1Mm = Arrays.copyOf(b.columns[5], size);
        cxMm = Arrays.copyOf(b.columns[6], size);
        cyMm = Arrays.copyOf(b.columns[7], size);
        sweepRad = Arrays.copyOf(b.columns[8], size);
        startS = Arrays.copyOf(b.columns[9], size);
        durationS = Arrays.copyOf(b.columns[10], size);
        rapid = Arrays.copyOf(b.rapid, size);
        double lowest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < size; i++) {
            lowest = Math.min(lowest, lowestMm(i));
        }
        lowestMm = lowest;
    }

    /**
     * The path of the segments {@code first} (inclusive) to {@code end} (exclusive) of a job. Of a move whose start is
     * not known only the end is kept, a move whose place is not known becomes nothing (both stay in the count, so that
     * indices agree): what is not known is not cut.
     */
    public static CutPath of(Segments segments, int first, int end) {
        Builder b = new Builder(first, end - first);
        for (int i = first; i < end; i++) {
            double x0 = segments.x0Mm(i);
            double y0 = segments.y0Mm(i);
            double z0 = segments.z0Mm(i);
            double sweep = segments.sweepRad(i);
            double z1 = segments.z1Mm(i);
            if (segments.has(i, Segments.START_UNKNOWN)) {
                x0 = segments.x1Mm(i);
                y0 = segments.y1Mm(i);
                z0 = z1;
                sweep = 0;
            }
            if (segments.has(i, Segments.POSITION_UNKNOWN)) {
                z0 = Double.POSITIVE_INFINITY;
                z1 = Double.POSITIVE_INFINITY;
            }
            b.add(segments.isRapid(i), new double[] {
                x0,
                y0,
                z0,
                segments.x1Mm(i),
                segments.y1Mm(i),
                z1,
                segments.cxMm(i),
                segments.cyMm(i),
                sweep,
                segments.startS(i),
                segments.durationS(i)
            });
        }
        return b.build();
    }

    /** Whether another path takes the same moves, at whatever moments. */
    boolean sameWay(CutPath other) {
        return size == other.size
                && Arrays.equals(rapid, other.rapid)
                && Arrays.equals(x0Mm, other.x0Mm)
                && Arrays.equals(y0Mm, other.y0Mm)
                && Arrays.equals(z0Mm, other.z0Mm)
                && Arrays.equals(x1Mm, other.x1Mm)
                && Arrays.equals(y1Mm, other.y1Mm)
                && Arrays.equals(z1Mm, other.z1Mm)
                && Arrays.equals(cxMm, other.cxMm)
                && Arrays.equals(cyMm, other.cyMm)
                && Arrays.equals(sweepRad, other.sweepRad);
    }

    /** Whether another path has its moves at the same moments and under the same numbers. */
    boolean sameMoments(CutPath other) {
        return firstSegment == other.firstSegment
                && Arrays.equals(startS, other.startS)
                && Arrays.equals(durationS, other.durationS);
    }

    /** Equal for paths that take the same moves. */
    int wayHash() {
        int hash = size;
        hash = 31 * hash + Arrays.hashCode(x1Mm);
        hash = 31 * hash + Arrays.hashCode(y1Mm);
        return 31 * hash + Arrays.hashCode(z1Mm);
    }

    /** A path made by hand; times run one second a move from 0. */
    public static Builder builder() {
        return new Builder(0, 64);
    }

    /** How many moves. */
    public int size() {
        return size;
    }

    /** Index in the job of the path's first segment. */
    public int firstSegment() {
        return firstSegment;
    }

    /** Whether move {@code i} is a rapid. */
    public boolean isRapid(int i) {
        return rapid[i];
    }

    /** When move {@code i} begins, seconds since the job's start. */
    public double startS(int i) {
        return startS[i];
    }

    /** When move {@code i} ends, seconds since the job's start. */
    public double endS(int i) {
        return startS[i] + durationS[i];
    }

    /** Height of the tip at a fraction (0 to 1) of move {@code i}, mm in the run's zero. */
    public double zMm(int i, double fraction) {
        return z0Mm[i] + (z1Mm[i] - z0Mm[i]) * fraction;
    }

    /** Lowest height of the tip on move {@code i}, mm in the run's zero; infinite where the move's place is unknown. */
    public double lowestMm(int i) {
        return Math.min(z0Mm[i], z1Mm[i]);
    }

    /** Lowest height of the tip on all moves, mm in the run's zero; infinite where there is none. */
    public double lowestMm() {
        return lowestMm;
    }

    /** How many moves have begun at a time: the index one past the last that starts at or before it. */
    public int begunAt(double timeS) {
        int low = 0;
        int high = size;
        while (low < high) {
            int mid = (low + high) >>> 1;
            if (startS[mid] <= timeS) {
                low = mid + 1;
            } else {
                high = mid;
            }
        }
        return low;
    }

    /**
     * The same path up to a moment: the moves that have ended, and the part done of the one under way, at even speed.
     *
     * @param timeS seconds since the job's start
     */
    CutPath underWay(int move, double timeS) {
        double f = durationS[move] <= 0 ? 1 : Math.max(0, Math.min(1, (timeS - startS[move]) / durationS[move]));
        Builder b = new Builder(firstSegment + move, 1);
        double x1 = x0Mm[move] + (x1Mm[move] - x0Mm[move]) * f;
        double y1 = y0Mm[move] + (y1Mm[move] - y0Mm[move]) * f;
        if (sweepRad[move] != 0) {
            double turn = sweepRad[move] * f;
            double dx = x0Mm[move] - cxMm[move];
            double dy = y0Mm[move] - cyMm[move];
            x1 = cxMm[move] + dx * StrictMath.cos(turn) - dy * StrictMath.sin(turn);
            y1 = cyMm[move] + dx * StrictMath.sin(turn) + dy * StrictMath.cos(turn);
        }
        b.add(rapid[move], new double[] {
            x0Mm[move],
            y0Mm[move],
            z0Mm[move],
            x1,
            y1,
            zMm(move, f),
            cxMm[move],
            cyMm[move],
            sweepRad[move] * f,
            startS[move],
            durationS[move] * f
        });
        return b.build();
    }

    /** Collects moves. */
    public static final class Builder {
        private static final int COLUMNS = 11;
        private final int firstSegment;
        private int size;
        private double[][] columns;
        private boolean[] rapid;

        Builder(int firstSegment, int capacity) {
            this.firstSegment = firstSegment;
            columns = new double[COLUMNS][Math.max(4, capacity)];
            rapid = new boolean[Math.max(4, capacity)];
        }

        void add(boolean isRapid, double[] values) {
            if (size == rapid.length) {
                int n = size * 2;
                for (int c = 0; c < COLUMNS; c++) {
                    columns[c] = Arrays.copyOf(columns[c], n);
                }
                rapid = Arrays.copyOf(rapid, n);
            }
            for (int c = 0; c < COLUMNS; c++) {
                columns[c][size] = values[c];
            }
            rapid[size++] = isRapid;
        }

        /** A straight move at feed, mm. */
        public Builder line(double x0Mm, double y0Mm, double z0Mm, double x1Mm, double y1Mm, double z1Mm) {
            add(false, new double[] {x0Mm, y0Mm, z0Mm, x1Mm, y1Mm, z1Mm, 0, 0, 0, size, 1});
            return this;
        }

        /** A straight rapid, mm. */
        public Builder rapid(double x0Mm, double y0Mm, double z0Mm, double x1Mm, double y1Mm, double z1Mm) {
            add(true, new double[] {x0Mm, y0Mm, z0Mm, x1Mm, y1Mm, z1Mm, 0, 0, 0, size, 1});
            return this;
        }

        /** An arc or helix at feed about (cx, cy), counter-clockwise positive; its end follows from the sweep. */
        public Builder arc(
                double x0Mm, double y0Mm, double z0Mm, double cxMm, double cyMm, double sweepRad, double z1Mm) {
            double dx = x0Mm - cxMm;
            double dy = y0Mm - cyMm;
            double c = StrictMath.cos(sweepRad);
            double s = StrictMath.sin(sweepRad);
            add(false, new double[] {
                x0Mm, y0Mm, z0Mm, cxMm + dx * c - dy * s, cyMm + dx * s + dy * c, z1Mm, cxMm, cyMm, sweepRad, size, 1
            });
            return this;
        }

        /** The path of what was added. */
        public CutPath build() {
            return new CutPath(this);
        }
    }
}
